// The table of a piece: where the work stands after each section.
#include "compiler/document/check_table.hpp"

#include <catch2/catch.hpp>

#include "compiler/document/narrator.hpp"
#include "tests/unit/document/told.hpp"

using namespace stk;
using namespace stk::document;
using knit::Step;
using test::plain;
using test::Recorder;

namespace {

const std::vector<knit::SizeName> five{{"a", "A"}, {"b", "B"}, {"c", "C"}, {"d", "D"}, {"e", "E e"}};

// A section of some rows over so many stitches in five sizes; in the last one they come off.
SectionEnd section(const std::string& title, std::int64_t rows, knit::SizeSet scope = 31, bool off = false) {
  Recorder r(5);
  r.cast_on({12, 14, 16, 18, 20});
  r.knit({rows, rows + 2, rows + 4, rows + 6, rows + 9});
  if (off) r.gather();
  std::vector<std::optional<knit::MachineState>> states(5);
  for (std::size_t i = 0; i < 5; ++i) {
    if (knit::has(scope, i)) states[i] = r.states()[i];
  }
  if (!off) return section_end(title, states);
  States before = states;
  const std::vector<Step> steps = r.take();
  for (std::size_t i = 0; i < 5; ++i) before[i] = steps.back().records[i].before;
  return section_end(title, states, before);
}

std::string text_of_rows(const Table& table) {
  std::string text;
  for (const auto& row : table.rows) {
    for (const std::string& cell : row) text += cell + "|";
    text += "\n";
  }
  return plain(text);
}

}  // namespace

TEST_CASE("each section has a column: counter, side, stitches and end needles of every size") {
  const auto table = check_table({section("Leg", 20), section("Foot", 8)}, five, 31);
  REQUIRE(table.has_value());
  CHECK(table->columns == std::vector<std::string>{"Size", "Leg", "Foot"});
  CHECK(text_of_rows(*table) ==
        "A|020 COR 12 L6–R6|008 COR 12 L6–R6|\n"
        "B|022 COR 14 L7–R7|010 COR 14 L7–R7|\n"
        "C|024 COR 16 L8–R8|012 COR 16 L8–R8|\n"
        "D|026 COR 18 L9–R9|014 COR 18 L9–R9|\n"
        "E e|029 COL 20 L10–R10|017 COL 20 L10–R10|\n");
}

TEST_CASE("a section that leaves nothing on the needles has no column; few sizes have no table") {
  const auto table = check_table({section("Leg", 20), section("Slot", 20), section("Foot", 8), section("Toe", 8, 31, true)}, five, 31);
  REQUIRE(table.has_value());
  CHECK(table->columns == std::vector<std::string>{"Size", "Leg", "Foot"});   // nor one in which nothing moved on
  CHECK_FALSE(check_table({section("Leg", 20), section("Leg", 20)}, five, 31).has_value());
  CHECK_FALSE(check_table({section("Toe", 8, 31, true)}, five, 31).has_value());
  CHECK_FALSE(check_table({section("Leg", 20), section("Foot", 8)}, five, 15).has_value());
}

TEST_CASE("sections of one title that different sizes take share a column, others do not") {
  const auto shared = check_table({section("Leg", 20, 3), section("Leg", 30, 28), section("Foot", 8)}, five, 31);
  REQUIRE(shared.has_value());
  CHECK(shared->columns == std::vector<std::string>{"Size", "Leg", "Foot"});
  CHECK(plain(shared->rows[1][1]) == "022 COR 14 L7–R7");
  CHECK(plain(shared->rows[2][1]) == "034 COR 16 L8–R8");
  const auto twice = check_table({section("Stripe", 20, 3), section("Stripe", 30, 31)}, five, 31);
  REQUIRE(twice.has_value());
  CHECK(twice->columns.size() == 3);
  CHECK(twice->rows[4][1] == "-");
}

TEST_CASE("a section within which some sizes go on in sections of their own ends where the first of these begins") {
  Recorder r(4);
  r.cast_on({12, 14, 16, 18});
  r.open(Step::Kind::section, "Edge", 15);
  r.knit({4, 4, 4, 4});
  r.open(Step::Kind::only_for, "", 12);
  r.open(Step::Kind::section, "Leg", 12);
  r.knit({0, 0, 30, 30});
  r.close();
  r.close();
  r.close();
  const knit::Facts facts = test::sample_facts();
  const Printing printing{facts, facts.editions[0], 15, yarn_words(facts.editions[0].yarns), "sock"};
  Charts charts(facts, 15);
  Worked worked;
  std::vector<Block> blocks;
  Narrator narrator(printing, charts, blocks, worked);
  const std::vector<Step> steps = r.take();
  narrator.tell_all(steps, 1);
  REQUIRE(narrator.section_ends().size() == 2);
  CHECK(narrator.section_ends()[0].title == "Edge");
  CHECK(plain(narrator.section_ends()[0].stands[3].value_or("")) == "004 COR 18 L9–R9");
  CHECK(narrator.section_ends()[1].title == "Leg");
  CHECK_FALSE(narrator.section_ends()[1].stands[0].has_value());
  CHECK(plain(narrator.section_ends()[1].stands[3].value_or("")) == "034 COR 18 L9–R9");
}

TEST_CASE("a piece that comes off in its second section has a table up to there") {
  const auto table = check_table({section("Leg", 20), section("Instep", 8, 31, true)}, five, 31);
  REQUIRE(table.has_value());
  CHECK(table->columns == std::vector<std::string>{"Size", "Leg", "Instep"});
  CHECK(plain(table->rows[0][2]) == "008 COR 12 L6–R6");
}
