// Sections, blocks for some sizes, techniques, remarks.
#include "compiler/document/narrator.hpp"

#include <catch2/catch.hpp>

#include "compiler/document/write.hpp"
#include "tests/unit/document/told.hpp"

using namespace stk;
using knit::Step;
using test::Recorder;
using test::told;

TEST_CASE("a text for some sizes says so, and says when it is for all again") {
  Recorder r(4);
  r.knit({2, 2, 2, 2});
  r.open(Step::Kind::only_for, "", 0b1100);
  r.knit({0, 0, 4, 6});
  r.close();
  r.open(Step::Kind::condition, "", 0b1110);
  r.knit({0, 2, 2, 2});
  r.close();
  r.knit({8, 8, 8, 8});
  CHECK(told(r.take()) ==
        "At MT, knit 2 rows.\n"
        "Sizes Women L and Men L only: Knit - (-, 4, 6) rows.\n"
        "All sizes but Child M: Knit 2 rows.\n"
        "All sizes: Knit 8 rows. RC 010 (012, 016, 018). COR.\n");
}

TEST_CASE("the text of one size has none of this, and nothing of what it does not take") {
  const auto steps = [] {
    Recorder r(4);
    r.open(Step::Kind::only_for, "", 0b1100);
    r.knit({0, 0, 4, 6});
    r.close();
    return r.take();
  };
  CHECK(told(steps(), 0b0100) == "At MT, knit 4 rows.\n");
  CHECK(told(steps(), 0b0001).empty());
}

TEST_CASE("a block of sections gives its sizes to the headings") {
  Recorder r(4);
  r.open(Step::Kind::only_for, "", 0b0011);
  r.open(Step::Kind::section, "Leg and foot in one", 0b0011);
  r.knit({2, 2, 0, 0});
  r.close();
  r.close();
  r.open(Step::Kind::section, "Toe", r.all());
  r.knit({2, 2, 2, 2});
  r.close();
  // A recorder without a cast-on has nothing on its needles: no facts stand at the ends of these sections.
  CHECK(told(r.take()) ==
        "# Leg and foot in one (sizes Child M and Women M only)\nAt MT, knit 2 rows.\n# Toe\nAt MT, knit 2 rows.\n");
}

TEST_CASE("a section ends with where the work stands, if that was not said") {
  Recorder r(4);
  r.open(Step::Kind::section, "Leg", r.all());
  r.cast_on({36, 36, 36, 36});
  r.knit({2, 2, 2, 2});
  r.close();
  r.open(Step::Kind::section, "Foot", r.all());
  r.knit_to_row({20, 20, 20, 20});
  r.close();
  CHECK(told(r.take()) ==
        "# Leg\nAt MT, e-wrap 36 sts over L18–R18, from left to right. RC 000. COR.\nKnit 2 rows. RC 002.\n"
        "# Foot\nKnit to RC 020. COR. 36 sts.\n");
}

TEST_CASE("a technique that is worked as before is referred to by its section") {
  const auto stretches = [](std::int64_t plain) {
    Recorder r(4);
    r.cast_on({36, 36, 36, 36});
    for (const char* section : {"Heel", "Toe"}) {
      r.open(Step::Kind::section, section, r.all());
      if (section[0] == 'T') r.knit({2, 2, 2, 2});
      r.open(Step::Kind::technique, "Plain rows in several stretches, each of them read from the row counter", r.all());
      r.counter(0);
      for (std::int64_t row = 20; row <= 80; row += 20) r.knit_to_row({row, row, row, row});
      for (int n = 0; n < 4; ++n) r.knit({6, 6, 6, section[0] == 'T' ? plain : 6});
      r.close();
      r.close();
    }
    std::vector<Step> steps = r.take();
    for (Step& step : steps) {
      if (step.kind == Step::Kind::section) step.steps.back().name = "stretches";
    }
    const std::string text = told(steps);
    return text.substr(text.find("# Toe"));
  };
  CHECK(stretches(6) ==
        "# Toe\nKnit 2 rows.\nPlain rows in several stretches, each of them read from the row counter, as for the heel. RC 104. "
        "COR. 36 sts.\n");
  CHECK(stretches(4).find("as for the heel") == std::string::npos);   // with other numbers it is told in full
}

TEST_CASE("the plain row before a chart is the selecting row, told with the row; with needles moved between, it is none") {
  const auto band = [](bool moved, const test::Counts& plain) {
    Recorder r(4);
    r.cast_on({36, 36, 36, 36});
    r.knit(plain);
    r.tension(100);
    if (moved) r.move_last_of_each(4);
    Step& chart = r.counted(knit::Act::knit_chart, {2, 2, 2, 2});
    chart.operation.yarns = {"main", "contrast"};
    chart.operation.edges = {"dots"};
    chart.operation.chart = {"x.", ".x"};
    chart.operation.chart_marks = ".x";
    return told(r.take());
  };
  const std::string text = band(false, {2, 2, 2, 2});
  CHECK(text.find("Knit 2 rows. If your machine selects needles from a card or a screen, the last of these rows is the selecting "
                  "row: set the pattern to its first row before you knit it. Thread CC as the second colour and set the carriage "
                  "for two colours. At MT+1, knit the dots chart, 2 rows.") !=
        std::string::npos);
  CHECK(text.find("The first and the last needle knit as the chart has them.") != std::string::npos);
  CHECK(text.find("(chart 1). Then set the carriage to knit plain again.") != std::string::npos);
  CHECK(band(false, {1, 1, 1, 1}).find("this row is the selecting row") != std::string::npos);
  CHECK(band(true, {2, 2, 2, 2}).find("selecting row") == std::string::npos);
  // One size has no plain row here: it is not told of any.
  CHECK(band(false, {2, 2, 2, 0}).find("All sizes but Men L: If your machine selects") != std::string::npos);
}

TEST_CASE("remarks stand where they were written, for whom they are") {
  Recorder r(4);
  r.knit({2, 2, 2, 2});
  r.add(Step::Kind::note).title = {"mind the weights"};
  r.open(Step::Kind::only_for, "", 0b0001);
  r.add(Step::Kind::caution).title = {"No cord."};
  r.close();
  r.knit({2, 2, 2, 2});
  CHECK(told(r.take()) ==
        "At MT, knit 2 rows.\nNOTE Mind the weights.\nCAUTION Size Child M only: No cord.\nKnit 2 rows.\n");
}

TEST_CASE("titles whose numbers differ are graded in the text and left out of a heading") {
  Recorder r(4);
  r.open(Step::Kind::section, "", r.all());
  r.open(Step::Kind::technique, "", r.all());
  r.knit({2, 2, 2, 2});
  r.close();
  r.close();
  std::vector<Step> steps = r.take();
  steps[0].title = {"Toe of 9 sts", "Toe of 10 sts", "Toe of 11 sts", "Toe of 12 sts"};
  steps[0].steps[0].title = {"Down to 3 sts", "Down to 4 sts", "Down to 4 sts", "Down to 4 sts"};
  CHECK(told(steps) == "# Toe\nDown to 3 (4, 4, 4) sts.\nAt MT, knit 2 rows.\n");
}

TEST_CASE("nothing is asked of the knitter that the steps do not use") {
  knit::Facts facts = test::sample_facts();
  facts.editions[0].yarns.emplace_back();
  facts.editions[0].yarns.back().name = "waste";
  const std::string text = test::lines_of(document::write_document(facts, 0, 15).blocks);
  CHECK(text.find("WY") == std::string::npos);
  CHECK(text.find("MY") != std::string::npos);
}

TEST_CASE("what is printed short is explained, in whichever number it stands") {
  knit::Facts facts = test::sample_facts();
  Recorder r(4);
  r.cast_on({36, 36, 36, 36});  // "36 sts": no single st in this text
  facts.editions[0].pieces[0].first = r.take();
  facts.editions[0].finish.clear();
  const document::Document document = document::write_document(facts, 0, 15);
  std::string terms;
  for (const document::Block& block : document.blocks) {
    if (const auto* words = std::get_if<document::Definitions>(&block)) {
      for (const document::Definition& entry : words->entries) terms += entry.term + " ";
    }
  }
  CHECK(terms == "RC COR MT st ");
}

TEST_CASE("the caution of a technique that is worked twice is said once, unless with another number") {
  const auto cautions = [](const char* second) {
    Recorder r(4);
    for (const char* title : {"Mind 4 loops.", second}) {
      Step& caution = r.add(Step::Kind::caution);
      caution.title = {title};
      caution.where = {10, 20, {}};
      r.knit({2, 2, 2, 2});
    }
    return told(r.take());
  };
  CHECK(cautions("Mind 4 loops.").find("CAUTION", 1) == std::string::npos);
  CHECK(cautions("Mind 6 loops.").find("CAUTION Mind 6 loops.") != std::string::npos);
}

TEST_CASE("a section that goes on in sections of some sizes is told to its end first") {
  Recorder r(4);
  r.open(Step::Kind::section, "Edge", 15);
  r.cast_on({36, 36, 36, 36});
  r.knit({5, 5, 7, 7});
  r.open(Step::Kind::only_for, "", 3);
  r.open(Step::Kind::section, "Leg", 3);
  r.counter(0);
  r.knit({8, 8, 0, 0});
  r.close();
  r.close();
  r.close();
  CHECK(told(r.take()).find("Knit 5 (5, 7, 7) rows. RC 005 (005, 007, 007). COL.\n# Leg") != std::string::npos);
}
