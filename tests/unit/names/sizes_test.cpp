// The table of sizes: rows, columns, and rows taken from a library's table.
#include <catch2/catch.hpp>

#include "compiler/text/limits.hpp"
#include "tests/unit/names/checked.hpp"

using namespace stk;
using names::Checked;
using names::codes;

TEST_CASE("a pattern without a table is in one unnamed size") {
  Checked checked;
  checked.check("let body = 48 sts\n");
  CHECK(checked.codes() == "");
  CHECK(checked.program.sizes.size() == 1);
  CHECK(checked.program.sizes.columns[0].name.empty());
  CHECK_FALSE(checked.program.sizes.declared);
}

TEST_CASE("rows give one cell for each size") {
  Checked checked;
  checked.check(
      "sizes {\n  child_m women_m\n  printed \"Child M\" \"Women M\"\n  foot_length 18.5 24.5 cm\n  heel - 7 "
      "rows\n}\n");
  CHECK(checked.codes() == "");
  const names::SizesTable& sizes = checked.program.sizes;
  CHECK(sizes.columns[1].printed == "Women M");
  CHECK(sizes.index_of("women_m") == 1u);
  CHECK(sizes.index_of("men_m") == std::nullopt);
  REQUIRE(sizes.measures.size() == 2);
  CHECK(sizes.measures[0].cells[1]->digits == "24.5");
  CHECK(sizes.measures[0].unit->text == "cm");
  CHECK(sizes.measures[1].cells[0]->dash);
}

TEST_CASE("a minus is glued to its number, a dash stands alone") {
  Checked checked;
  checked.check("sizes {\n  a b c\n  ease -5 - -7 %\n}\nlet e = ease\n");
  CHECK(checked.codes() == "");
  const auto& cells = checked.program.sizes.measures.at(0).cells;
  CHECK(cells[0]->negative);
  CHECK(cells[1]->dash);
  CHECK(cells[2]->negative);
  CHECK(cells[2]->digits == "7");
}

TEST_CASE("a ragged row says which size lacks a value") {
  Checked checked;
  checked.check("sizes {\n  child_m women_m men_m\n  foot_length 18.5 24.5 cm\n}\nlet half = foot_length / 2\n");
  CHECK(checked.codes() == "G01:4");
  CHECK(checked.only().primary_label == "2 of 3 values: none is left for men_m");
  CHECK(checked.program.sizes.measures[0].cells[2] == nullptr);
  CHECK(codes("sizes {\n  child_m women_m\n  foot_length 18.5 24.5 27 cm\n}\n") == "G01:4");
}

TEST_CASE("sizes twice, a size twice, no size") {
  CHECK(codes("sizes {\n  child_m child_m\n  foot_length 18.5 24.5 cm\n}\n") == "G02:3");
  CHECK(codes("sizes {\n  a b\n  foot 1 2 cm\n}\nsizes {\n  a b\n  leg 1 2 cm\n}\n") == "G05:6");
  CHECK(codes("sizes {\n}\n") == "G09:2");
}

TEST_CASE("the number of sizes is limited on both sides") {
  const auto many = [](std::uint32_t count) {
    std::string columns;
    for (std::uint32_t i = 1; i <= count; ++i) columns += " s" + std::to_string(i);
    return codes("sizes {\n " + columns + "\n}\n");
  };
  CHECK(many(text::limits::sizes) == "");
  CHECK(many(text::limits::sizes + 1) == "G03:3");
}

TEST_CASE("texts belong into the row printed") {
  CHECK(codes("sizes {\n  a b\n  foot 18.5 \"24.5\" cm\n}\n") == "G07:4");
  CHECK(codes("sizes {\n  a b\n  label \"A\" \"B\"\n}\n") == "G08:4");
  CHECK(codes("sizes {\n  a b\n  printed 1 2\n}\n") == "G08:4");
}

TEST_CASE("measures are taken from the library by the names of the sizes") {
  Checked checked;
  checked.check(
      "sizes {\n  women_m men_l\n  from feet foot_length, foot_around\n}\nlet body = foot_around + foot_length\n");
  CHECK(checked.codes() == "");
  const names::SizesTable& sizes = checked.program.sizes;
  REQUIRE(sizes.measures.size() == 2);
  CHECK(sizes.measures[0].name == "foot_length");
  CHECK(sizes.measures[0].cells[0]->digits == "24.6");
  CHECK(sizes.measures[1].cells[1]->digits == "27.3");
  CHECK(sizes.measures[0].table != nullptr);
}

TEST_CASE("a table, a measure or a size that the library does not have") {
  CHECK(codes("sizes {\n  women_m men_l\n  from feat foot_length\n}\n") == "N26:4");
  CHECK(codes("sizes {\n  women_m men_l\n  from feet foot_lenght\n}\n") == "G06:4");
  CHECK(codes("sizes {\n  women_m men_xxl\n  from feet foot_length\n}\n") == "G04:3");
}

TEST_CASE("one name for two rows") {
  CHECK(codes("sizes {\n  a b\n  foot 1 2 cm\n  foot 1 2 cm\n}\n") == "N02:5");
  CHECK(codes("sizes {\n  a b\n  foot 1 2 cm\n}\nlet foot = 3\n") == "N02:6");
}

TEST_CASE("a library's own table is checked too") {
  CHECK(codes("measures legs {\n  a b\n  calf 30 cm\n}\n") == "G01:4");
}

TEST_CASE("a row may be worked out from others, from lets and from a library's formulas") {
  Checked checked;
  checked.check(
      "use shoes\nsizes {\n  small large\n  foot_around = foot_length * share\n  shoe 36 40\n"
      "  foot_length = foot_of_eu(shoe), \"by the shoe\"\n}\nlet share = 93%\n");
  CHECK(checked.codes() == "");
  const names::SizesTable& sizes = checked.program.sizes;
  REQUIRE(sizes.measures.size() == 3);
  CHECK(sizes.measures[0].formula != nullptr);
  CHECK(sizes.measures[1].formula == nullptr);
  CHECK(sizes.measures[2].row->source != nullptr);
}

TEST_CASE("rows that are worked out from themselves, from nothing known, or by a gauge") {
  CHECK(codes("sizes {\n  a b\n  foot = leg * 2\n  leg = foot / 2\n}\n") == "N04:4");
  CHECK(codes("sizes {\n  a b\n  foot = leg_\n}\nlet leg = 3\n") == "N01:4");
  CHECK(codes("sizes {\n  a b\n  foot 20 24 cm\n  body = stitches(foot)\n}\n") == "G10:5");
  // through what it names, and not where it only stands beside it
  CHECK(codes("sizes {\n  a b\n  foot 20 24 cm\n  body = half\n}\nlet half = rows(foot) / 2\n") == "G10:5");
  CHECK(codes("sizes {\n  a b\n  foot 20 24 cm\n  calf = foot\n}\nlet half = rows(calf) / 2\n") == "");
  CHECK(codes("sizes {\n  a b\n  printed = 3\n}\n") == "G08:4");
  CHECK(codes("sizes {\n  a b\n  foot = \n}\n").substr(0, 3) == "S01");
}

TEST_CASE("a table of measures is written down, not worked out") {
  CHECK(codes("measures legs {\n  a b\n  calf = 30 cm\n}\n") == "G08:4");
}
