// Counting people: which cell has which feet, and which size takes them.
#include "compiler/fit/coverage.hpp"

#include <catch2/catch.hpp>

using namespace stk;
using values::Rational;

namespace {

values::Quantity mm(std::int64_t value) { return {Rational(value), values::dimensions::length}; }
values::Quantity percent(std::int64_t value) {
  return {*Rational::fraction(value, 100), values::dimensions::plain};
}

// One size: 20 cm around with -20 to 0 %, 23 cm long with -8 to 0 %.
knit::Facts one_size() {
  knit::Facts facts;
  facts.sizes = {{"women_m", "Women M"}};
  knit::MeasureFacts around, length;
  around.name = "around";
  around.finished = {mm(200)};
  around.ease_declared = true;
  around.ease_from = {percent(-20)};
  around.ease_to = {percent(0)};
  length.name = "length";
  length.finished = {mm(230)};
  length.ease_declared = true;
  length.ease_from = {percent(-8)};
  length.ease_to = {percent(0)};
  knit::EditionFacts edition;
  edition.measures = {around, length};
  facts.editions = {edition};
  return facts;
}

}  // namespace

TEST_CASE("a table of people is read line by line, and what is none is left out") {
  const auto cells = fit::read_people("# remark\nsex,a,b,c\nwomen,240,220,7\nmen,250,230,9\r\nwomen,x,220,1\nmen,1,2\n");
  REQUIRE(cells.size() == 2);
  CHECK(cells[0].women);
  CHECK(cells[0].people == 7);
  CHECK(cells[1].girth == 230);
  CHECK(cells[0].middle_length() == Rational::of(485, 2));
}

TEST_CASE("a size takes the feet for which the sock has the ease declared") {
  const knit::Facts facts = one_size();
  // Around: 20 cm with -20 to 0 % is for 20 to 25 cm; long: 23 cm with -8 to 0 % for 23 to 25 cm.
  const std::vector<fit::Cell> people{
      {true, 240, 220, 10},   // takes it
      {true, 260, 220, 3},    // too long
      {true, 240, 255, 2},    // long enough, too big around
      {false, 230, 245, 4},   // within, at the corner
      {false, 200, 100, 5},   // neither
  };
  const fit::Coverage coverage = fit::coverage_of(facts, facts.editions[0], 1, people);
  REQUIRE(coverage.boxes.size() == 1);
  CHECK(coverage.boxes[0].girth_from == Rational(200));
  CHECK(coverage.boxes[0].girth_to == Rational(250));
  CHECK(coverage.boxes[0].length_from == Rational(230));
  CHECK(coverage.boxes[0].length_to == Rational(250));
  CHECK(coverage.women.people == 15);
  CHECK(coverage.women.fitted == 10);
  CHECK(coverage.women.no_length == 3);
  CHECK(coverage.women.no_girth == 2);
  CHECK(coverage.men.fitted == 4);
  CHECK(coverage.men.no_length == 5);
  REQUIRE(coverage.gaps.size() == 3);
  CHECK(coverage.gaps[0].people == 3);
  CHECK(coverage.gaps[0].length == 260);
  CHECK_FALSE(coverage.gaps[2].women);
}

TEST_CASE("length in one size and girth in another is no size") {
  knit::Facts facts = one_size();
  facts.sizes.push_back({"men_l", "Men L"});
  knit::MeasureFacts& around = facts.editions[0].measures[0];
  knit::MeasureFacts& length = facts.editions[0].measures[1];
  around.finished.push_back(mm(240));
  around.ease_from.push_back(percent(-20));
  around.ease_to.push_back(percent(0));
  length.finished.push_back(mm(270));
  length.ease_from.push_back(percent(-8));
  length.ease_to.push_back(percent(0));
  const fit::Coverage coverage = fit::coverage_of(facts, facts.editions[0], 3, {{true, 240, 270, 6}});
  CHECK(coverage.women.fitted == 0);
  CHECK(coverage.women.not_together == 6);
}

TEST_CASE("without both finished measures nobody is counted") {
  knit::Facts facts = one_size();
  facts.editions[0].measures.pop_back();
  CHECK(fit::coverage_of(facts, facts.editions[0], 1, {{true, 240, 220, 10}}).boxes.empty());
}
