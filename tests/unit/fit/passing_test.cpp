// Over the heel, at the edge, at the top: what is measured against what, and how much would mend it.
#include "compiler/fit/passing.hpp"

#include <catch2/catch.hpp>

#include "compiler/fit/grading.hpp"

using namespace stk;
using values::Rational;

namespace {

values::Quantity mm(std::int64_t value) { return {Rational(value), values::dimensions::length}; }

// 24 sts and 34 rows to 10 cm.
fit::Stretch stretch(std::int64_t stitches, std::int64_t rows, fit::Fabric fabric = fit::Fabric::plain) {
  fit::Stretch one;
  one.section = "Leg";
  one.stitches = stitches;
  one.rows = rows;
  one.fabric = fabric;
  one.sts_per_mm = Rational::of(6, 25);
  one.rows_per_mm = Rational::of(17, 50);
  return one;
}

knit::Facts facts(std::vector<std::pair<const char*, std::int64_t>> rows) {
  knit::Facts facts;
  facts.sizes = {{"women_m", "Women M"}};
  for (const auto& [name, value] : rows) {
    facts.body_measure_names.push_back(name);
    facts.body_measures.push_back({mm(value)});
  }
  return facts;
}

}  // namespace

TEST_CASE("the heel is held against the part that opens least of what it should, not against the narrowest") {
  fit::Leg leg;
  leg.stretches = {stretch(44, 20, fit::Fabric::rib), stretch(48, 40), stretch(54, 9, fit::Fabric::stranded)};
  const auto passage = fit::passage_of_fabric(facts({{"heel_around", 310}}), leg, 0);
  REQUIRE(passage);
  // 31 cm through 18.3, 20 and 22.5 cm: 1.69 of 2, 1.55 of 1.6, 1.38 of 1.3.
  CHECK(passage->stretch.stitches == 54);
  CHECK_FALSE(passage->passes());
  CHECK(passage->stitches_missing == 4);   // 31 / 1.3 = 23.85 cm are 57.2 sts: 58
  CHECK_FALSE(fit::passage_of_fabric(facts({{"foot_around", 227}}), leg, 0));
}

TEST_CASE("only an edge that does not yield is held against the heel") {
  fit::Leg leg;
  leg.stretches = {stretch(48, 40)};
  CHECK_FALSE(fit::passage_of_edge(facts({{"heel_around", 310}}), leg, 0));
  leg.edge.yields = false;
  const auto edge = fit::passage_of_edge(facts({{"heel_around", 310}}), leg, 0);
  REQUIRE(edge);
  CHECK_FALSE(edge->passes());
  CHECK(edge->stitches_missing == 10);
}

TEST_CASE("a short leg sits on the ankle, one as long as the foot on the calf, and a cord may draw it in") {
  const knit::Facts body = facts({{"foot_length", 246}, {"ankle_around", 215}, {"calf_around", 372}});
  fit::Leg leg;
  leg.stretches = {stretch(48, 60)};
  CHECK(fit::top_of(body, leg, 0)->against == "ankle");
  leg.stretches = {stretch(72, 90)};
  const auto calf = fit::top_of(body, leg, 0);
  CHECK(calf->against == "calf");
  CHECK_FALSE(calf->tight());
  leg.stretches = {stretch(60, 60)};   // 25 cm on an ankle of 21.5 cm: +16 %
  CHECK(fit::top_of(body, leg, 0)->loose());
  CHECK(fit::top_of(body, leg, 0)->stitches_off == -3);   // 24.08 cm are 57.8 sts: 57
  leg.drawn_in = true;
  CHECK_FALSE(fit::top_of(body, leg, 0)->loose());
  leg.stretches = {stretch(36, 60)};   // 15 cm: -30 %
  CHECK(fit::top_of(body, leg, 0)->tight());
  CHECK(fit::top_of(body, leg, 0)->stitches_off == 3);    // 16.125 cm are 38.7 sts: 39
}

TEST_CASE("sizes are compared by their feet, not by their place in the table") {
  knit::Facts body;
  body.sizes = {{"women_s", "Women S"}, {"women_l", "Women L"}, {"men_s", "Men S"}};
  body.body_measure_names = {"foot_length", "foot_around"};
  body.body_measures = {{mm(226), mm(268), mm(250)}, {mm(209), mm(248), mm(232)}};
  knit::MeasureFacts around;
  around.name = "around";
  around.body = body.body_measures[1];
  around.finished = {mm(190), mm(225), mm(210)};
  CHECK(fit::order_of(body, around) == std::vector<std::size_t>{0, 2, 1});
  CHECK(fit::backwards(body, around).empty());
  CHECK(fit::uneven(body, around).empty());
  around.finished = {mm(190), mm(205), mm(210)};
  CHECK(fit::backwards(body, around) == std::vector<std::pair<std::size_t, std::size_t>>{{2, 1}});
  around.finished = {mm(160), mm(225), mm(225)};
  CHECK(fit::uneven(body, around) == std::vector<std::pair<std::size_t, std::size_t>>{{0, 2}});
  around.ease_declared = true;   // the range declared is the designer's word
  CHECK(fit::uneven(body, around).empty());
  // A leg has no body measure of its own: only where one size is larger in every row does it count.
  knit::MeasureFacts leg;
  leg.name = "leg";
  leg.finished = {mm(160), mm(150), mm(150)};
  leg.body = {std::nullopt, std::nullopt, std::nullopt};
  CHECK(fit::backwards(body, leg).size() == 2);
  body.body_measures[1] = {mm(250), mm(248), mm(232)};
  CHECK(fit::backwards(body, leg).empty());
}
