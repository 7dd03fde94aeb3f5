// Turns that are alike are told once.
#include "compiler/document/folding.hpp"

#include <catch2/catch.hpp>

#include "tests/unit/document/told.hpp"

using namespace stk;
using test::Recorder;
using test::told;

namespace {

std::string after_first_line(const std::string& text) {
  return text.substr(text.find('\n') + 1);
}

Recorder wide() {
  Recorder r(4);
  r.cast_on({36, 42, 48, 54});
  return r;
}

}  // namespace

TEST_CASE("equal turns fold to one, with the number of times for each size and where the work stands after") {
  Recorder r = wide();
  r.repeat({3, 4, 5, 6}, [](Recorder& body, std::int64_t) {
    body.knit({2, 2, 2, 2});
    body.decrease_each_side(0);
  });
  CHECK(after_first_line(told(r.take())) ==
        "*Knit 2 rows. On each side move the edge st to the needle beside it and put the emptied needle in NWP. Repeat "
        "from "
        "* 3 (4, 5, 6) times in all. RC 006 (008, 010, 012). COR. 30 (34, 38, 42) sts, L15–R15 (L17–R17, L19–R19, "
        "L21–R21).\n");
}

// "Repeat the last 2 rows" would leave out what is done between rows.
TEST_CASE("shaping before plain rows is repeated with them") {
  Recorder r = wide();
  r.repeat({3, 4, 5, 1}, [](Recorder& body, std::int64_t) {
    body.decrease_each_side(0);
    body.knit({2, 2, 2, 2});
  });
  CHECK(after_first_line(told(r.take())) ==
        "*On each side move the edge st to the needle beside it and put the emptied needle in NWP. Knit 2 rows. Repeat from "
        "* 3 (4, 5, 1) times in all. RC 006 (008, 010, 002). COR. 30 (34, 38, 52) sts, L15–R15 (L17–R17, L19–R19, "
        "L26–R26).\n");
}

TEST_CASE("a size without a turn is told nothing") {
  Recorder r = wide();
  r.repeat({0, 0, 2, 2}, [](Recorder& body, std::int64_t) { body.knit({2, 2, 2, 2}); });
  r.knit({2, 2, 2, 2});
  CHECK(after_first_line(told(r.take())) ==
        "Sizes Women L and Men L only: Knit 2 rows. Repeat the last 2 rows 1 time more. RC 004. COR.\n"
        "All sizes: Knit 2 rows.\n");
}

TEST_CASE("the end of a short-row shape, where there is nothing to wrap, does not break the fold") {
  Recorder r = wide();
  r.repeat({4, 4, 6, 6}, [](Recorder& body, std::int64_t turn) {
    body.knit({2, 2, 2, 2});
    const std::int64_t last[] = {3, 3, 5, 5};
    knit::Step& wrap = body.counted(knit::Act::wrap, {1, 1, 1, 1});
    wrap.operation.selections = {{}};
    wrap.operation.selections[0].kind = knit::Selection::Kind::on_side;
    wrap.operation.selections[0].where = knit::Selection::Where::carriage;
    for (std::size_t i = 0; i < 4; ++i) wrap.records[i].idle = turn == last[i];
  });
  CHECK(after_first_line(told(r.take())) ==
        "*Knit 2 rows. Wrap the needle in HP next to the last st knitted. Repeat from * 4 (4, 6, 6) times in all. The "
        "last "
        "time there is no needle to wrap. RC 008 (008, 012, 012). COR.\n");
}

TEST_CASE("the needle wrapped last is named where it lies beside the needles that knit, among those that wait") {
  const auto shape = [](std::int32_t wrapped_last) {
    Recorder r = wide();
    for (auto& state : r.states()) state.working = {{1, knit::Bed::main}, {12, knit::Bed::main}};
    r.repeat({4, 4, 6, 6}, [&](Recorder& body, std::int64_t turn) {
      body.knit({1, 1, 1, 1});
      const std::int64_t last[] = {3, 3, 5, 5};
      knit::Step& wrap = body.counted(knit::Act::wrap, {1, 1, 1, 1});
      wrap.operation.selections = {{}};
      wrap.operation.selections[0].kind = knit::Selection::Kind::on_side;
      wrap.operation.selections[0].where = knit::Selection::Where::carriage;
      for (std::size_t i = 0; i < 4; ++i) {
        wrap.records[i].idle = turn == last[i];
        wrap.records[i].needles.first.number = wrap.records[i].needles.last.number = turn + 1 == last[i] ? wrapped_last : 5;
      }
    });
    return told(r.take());
  };
  CHECK(shape(-1).find("4 (4, 6, 6) times in all. The last time but one the needle to wrap is L1, where the other sts wait; the "
                       "last time there is none. RC 004") != std::string::npos);
  CHECK(shape(12).find("in all. The last time there is no needle to wrap. RC 004") != std::string::npos);
}

TEST_CASE("turns that differ are told as they come: the last one apart") {
  Recorder r = wide();
  r.repeat({4, 4, 6, 6}, [](Recorder& body, std::int64_t turn) {
    body.knit({2, 2, 2, 2});
    if (turn < 3) body.decrease_each_side(0);
  });
  CHECK(after_first_line(told(r.take(), 0b0001)) ==
        "*Knit 2 rows. On each side move the edge st to the needle beside it and put the emptied needle in NWP. Repeat "
        "from "
        "* 3 times in all. Knit 2 rows. RC 008. COR. 30 sts, L15–R15.\n");
}

TEST_CASE("needles held one by one are told by what is left in work, and the carriage is set once") {
  Recorder r = wide();
  const auto one_on = [](knit::Step& step, knit::Selection::Where where) {
    step.operation.selections = {{}};
    step.operation.selections[0].kind = knit::Selection::Kind::on_side;
    step.operation.selections[0].where = where;
  };
  r.repeat({4, 4, 6, 6}, [&](Recorder& body, std::int64_t turn) {
    one_on(body.counted(knit::Act::hold, {1, 1, 1, 1}), knit::Selection::Where::far);
    for (auto& state : body.states()) {
      --state.in_work;
      ++state.held;
      state.working = {{static_cast<std::int32_t>(turn) - 19, knit::Bed::main}, {16, knit::Bed::main}};
    }
    body.knit({1, 1, 1, 1});
    one_on(body.counted(knit::Act::wrap, {1, 1, 1, 1}), knit::Selection::Where::carriage);
  });
  CHECK(
      after_first_line(told(r.take(), 0b0001)) ==
      "Set the carriage to hold. Keep a weight under the needles in work and move it up as the fabric grows. *At the "
      "end "
      "away from the carriage put the last needle in work in HP. Knit 1 row. Wrap the needle in HP next to the last st "
      "knitted. Repeat from * until 32 sts are in work. RC 004. COR.\nCheck: the needles in work are L16–R16.\n");
}

TEST_CASE("turns that differ in their rows alone are told once, with the rows of each") {
  Recorder r = wide();
  r.repeat({3, 4, 4, 2}, [](Recorder& body, std::int64_t turn) {
    body.decrease_each_side(0);
    const std::int64_t even = turn % 2 == 0 ? 4 : 3;
    body.knit({4, even, 2 + turn, even});
  });
  const std::string text = told(r.take());
  CHECK(
      after_first_line(text) ==
      "On each side move the edge st to the needle beside it and put the emptied needle in NWP. Work this 3 (4, 4, 2) "
      "times in all, and after each time knit the rows that follow, in their order:\n"
      "- Child M: 4 rows each time.\n- Women M: 4, 3, 4, 3 rows.\n- Women L: 2, 3, 4, 5 rows.\n- Men L: 4, 3 rows.\n"
      "RC 012 (014, 014, 007). COR (COR, COR, COL). 30 (34, 40, 50) sts, L15–R15 (L17–R17, L20–R20, L25–R25).\n");
}

TEST_CASE("turns that alternate fold in pairs") {
  Recorder r = wide();
  r.repeat({6, 6, 6, 6}, [](Recorder& body, std::int64_t turn) {
    const std::int64_t rows = turn % 2 == 0 ? 2 : 4;
    body.knit({rows, rows, rows, rows});
    body.decrease_each_side(0);
  });
  CHECK(after_first_line(told(r.take())).find("Repeat from * 3 times in all. RC 018. COR.") != std::string::npos);
}

TEST_CASE("a remark that stands in one turn is given with its turn, and does not break the fold") {
  Recorder r = wide();
  r.repeat({5, 5, 5, 5}, [](Recorder& body, std::int64_t turn) {
    body.knit({3, 3, 3, 3});
    if (turn == 1) body.add(knit::Step::Kind::note).title = {"Move the weights up."};
  });
  CHECK(after_first_line(told(r.take())) ==
        "Knit 3 rows. Repeat the last 3 rows 4 times more. RC 015. COL.\n"
        "NOTE The second time through: move the weights up.\n");
}

TEST_CASE("a single turn is no repeat") {
  Recorder r = wide();
  r.repeat({1, 1, 1, 1}, [](Recorder& body, std::int64_t) { body.knit({2, 2, 2, 2}); });
  CHECK(after_first_line(told(r.take())) == "Knit 2 rows. RC 002. COR.\n");
}

TEST_CASE("turns beyond those that were kept are like the last") {
  Recorder r(1);
  r.repeat({3}, [](Recorder& body, std::int64_t) { body.knit({2}); });
  std::vector<knit::Step> steps = r.take();
  steps[0].records[0].amount = 5000;
  const auto classes = document::fold_turns(steps[0], 1);
  REQUIRE(classes.size() == 1);
  REQUIRE(classes[0].folds.size() == 1);
  CHECK(classes[0].folds[0].times[0] == 5000);
}

TEST_CASE("the times of all folds add up to the turns, whatever the turns are like") {
  for (unsigned bits = 0; bits < 1024; ++bits) {
    Recorder r(1);
    r.repeat({10}, [&](Recorder& body, std::int64_t turn) { body.knit({1 + ((bits >> turn) & 1U)}); });
    const std::vector<knit::Step> steps = r.take();
    std::int64_t rows = 0, turns = 0, told_rows = 0, told_turns = 0;
    for (const auto& turn : steps[0].turns) {
      rows += turn[0].records[0].amount;
      ++turns;
    }
    const auto classes = document::fold_turns(steps[0], 1);
    for (const auto& fold : classes.at(0).folds) {
      for (const auto& step : fold.body) {
        told_rows += step.records[0].amount * fold.times[0];
        told_turns += fold.times[0];
      }
    }
    REQUIRE(told_rows == rows);
    REQUIRE(told_turns == turns);
  }
}
