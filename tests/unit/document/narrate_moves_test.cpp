// Needles and the stitches on them.
#include <catch2/catch.hpp>

#include "tests/unit/document/told.hpp"

using namespace stk;
using knit::Act;
using knit::Selection;
using test::Recorder;
using test::told;

namespace {

Selection on_side(Selection::Where where, std::int64_t n) {
  Selection s;
  s.kind = Selection::Kind::on_side;
  s.where = where;
  s.count.assign(4, n);
  return s;
}
Selection half(Selection::Where where) {
  Selection s;
  s.kind = Selection::Kind::half;
  s.where = where;
  return s;
}
Selection all() {
  Selection s;
  s.kind = Selection::Kind::all;
  return s;
}
Selection joined(Selection::Kind kind, Selection a, Selection b) {
  Selection s;
  s.kind = kind;
  s.parts = {std::move(a), std::move(b)};
  return s;
}

void give(knit::Step& step, Selection selection, const test::Counts& amounts) {
  step.operation.selections = {std::move(selection)};
  for (std::size_t i = 0; i < amounts.size(); ++i) step.records[i].amount = amounts[i];
}

}  // namespace

TEST_CASE("a transfer of every group says its direction, its empties, its count and where the work now ends") {
  Recorder r(4);
  r.cast_on({36, 42, 48, 54});
  r.move_last_of_each(3);
  CHECK(
      told(r.take()) ==
      "At MT, e-wrap 36 (42, 48, 54) sts over L18–R18 (L21–R21, L24–R24, L27–R27), from left to right. RC 000. COR.\n"
      "From the left, move the last st of each group of 3 to the needle on its left, and put the 12 (14, 16, 18) empty "
      "needles in NWP (chart 1). 24 (28, 32, 36) sts, L18–R17 (L21–R20, L24–R23, L27–R26).\n");
}

TEST_CASE("what a move leaves alone is said first; empties left in work are eyelets") {
  Recorder r(4);
  knit::Step& step = r.op(Act::move);
  Selection each;
  each.kind = Selection::Kind::of_each;
  each.where = Selection::Where::last;
  each.group.assign(4, 2);
  give(step,
       joined(Selection::Kind::of, each, joined(Selection::Kind::except, all(), on_side(Selection::Where::right, 2))),
       {14, 17, 20, 23});
  step.operation.side = knit::Side::left;
  step.operation.empties = knit::Empties::in_work;
  for (std::size_t i = 0; i < 4; ++i) {
    step.records[i].target = 1;
    step.records[i].emptied = static_cast<std::int32_t>(14 + 3 * i);
  }
  CHECK(told(r.take()) ==
        "Leave the last 2 sts on the right as they are. From the left, move the last st of each group of 2 of the "
        "others to "
        "the needle on its left. Leave the 14 (17, 20, 23) empty needles in WP: the eyelets.\n");
}

TEST_CASE("full-fashioned shaping names the tool, the stitches and the emptied needle") {
  Recorder r(4);
  r.cast_on({36, 36, 36, 36});
  r.decrease_each_side(2);
  knit::Step& in = r.op(Act::increase);
  in.operation.each_side = true;
  in.operation.inset = 2;
  in.operation.prongs = 2;
  in.operation.empties = knit::Empties::filled;
  for (auto& record : in.records) record.amount = 1;
  knit::Step& edge = r.op(Act::decrease);
  edge.operation.side = knit::Side::right;
  edge.operation.empties = knit::Empties::out_of_work;
  for (auto& record : edge.records) record.amount = 1;
  CHECK(told(r.take()) ==
        "At MT, e-wrap 36 sts over L18–R18, from left to right. RC 000. COR.\n"
        "On each side, with the 3-prong transfer tool, move the 3 edge sts one needle inwards and put the emptied "
        "needle in "
        "NWP (chart 1). 34 sts, L17–R17.\n"
        "On each side bring the next needle to WP and, with the 2-prong transfer tool, move the 2 edge sts one needle "
        "outwards. On the emptied needle hang the loop below the st outside it.\n"
        "On the right move the edge st to the needle beside it and put the emptied needle in NWP.\n");
}

TEST_CASE("holding and releasing set the carriage") {
  Recorder r(4);
  knit::Step& hold = r.op(Act::hold);
  give(hold, half(Selection::Where::left), {18, 21, 24, 27});
  for (auto& record : hold.records) record.after.held = 18;
  knit::Step& one = r.op(Act::hold);
  give(one, on_side(Selection::Where::far, 1), {1, 1, 1, 1});
  for (auto& record : one.records) record.before.held = 18;
  give(r.op(Act::wrap), on_side(Selection::Where::carriage, 1), {1, 1, 1, 1});
  knit::Step& back = r.op(Act::release);
  give(back, joined(Selection::Kind::except, all(), half(Selection::Where::right)), {18, 21, 24, 27});
  CHECK(
      told(r.take()) ==
      "Put the left half in HP and set the carriage to hold. Keep a weight under the needles in work and move it up as "
      "the "
      "fabric grows. At the end away from the carriage put the last needle in "
      "work in HP. Wrap the needle in HP next to the last st knitted. Put the left half in UWP and set the carriage to "
      "knit all needles.\n");
}

TEST_CASE("needles in and out of work") {
  Recorder r(4);
  Selection empties;
  empties.kind = Selection::Kind::empties;
  give(r.op(Act::bring_into_work), empties, {12, 14, 16, 18});
  give(r.op(Act::put_out_of_work), on_side(Selection::Where::right, 1), {1, 1, 1, 1});
  Selection every;
  every.kind = Selection::Kind::every;
  every.group.assign(4, 2);
  give(r.op(Act::put_out_of_work), every, {12, 14, 16, 18});
  CHECK(told(r.take()) ==
        "Bring the 12 (14, 16, 18) empty needles to WP. Put the last needle on the right in NWP. Put every second "
        "needle in "
        "NWP.\n");
}

TEST_CASE("a set of needles is named once, where it is used at all") {
  Recorder r(4);
  for (const char* name : {"sole", "unused"}) {
    knit::Step& named = r.add(knit::Step::Kind::needles_named);
    named.name = name;
    Selection s = half(Selection::Where::right);
    for (const std::int32_t n : {18, 21, 24, 27}) s.needles.push_back({{1, {}}, {n, {}}});
    named.operation.selections = {s};
  }
  Selection sole = half(Selection::Where::right);
  sole.name = "sole";
  give(r.op(Act::put_out_of_work), sole, {18, 21, 24, 27});
  CHECK(told(r.take()) == "The right half is R1–R18 (R1–R21, R1–R24, R1–R27). Put the right half in NWP.\n");
}

TEST_CASE("a setting is its tile, and what it ends with") {
  Recorder r(4);
  knit::Step& set = r.op(Act::set_needles);
  set.operation.tile = {true, false};
  set.operation.ending = {true};
  for (std::size_t i = 0; i < 4; ++i) {
    auto& record = set.records[i];
    const std::int32_t n = 13 + 2 * static_cast<std::int32_t>(i);
    record.needles = test::about_centre(n);
    knit::DrawnBed bed;
    bed.first = record.needles.first;
    bed.before.resize(static_cast<std::size_t>(n));
    bed.after = bed.before;
    for (std::size_t k = 0; k < bed.after.size(); k += 2) bed.after[k].position = knit::DrawnNeedle::Position::work;
    record.amount = (n + 1) / 2;
    record.drawn = bed;
  }
  CHECK(told(r.take()) ==
        "Set the needles over L7–R6 (L8–R7, L9–R8, L10–R9), from the left [| .], ending [|] on the right: 7 (8, 9, 10) "
        "needles in WP (chart 1).\n");
}

TEST_CASE("emptied needles are filled from the side that was said, whichever way the stitches went") {
  Recorder r(4);
  knit::Step& step = r.op(Act::move);
  Selection each;
  each.kind = Selection::Kind::of_each;
  each.where = Selection::Where::last;
  each.group.assign(4, 4);
  give(step, each, {6, 6, 6, 6});
  step.operation.side = knit::Side::left;
  step.operation.empties = knit::Empties::filled;
  step.operation.filled_from = knit::Side::right;
  for (auto& record : step.records) record.target = 1, record.emptied = 6;
  CHECK(told(r.take()) == "From the left, move the last st of each group of 4 to the needle on its left. On each empty needle hang the "
                          "loop below the st on its right.\n");
}

TEST_CASE("a corner of a tube is closed from the other bed, at needles that are named") {
  const auto lifted = [](Selection::Where where, std::int64_t corners) {
    Recorder r(4);
    knit::Step& step = r.op(Act::lift);
    give(step, on_side(where, 1), {2, 2, 2, 2});
    for (std::size_t i = 0; i < 4; ++i) {
      knit::SizeRecord& record = step.records[i];
      const std::int32_t n = 6 + static_cast<std::int32_t>(i);
      record.before.span = {{-n, knit::Bed::main}, {n, knit::Bed::main}};
      record.before.second_span = {{-n, knit::Bed::second}, {n - 1, knit::Bed::second}};
      record.needles = record.before.span;
      record.second_amount = corners;
    }
    return told(r.take());
  };
  CHECK(lifted(Selection::Where::each, 2) ==
        "To close the corners, at each end lift the loop below the end st of the second bed onto the end needle of the main bed, "
        "where a st hangs already: from L6 and R5 (L7 and R6, L8 and R7, L9 and R8) of the second bed onto L6 and R6 (L7 and R7, "
        "L8 and R8, L9 and R9) of the main bed.\n");
  CHECK(lifted(Selection::Where::left, 2) ==
        "To close the corner, on the left lift the loop below the end st of the second bed onto the end needle of the main bed, "
        "where a st hangs already: L6 (L7, L8, L9) on both beds.\n");
  // On one bed there is no other to take it from.
  CHECK(lifted(Selection::Where::each, 0) ==
        "To close the corners, beside the last needle on each side lift the loop below the neighbouring st and hang it on that "
        "needle too.\n");
}

TEST_CASE("the carriage is set for tuck and slip rows and set back, also from turn to turn") {
  for (const auto& [act, word] : {std::pair{Act::tuck, "tuck"}, std::pair{Act::slip, "slip"}}) {
    Recorder r(4);
    Selection every;
    every.kind = Selection::Kind::every;
    every.group.assign(4, 2);
    give(r.op(act), every, {2, 2, 2, 2});
    const std::string set = std::string("Set the carriage to ") + word + ". ";
    CHECK(told(r.take()).find(set + "At MT, knit 2 rows with every second needle set to " + word +
                              ", counted from the left. Set the carriage to knit again.") != std::string::npos);
  }
}

TEST_CASE("how deep a column is dropped is told while every needle has knitted every row") {
  const auto latched = [](bool one_held) {
    Recorder r(4);
    r.cast_on({36, 36, 36, 36});
    r.knit({3, 3, 3, 3});
    r.op(Act::hang_comb);
    r.counter(0);
    if (one_held) give(r.op(Act::hold), on_side(Selection::Where::left, 1), {1, 1, 1, 1});
    r.knit({4, 5, 6, 7});
    give(r.op(Act::latch_up), on_side(Selection::Where::right, 1), {1, 1, 1, 1});
    return told(r.take());
  };
  CHECK(latched(false).find("Drop the last st on the right, down to the first row of its column, 7 (8, 9, 10) rows below, and latch "
                            "the column up again from that row") != std::string::npos);
  CHECK(latched(true).find("down to the first row of its column, and latch") != std::string::npos);
}

TEST_CASE("the outer stitches of a part that go outwards on one side and then on the other are told once") {
  const auto moved = [](knit::Side second_goes) {
    Recorder r(4);
    Selection panel = half(Selection::Where::right);
    panel.name = "panel";
    for (const bool left : {true, false}) {
      knit::Step& step = r.op(Act::move);
      Selection edge = on_side(left ? Selection::Where::left : Selection::Where::right, 1);
      give(step, joined(Selection::Kind::of, edge, panel), {1, 1, 1, 1});
      step.operation.side = left ? knit::Side::left : second_goes;
      step.operation.empties = knit::Empties::in_work;
      for (auto& record : step.records) record.target = record.emptied = 1;
    }
    return told(r.take());
  };
  CHECK(moved(knit::Side::right) ==
        "Move the last st on each side of the right half one needle outwards. Leave the 2 empty needles in WP: the eyelets.\n");
  CHECK(moved(knit::Side::left).find("on each side") == std::string::npos);   // both to the left: two moves
}
