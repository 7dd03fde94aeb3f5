// Casting on, knitting, yarns, counter, comb.
#include <catch2/catch.hpp>

#include "tests/unit/document/told.hpp"

using namespace stk;
using test::Recorder;
using test::told;

TEST_CASE("an e-wrap says where it lies and which way it goes; the counter and the side stand after it") {
  Recorder r(4);
  r.thread("main");
  r.cast_on({36, 42, 48, 54});
  CHECK(told(r.take()) ==
        "Thread MY. At MT, e-wrap 36 (42, 48, 54) sts over L18–R18 (L21–R21, L24–R24, L27–R27), from left to right. "
        "RC 000. COR.\n");
}

TEST_CASE("the text of one size has its numbers alone") {
  Recorder r(4);
  r.cast_on({36, 42, 48, 54});
  r.knit_to_row({112, 142, 154, 178});
  CHECK(told(r.take(), 0b0010) ==
        "At MT, e-wrap 42 sts over L21–R21, from left to right. RC 000. COR.\nKnit to RC 142. COR. 42 sts.\n");
}

TEST_CASE("a cast-on on waste tells every row of it before it is needed") {
  Recorder r(4);
  knit::Step& step = r.cast_on({36, 42, 48, 54});
  step.operation.method = knit::Method::open_on_waste;
  step.operation.waste_rows = 7;
  step.operation.waste_rows_before_comb = 3;
  step.operation.cord_rows = 1;
  CHECK(
      told(r.take()) ==
      "Thread WY. At MT, e-wrap 36 (42, 48, 54) sts over L18–R18 (L21–R21, L24–R24, L27–R27), from left to right. "
      "COR. Knit 3 rows and hang the comb with its weights. Knit 4 rows. COL. Take out WY and knit 1 row with the ravel cord. Unthread "
      "the cord. RC 000. COR.\n");
}

TEST_CASE("rows that are few are counted, many are read from the counter; the side is told where it is asked for") {
  Recorder r(4);
  r.cast_on({36, 36, 36, 36});
  r.knit({2, 2, 2, 2});
  r.knit({3, 3, 3, 3});
  r.knit({1, 2, 3, 4});
  r.knit({20, 20, 20, 20});
  r.knit({1, 1, 1, 1});
  r.cut("main", {10, 10, 10, 10});
  CHECK(told(r.take()) ==
        "At MT, e-wrap 36 sts over L18–R18, from left to right. RC 000. COR.\n"
        "Knit 2 rows. Knit 3 rows. Knit 1 (2, 3, 4) rows. Knit 20 rows. RC 026 (027, 028, 029). COR (COL, COR, COL).\n"
        "Knit 1 row. COL (COR, COL, COR).\n"
        "Cut MY with a tail of 10 cm; it hangs on the left (right, left, right).\n");
}

TEST_CASE("a step with nothing to do in a size prints a dash there, and nothing if in none it has") {
  Recorder r(4);
  r.knit({0, 2, 4, 0});
  r.knit({0, 0, 0, 0});
  CHECK(told(r.take()) == "At MT, knit - (2, 4, -) rows.\n");
}

TEST_CASE("the tension is said with what is knitted at it, and only when it changes") {
  Recorder r(4);
  r.tension(-200);
  r.knit({2, 2, 2, 2});
  r.knit({4, 4, 4, 4});
  r.tension(0);
  r.tension(50);
  r.knit({2, 2, 2, 2});
  CHECK(told(r.take()) == "At MT−2, knit 2 rows. Knit 4 rows. At MT+0.5, knit 2 rows.\n");
}

TEST_CASE("counts that an expect asks for are printed once") {
  Recorder r(4);
  r.cast_on({36, 42, 48, 54});
  r.knit({2, 2, 2, 2});
  r.expect(true, true, true);
  r.expect(true, true, true);
  CHECK(told(r.take()) ==
        "At MT, e-wrap 36 (42, 48, 54) sts over L18–R18 (L21–R21, L24–R24, L27–R27), from left to right. RC 000. COR.\n"
        "Knit 2 rows. RC 002.\n");
}

TEST_CASE("rounds on two beds set the carriage, and rows set it back") {
  Recorder r(4);
  for (auto& state : r.states()) {
    state.stitches = 24;
    state.second_bed = 12;
  }
  const auto rounds = [&](std::int64_t n) {
    knit::Step& step = r.counted(knit::Act::knit, {n, n, n, n});
    for (std::size_t i = 0; i < 4; ++i) {
      r.states()[i].row_counter += 2 * n;
      step.records[i].after = r.states()[i];
    }
  };
  rounds(1);
  rounds(2);
  r.knit_to_row({10, 10, 10, 10});
  CHECK(told(r.take()) ==
        "Set the carriage for rounds. At MT, knit 1 round. Knit 2 rounds. Set the carriage to knit both beds both "
        "ways. Knit "
        "to RC 010. COR. 24 sts, half of them on each bed.\n");
}

TEST_CASE("yarns, counter and comb") {
  Recorder r(4);
  r.thread("contrast");
  r.cut("main", {20, 25, 25, 25});
  knit::Step& two = r.thread("main");
  two.operation.yarns.push_back("contrast");
  r.op(knit::Act::rest_yarn).operation.yarns = {"contrast"};
  r.counter(0);
  r.op(knit::Act::hang_comb);
  r.op(knit::Act::remove_comb);
  r.op(knit::Act::hang_weights).operation.edges = {"sock.cast_on"};
  CHECK(told(r.take()) ==
        "Thread CC. Cut MY with a tail of 20 (25, 25, 25) cm; it hangs on the right. Thread MY. Thread CC in the second "
        "feeder: it knits in the rows of a chart only, and plain rows are of MY alone. Take CC out of the carriage and let it rest at the edge on the right.\n"
        "RC 000. Hang the comb with its weights. Unhang the comb and the weights. Hang weights on the cast-on edge.\n");
}

TEST_CASE("a line knitted by hand over a part says between which needles") {
  Recorder r(4);
  knit::Step& line = r.counted(knit::Act::knit_by_hand, {1, 1, 1, 1});
  line.operation.yarns = {"waste"};
  line.operation.selections.resize(1);
  line.operation.selections[0].kind = knit::Selection::Kind::half;
  line.operation.selections[0].where = knit::Selection::Where::right;
  for (std::size_t i = 0; i < 4; ++i) line.records[i].needles = {{1, {}}, {18 + 3 * static_cast<std::int32_t>(i), {}}};
  CHECK(told(r.take()) ==
        "With WY knit 1 row by hand over the right half, R1–R18 (R1–R21, R1–R24, R1–R27); the carriage stays where it is.\n");
}

TEST_CASE("how a piece is joined on is told before its first row, and once") {
  Recorder r(4);
  r.cast_on({36, 36, 36, 36});
  for (int i = 0; i < 2; ++i) {
    knit::Step& rows = r.knit({3, 3, 3, 3});
    rows.operation.joining = {{knit::Side::left, {"front.leg.right"}}, {knit::Side::right, {"front.leg.left"}}};
  }
  const std::string text = told(r.take());
  CHECK(text.find("In the next rows the other piece is joined on: hold it upright before the bed, the edge it began with down and "
                  "its knit side towards you, so that its right edge lies at the left end of the work. Before each row hang the "
                  "next loop of its edge, from the bottom upwards and one for every 2 rows of it, on the end needle beside the "
                  "carriage. Knit 3 rows, joining both edges to the leg of the front. Knit 3 rows, joining") != std::string::npos);
}

TEST_CASE("a counter that is set before the first row is told there alone") {
  const auto begun = [](bool knitted) {
    Recorder r(4);
    r.cast_on({36, 36, 36, 36});
    if (knitted) r.knit({3, 3, 3, 3});
    r.thread("main");
    r.counter(0);
    r.knit_to_row({20, 20, 20, 20});
    return told(r.take());
  };
  CHECK(begun(false).find("from left to right. COR.") != std::string::npos);
  CHECK(begun(true).find("from left to right. RC 000. COR.") != std::string::npos);
}

TEST_CASE("the columns of a chart for some of the sizes are told size by size") {
  const auto columns = [](knit::SizeSet sizes) {
    Recorder r(4);
    r.cast_on({36, 42, 48, 54});
    knit::Step& chart = r.counted(knit::Act::knit_chart, {2, 2, 2, 2});
    chart.operation.yarns = {"main", "contrast"};
    chart.operation.chart = {"x.", ".x"};
    chart.operation.chart_marks = ".x";
    chart.sizes = sizes;
    for (std::size_t i = 0; i < 4; ++i) {
      chart.records[i].target = 1 + static_cast<std::int64_t>(i);
      chart.records[i].second_amount = 9 - static_cast<std::int64_t>(i);
    }
    return told(r.take());
  };
  CHECK(columns(15).find("Column 1 (2, 3, 4) of it stands at the left end of the work. Column 9 (8, 7, 6) stands at the right end") !=
        std::string::npos);
  CHECK(columns(12).find("Its columns at the left and at the right end of the work are: Women L 3 and 7, Men L 4 and 6 (chart 1).") !=
        std::string::npos);
}
