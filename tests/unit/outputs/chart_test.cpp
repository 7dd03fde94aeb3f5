// Charts in characters and as SVG.
#include <catch2/catch.hpp>

#include "compiler/document/write.hpp"
#include "compiler/outputs/chart_svg.hpp"
#include "compiler/outputs/chart_text.hpp"
#include "tests/unit/sample_facts.hpp"

using namespace stk;
using document::Chart;
using document::Mark;
using document::NeedleChart;

namespace {

std::string drawing(const Chart& chart) {
  std::string text;
  for (const std::string& line : outputs::chart_lines(chart, 80)) text += line + "\n";
  return text;
}

std::vector<Chart> sample_charts() {
  return document::write_document(test::sample_facts(), 0, 15).charts;
}

bool holds(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

}  // namespace

TEST_CASE("one repeat serves every size") {
  const std::vector<Chart> charts = sample_charts();
  REQUIRE(charts.size() == 2);
  CHECK(drawing(charts[1]) ==
        "Chart 2. Move the last st of each group of 3 to the needle on its left\n"
        "\n"
        "  before  | | |\n"
        "  move      <-+\n"
        "  after   | 2 .\n"
        "  repeat  ===== × 10 (12, 12, 14)\n"
        "\n"
        "  Leftmost needle: L15 (L18, L18, L21).\n"
        "  Rightmost needle: R15 (R18, R18, R21).\n"
        "\n"
        "  |    needle in work\n"
        "  .    needle out of work\n"
        "  2    needle in work with that many loops\n"
        "  <-+  where the loops go\n");
}

TEST_CASE("edges are drawn in full, and arrows that would cross get lines of their own") {
  CHECK(holds(drawing(sample_charts()[0]),
              "  before  | | | | | | | | |\n"
              "  move    +-> +->   <-+ <-+\n"
              "            +->       <-+\n"
              "  after   . | | 2 | 2 | | .\n"
              "  repeat          = × 28"));
}

TEST_CASE("sizes that do not share a tile get charts of their own, with their names") {
  knit::Facts facts = test::sample_facts();
  test::Recorder r(4);
  r.cast_on({36, 42, 48, 54});
  knit::Step& step = r.move_last_of_each(3);
  step.records[0].drawn->moves.clear();  // one size does something else
  facts.editions[0].pieces[0].first = r.take();
  const std::vector<Chart> charts = document::write_document(facts, 0, 15).charts;
  REQUIRE(charts.size() == 2);
  CHECK(charts[0].sizes == "Women\u00A0M, Women\u00A0L and Men\u00A0L");
  CHECK(charts[1].sizes == "Child\u00A0M");
}

TEST_CASE("a tile broken off before needles out of work is completed; plain edges may differ from size to size") {
  knit::Facts facts = test::sample_facts();
  test::Recorder r(4);
  knit::Step& step = r.op(knit::Act::move);
  step.operation.selections = {{}};
  step.operation.selections[0].kind = knit::Selection::Kind::of_each;
  step.operation.selections[0].group.assign(4, 2);
  step.operation.side = knit::Side::left;
  const auto bed = [](const std::string& before, const std::string& after) {
    knit::DrawnBed drawn;
    drawn.first = {-4, {}};
    for (const auto& [row, needles] : {std::pair(&before, &drawn.before), std::pair(&after, &drawn.after)}) {
      for (const char c : *row) {
        needles->emplace_back();
        if (c == '.') continue;
        needles->back().position = knit::DrawnNeedle::Position::work;
        needles->back().loops = c == '2' ? 2 : c == 'o' ? 0 : 1;
      }
    }
    for (std::size_t i = 0; i < after.size(); ++i) {
      if (after[i] == '2') drawn.moves.push_back({static_cast<int>(i) + 1, static_cast<int>(i)});
    }
    return drawn;
  };
  const auto chart_of = [&](const std::vector<std::pair<std::string, std::string>>& rows) {
    for (std::size_t i = 0; i < 4; ++i) {
      step.records[i].drawn = bed(rows[i].first, rows[i].second);
      step.records[i].target = step.records[i].amount = 1;
    }
    facts.editions[0].pieces[0].first = {step};
    const std::vector<Chart> charts = document::write_document(facts, 0, 15).charts;
    REQUIRE(charts.size() == 1);
    return drawing(charts[0]);
  };
  const std::pair<std::string, std::string> broken{"|||.|||.|||", "|2..|2..|2."};
  CHECK(holds(chart_of({broken, broken, broken, broken}),
              "  before  | | | .\n  move      <-+\n  after   | 2 . .\n  repeat  ======= × 3\n"));
  CHECK(holds(chart_of({{"|||||", "|2o||"}, {"||||||||", "||2o2o||"}, {"|||||||", "||2o|||"}, {"||||", "|2o|"}}),
              "  after   | 2 o |\n"
              "  repeat  = × 1 (2, 2, 1)\n"
              "  repeat    === × 1 (2, 1, 1)\n"
              "  repeat        = × 2 (2, 3, 1)\n"));
}

TEST_CASE("rows in two colours") {
  knit::Facts facts = test::sample_facts();
  test::Recorder r(4);
  knit::Step& step = r.counted(knit::Act::knit_chart, {2, 2, 2, 2});
  step.operation.yarns = {"main", "main"};
  step.operation.edges = {"seeds"};
  step.operation.from = "purl";
  step.operation.chart = {"x..", ".x."};
  step.operation.chart_marks = ".x";
  for (std::size_t i = 0; i < 4; ++i) {
    step.records[i].target = i < 2 ? 1 : 3;
    step.records[i].second_amount = 2;
    step.records[i].needles = test::about_centre(i < 2 ? 8 : 12);
  }
  facts.editions[0].pieces[0].first = r.take();
  const std::vector<Chart> charts = document::write_document(facts, 0, 15).charts;
  REQUIRE(charts.size() == 1);
  CHECK(drawing(charts[0]) ==
        "Chart 1. Seeds, MY and MY, seen from the purl side\n\n"
        "  .x.  2\n  x..  1\n  1 3\n  ===  repeat\n\n"
        "  Column 1 is on the left; row 1, at the bottom, is knitted first. Columns 1 to\n    3 repeat.\n"
        "  Left end needle, L4 (L4, L6, L6): column 1 (1, 3, 3).\n"
        "  Right end needle, R4 (R4, R6, R6): column 2.\n\n"
        "  .    MY\n  x    MY\n");
  CHECK(holds(charts[0].alternative, "Row 1: 1 MY, 2 MY. Row 2: 1 MY, 1 MY, 1 MY. The left end needle has column 1"));
}

TEST_CASE("the columns of a wide chart are numbered by fives, and the last where there is room") {
  Chart chart;
  const auto numbers = [&](std::size_t columns) {
    document::ColourChart picture;
    picture.rows = {std::string(columns, '.')};
    chart.picture = picture;
    const std::vector<std::string> lines = outputs::chart_lines(chart, 80);
    for (std::size_t i = 0; i + 1 < lines.size(); ++i) {
      if (holds(lines[i], "..")) return lines[i + 1];
    }
    return std::string();
  };
  CHECK(numbers(12) == "  1   5   10");
  CHECK(numbers(13) == "  1   5   10 13");
  CHECK(numbers(24) == "  1   5   10   15   20  24");
  CHECK(numbers(4) == "  1  4");
}

TEST_CASE("tuck and slip stitches are drawn row by row where the sizes have as many") {
  const auto drawn = [](const test::Counts& rows) {
    knit::Facts facts = test::sample_facts();
    test::Recorder r(4);
    r.cast_on({8, 8, 8, 8});
    knit::Step& step = r.counted(knit::Act::tuck, rows);
    step.operation.selections = {{}};
    step.operation.selections[0].kind = knit::Selection::Kind::every;
    step.operation.selections[0].group.assign(4, 2);
    for (knit::SizeRecord& record : step.records) {
      record.drawn = knit::DrawnBed{};
      record.drawn->first.number = -4;
      record.drawn->before.assign(8, {knit::DrawnNeedle::Position::work, 1, false});
      record.drawn->after = record.drawn->before;
      for (std::size_t needle = 1; needle < 8; needle += 2) record.drawn->after[needle].position = knit::DrawnNeedle::Position::tuck;
    }
    facts.editions[0].pieces[0].first = r.take();
    return document::write_document(facts, 0, 15).charts.at(0);
  };
  CHECK(holds(drawing(drawn({3, 3, 3, 3})), "  row 3   | u\n  row 2   | u\n  row 1   | u\n  repeat  === × 4\n"));
  CHECK(holds(drawn({3, 3, 3, 3}).alternative, "Rows 1 to 3: "));
  CHECK(holds(outputs::chart_svg(drawn({3, 3, 3, 3})), ">row 3</text>"));
  CHECK(holds(drawing(drawn({2, 2, 3, 3})), "  set     | u\n"));
}

TEST_CASE("equal charts of different steps are one") {
  knit::Facts facts = test::sample_facts();
  test::Recorder r(4);
  r.cast_on({36, 42, 48, 54});
  r.decrease_each_side(2);
  std::vector<knit::Step> steps = r.take();
  steps.push_back(steps.back());
  facts.editions[0].pieces[0].first = steps;
  CHECK(document::write_document(facts, 0, 15).charts.size() == 1);
}

TEST_CASE("every mark of a drawing is in its key, and no other") {
  for (const Chart& chart : sample_charts()) {
    const auto& picture = std::get<NeedleChart>(chart.picture);
    for (const auto* row : {&picture.before, &picture.after}) {
      for (const knit::DrawnNeedle& needle : *row) {
        const Mark mark = document::mark_of(needle, picture.bare);
        CHECK(std::count(chart.key.begin(), chart.key.end(), mark) == 1);
      }
    }
    for (const Mark mark : chart.key) CHECK_FALSE(outputs::mark_words(mark).empty());
  }
}

TEST_CASE("a chart in words says what the drawing shows") {
  const std::string words = sample_charts()[1].alternative;
  CHECK(holds(words, "Before: 3 in work."));
  CHECK(holds(words, "After: 1 in work, 1 with 2 loops, 1 out of work."));
  CHECK(holds(words, "The loops of needle 3 go 1 needle to the left."));
}

TEST_CASE("an SVG has a title and a description, is black on white, and escapes what XML reserves") {
  Chart chart = sample_charts()[0];
  chart.title = "Sides < & > \"all\"";
  const std::string svg = outputs::chart_svg(chart);
  CHECK(holds(svg, "<title id=\"title\">Chart 1. Sides &lt; &amp; &gt; &quot;all&quot;</title>"));
  CHECK(holds(svg, "<desc id=\"desc\">"));
  CHECK(holds(svg, "role=\"img\""));
  CHECK_FALSE(holds(svg, "Sides <"));
  for (std::size_t at = svg.find('#'); at != std::string::npos; at = svg.find('#', at + 1)) {
    const std::string colour = svg.substr(at, 4);
    CHECK((colour == "#000" || colour == "#fff" || svg.compare(at, 5, "#head") == 0));
  }
}
