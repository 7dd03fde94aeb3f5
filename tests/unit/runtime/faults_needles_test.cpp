// Each fault of needles and loops: raised by the wrong step, and by nothing else; quiet after the right one.
#include <catch2/catch.hpp>

#include "tests/unit/runtime/support.hpp"

using namespace stk::runtime;

// A Bench holds a machine that points at its fabric: made in place, never copied.
#define READY(name, ...) \
  Bench name{__VA_ARGS__}; \
  name.cast_on(20); \
  name(Knit{4}); \
  REQUIRE(name.clean())

TEST_CASE("needles named are on the bed, and the bed is there") {
  READY(bench);
  CHECK(raised(bench, Hold{Bed::main, NeedleSet::range(148, 151)}) ==
        Kinds{FaultKind::off_the_bed, FaultKind::not_in_work});
  CHECK(bench.faults[0].needles == NeedleSet::range(150, 151));
  CHECK(bench.faults[0].a == 150);
  CHECK(raised(bench, BringIntoWork{Bed::main, NeedleSet::range(148, 149)}).empty());
  CHECK(raised(bench, Hold{Bed::second, NeedleSet::one(75)}) == Kinds{FaultKind::no_second_bed});
  CHECK(raised(bench, SetTension{Beds::both, 0}) == Kinds{FaultKind::no_second_bed});
  CHECK(raised(bench, Decrease{Bed::second, Side::left, 0}) == Kinds{FaultKind::no_second_bed});
  CHECK(raised(bench, Knit{2, KnitMode::rounds}) == Kinds{FaultKind::no_second_bed});
  CHECK(raised(bench, Cross{Bed::main, 149, 1, 1}) == Kinds{FaultKind::off_the_bed});
}

TEST_CASE("needles are held that are in work, released that are held") {
  READY(bench);
  CHECK(raised(bench, Hold{Bed::main, bench.from_to("R11", "R12")}) == Kinds{FaultKind::not_in_work});
  CHECK(raised(bench, Hold{Bed::main, bench.from_to("L10", "L1")}).empty());
  CHECK(raised(bench, Hold{Bed::main, NeedleSet::one(bench.at("L3"))}) == Kinds{FaultKind::not_in_work});
  CHECK(raised(bench, Release{Bed::main, bench.from_to("L1", "R1")}) == Kinds{FaultKind::not_held});
  CHECK(bench.only().needles == NeedleSet::one(bench.at("R1")));
  CHECK(raised(bench, BringIntoWork{Bed::main, bench.from_to("L5", "L4")}) == Kinds{FaultKind::needles_held});
  CHECK(raised(bench, Move{Bed::main, NeedleSet::one(bench.at("L5")), 1}) == Kinds{FaultKind::needles_held});
  CHECK(raised(bench, Release{Bed::main, bench.from_to("L10", "L2")}).empty());
  CHECK(raised(bench, Knit{2}).empty());
}

TEST_CASE("a loop is moved from a needle that has one, to a needle in work") {
  READY(bench);
  const Tag first = bench.tag + 1;
  CHECK(raised(bench, Move{Bed::main, NeedleSet::one(bench.at("R3")), 1, Empties::out_of_work}).empty());
  CHECK(raised(bench, Move{Bed::main, NeedleSet::one(bench.at("R3")), 1}) == Kinds{FaultKind::without_loops});
  CHECK(bench.only().cause == first);
  CHECK(raised(bench, Move{Bed::main, NeedleSet::one(bench.at("R2")), 1, Empties::out_of_work}) ==
        Kinds{FaultKind::lands_outside_work});
  CHECK(bench.only().needles == NeedleSet::one(bench.at("R3")));
  CHECK(raised(bench, Move{Bed::main, NeedleSet::one(bench.at("R10")), 1, Empties::out_of_work, true}).empty());
  CHECK(raised(bench, Knit{2}).empty());
}

TEST_CASE("loops stay on the bed and within reach") {
  MachineSpec spec;
  spec.needles = 20;
  READY(bench, spec);
  CHECK(raised(bench, Move{Bed::main, NeedleSet::range(18, 19), 1}) == Kinds{FaultKind::moved_off_bed});
  CHECK(bench.only().needles == NeedleSet::one(19));
  CHECK(bench.machine.loops_on(Bed::main, 19) == 2);   // needle 18 moved on to it
  CHECK(bench.machine.stitches() == 19);
  CHECK(raised(bench, Move{Bed::main, NeedleSet::one(3), 6, Empties::out_of_work}) == Kinds{FaultKind::move_too_far});
  CHECK(raised(bench, Move{Bed::main, NeedleSet::one(4), 5, Empties::out_of_work}).empty());
  Bench whole;   // all together move as far as they like
  whole.cast_on(20);
  whole(Knit{4});
  CHECK(raised(whole, Move{Bed::main, whole.machine.carrying(Bed::main), 12, Empties::out_of_work, true}).empty());
  CHECK(raised(whole, Knit{2}).empty());
  CHECK(raised(bench, Increase{Bed::main, Side::right, 0}) == Kinds{FaultKind::moved_off_bed});
}

TEST_CASE("up to three loops are safe on a hook, a fourth is said once") {
  READY(bench);
  CHECK(raised(bench, Move{Bed::main, NeedleSet::one(bench.at("R1")), 1, Empties::out_of_work}).empty());
  CHECK(raised(bench, Move{Bed::main, NeedleSet::one(bench.at("R3")), -1, Empties::out_of_work}).empty());
  CHECK(bench.machine.loops_on(Bed::main, bench.at("R2")) == 3);
  CHECK(raised(bench, Move{Bed::main, NeedleSet::one(bench.at("R4")), -2, Empties::out_of_work}) ==
        Kinds{FaultKind::hook_too_full});
  CHECK(bench.only().a == 4);
  CHECK(raised(bench, Move{Bed::main, NeedleSet::one(bench.at("R5")), -3, Empties::out_of_work}).empty());
  CHECK(raised(bench, Knit{1}).empty());
  CHECK(bench.machine.loops_on(Bed::main, bench.at("R2")) == 1);
}

TEST_CASE("an empty needle is a fault when it is knitted, and names the move") {
  READY(bench);
  NeedleSet last_of_each_5;
  for (int needle = bench.at("L10") + 4; needle <= bench.at("R10"); needle += 5) last_of_each_5.insert(needle);
  const Tag move = bench.tag + 1;
  CHECK(raised(bench, Move{Bed::main, last_of_each_5, -1}).empty());
  CHECK(raised(bench, Knit{2}) == Kinds{FaultKind::empty_needles_knitted});
  CHECK(bench.only().needles == last_of_each_5);
  CHECK(bench.only().cause == move);
  CHECK(raised(bench, Knit{2}).empty());
  for (const Empties empties : {Empties::out_of_work, Empties::in_work}) {
    READY(right);
    const NeedleSet inner = last_of_each_5 - NeedleSet::one(last_of_each_5.last());
    CHECK(raised(right, Move{Bed::main, inner, -1, empties}).empty());
    CHECK(raised(right, Knit{2}).empty());
    CHECK(right.machine.stitches() == (empties == Empties::in_work ? 20 : 17));
  }
  READY(later);   // said after the move, before the row
  CHECK(raised(later, Move{Bed::main, last_of_each_5, -1}).empty());
  CHECK(raised(later, SayEmpties{Bed::main, last_of_each_5, Empties::out_of_work}).empty());
  CHECK(raised(later, Knit{2}).empty());
}

TEST_CASE("needles brought into work wait for loops") {
  READY(bench);
  const Tag bring = bench.tag + 1;
  bench(BringIntoWork{Bed::main, bench.from_to("R11", "R12")});
  CHECK(bench.machine.unsaid(Bed::main) == bench.from_to("R11", "R12"));
  CHECK(raised(bench, Knit{1}) == Kinds{FaultKind::empty_needles_knitted});
  CHECK(bench.only().cause == bring);
}

TEST_CASE("empties are said of empty needles, and filled from a loop with a row below it") {
  READY(bench);
  const NeedleSet r5 = NeedleSet::one(bench.at("R5"));
  CHECK(raised(bench, SayEmpties{Bed::main, r5, Empties::out_of_work}) == Kinds{FaultKind::not_empty});
  CHECK(raised(bench, Move{Bed::main, r5, 1, Empties::filled_from_left}).empty());
  CHECK(bench.machine.stitches() == 20);
  CHECK(raised(bench, Move{Bed::main, NeedleSet::one(bench.at("R4")), -1, Empties::filled_from_right}) ==
        Kinds{FaultKind::nothing_to_fill_from});   // R5 was filled just now: no row below it
  CHECK(raised(bench, Knit{2}).empty());                 // it was said
  Bench fresh;
  fresh.cast_on(10);
  CHECK(raised(fresh, Move{Bed::main, NeedleSet::one(75), 1, Empties::filled_from_left}) ==
        Kinds{FaultKind::nothing_to_fill_from});
}

TEST_CASE("an eyelet has stitches on both sides") {
  READY(bench);
  CHECK(raised(bench, Move{Bed::main, NeedleSet::one(bench.at("R10")), -1, Empties::in_work}).empty());
  CHECK(raised(bench, Knit{1}) == Kinds{FaultKind::eyelet_on_edge});
  CHECK(raised(bench, Move{Bed::main, NeedleSet::one(bench.at("R9")), -1, Empties::in_work}).empty());
  CHECK(raised(bench, Knit{1}) == Kinds{FaultKind::eyelet_beside_edge});
  CHECK(is_note(FaultKind::eyelet_beside_edge));
  CHECK(raised(bench, Move{Bed::main, NeedleSet::one(bench.at("R8")), -1, Empties::in_work}).empty());
  CHECK(raised(bench, Knit{1}).empty());
  CHECK(bench.fabric.section(bench.machine.section()).eyelets == 2);
}

TEST_CASE("no loop is left on a needle put out of work") {
  READY(bench);
  CHECK(raised(bench, PutOutOfWork{Bed::main, bench.from_to("R10", "R12")}) == Kinds{FaultKind::loops_out_of_work});
  CHECK(bench.only().needles == NeedleSet::one(bench.at("R10")));
  CHECK(raised(bench, SetNeedles{Bed::main, bench.from_to("L10", "R9")}) == Kinds{FaultKind::loops_out_of_work});
  CHECK(raised(bench, SetNeedles{Bed::main, bench.from_to("L10", "R10")}).empty());
  CHECK(raised(bench, Knit{1}).empty());
}

TEST_CASE("shaping needs stitches, a straight edge, a tool and room") {
  MachineSpec spec;
  spec.tool_prongs = 3;
  READY(bench, spec);
  CHECK(raised(bench, Decrease{Bed::main, Side::left, 2}).empty());
  CHECK(bench.machine.stitches() == 19);
  CHECK(bench.machine.loops_on(Bed::main, bench.at("L7")) == 2);   // two whole stitches outside the doubled one
  CHECK(raised(bench, Knit{2}).empty());
  CHECK(raised(bench, Decrease{Bed::main, Side::left, 3}) == Kinds{FaultKind::tool_too_narrow});
  CHECK(bench.only().a == 4);
  CHECK(raised(bench, Decrease{Bed::main, Side::right, 9, 2}) == Kinds{FaultKind::too_few_to_shape});
  CHECK(bench.only().b == 22);
  CHECK(raised(bench, Decrease{Bed::main, Side::right, 18}) == Kinds{FaultKind::too_few_to_shape});
  CHECK(bench.only().b == 20);
  CHECK(raised(bench, Knit{2}).empty());
  CHECK(raised(bench, Increase{Bed::main, Side::right, 2}).empty());
  CHECK(bench.machine.stitches() == 19);
  CHECK(bench.machine.carrying(Bed::main).last() == bench.at("R11"));
  CHECK(raised(bench, Knit{1}).empty());
  CHECK(raised(bench, Increase{Bed::main, Side::right, 2, true}).empty());
  CHECK(raised(bench, Knit{1}).empty());   // an eyelet two stitches in
  CHECK(raised(bench, Increase{Bed::main, Side::right, 11, false, 2}) == Kinds{FaultKind::too_few_to_shape});
  CHECK(raised(bench, Increase{Bed::main, Side::right, 22}) == Kinds{FaultKind::too_few_to_shape});
  bench(Hold{Bed::main, NeedleSet::one(bench.at("R12"))});
  CHECK(raised(bench, Increase{Bed::main, Side::right, 0}) == Kinds{FaultKind::needle_occupied});
  bench(Release{Bed::main, NeedleSet::one(bench.at("R12"))});
  CHECK(raised(bench, Move{Bed::main, NeedleSet::one(bench.at("R11")), -1, Empties::out_of_work}).empty());
  CHECK(raised(bench, Decrease{Bed::main, Side::right, 1}) == Kinds{FaultKind::gap_in_shaping});
  CHECK(bench.only().needles == NeedleSet::one(bench.at("R11")));
}

TEST_CASE("a crossing is as wide as it stretches") {
  READY(bench);
  CHECK(raised(bench, Cross{Bed::main, bench.at("R1"), 3, 3}).empty());
  CHECK(raised(bench, Cross{Bed::main, bench.at("R1"), 4, 3}) == Kinds{FaultKind::crossing_too_wide});
  CHECK(raised(bench, Cross{Bed::main, bench.at("R9"), 2, 2}) == Kinds{FaultKind::without_loops});
  CHECK(raised(bench, LatchUp{Bed::main, bench.from_to("R1", "R1")}).empty());
  CHECK(raised(bench, LatchUp{Bed::main, bench.from_to("R20", "R20")}) == Kinds{FaultKind::without_loops});
  CHECK(raised(bench, Knit{2}).empty());
}

TEST_CASE("the yarn's place goes with its loop") {
  READY(bench);
  REQUIRE(bench.machine.place(bench.main)->needle == bench.at("R10"));
  bench(Move{Bed::main, bench.from_to("R7", "R10"), -4, Empties::out_of_work});
  CHECK(bench.machine.place(bench.main)->needle == bench.at("R6"));
  bench(Cross{Bed::main, bench.at("R5"), 1, 1});
  CHECK(bench.machine.place(bench.main)->needle == bench.at("R5"));
}

TEST_CASE("a wrap goes round the held needle beside the yarn, and a loop is lifted from a neighbour") {
  READY(bench);
  bench(Hold{Bed::main, bench.from_to("L10", "L8")});
  bench(Knit{1});
  CHECK(raised(bench, Wrap{Bed::main, NeedleSet::one(bench.at("L9"))}) == Kinds{FaultKind::wrap_away_from_yarn});
  CHECK(bench.only().a == bench.at("L8"));
  CHECK(raised(bench, Wrap{Bed::main, NeedleSet::one(bench.at("L7"))}) == Kinds{FaultKind::not_held});
  CHECK(raised(bench, Wrap{Bed::main, NeedleSet::one(bench.at("L8"))}).empty());
  CHECK(bench.machine.wraps_on(Bed::main, bench.at("L8")) == 1);
  CHECK(raised(bench, Lift{Bed::main, NeedleSet::one(bench.at("L7"))}).empty());
  CHECK(raised(bench, Knit{2}).empty());
  CHECK(raised(bench, Lift{Bed::main, bench.machine.carrying(Bed::main)}) == Kinds{FaultKind::nothing_to_lift});
}

TEST_CASE("tuck and slip have their limits") {
  READY(bench);
  const NeedleSet one = NeedleSet::one(bench.at("R3"));
  CHECK(raised(bench, KnitPattern{PatternKind::tuck, std::vector<NeedleSet>(4, one)}).empty());
  CHECK(raised(bench, Knit{1}).empty());
  CHECK(raised(bench, KnitPattern{PatternKind::tuck, std::vector<NeedleSet>(6, one)}) ==
        Kinds{FaultKind::tuck_too_long});
  CHECK(raised(bench, KnitPattern{PatternKind::tuck, {bench.from_to("L2", "L1")}}).empty());
  CHECK(raised(bench, KnitPattern{PatternKind::tuck, {bench.from_to("L7", "L5")}}) ==
        Kinds{FaultKind::tucks_side_by_side});
  bench(Knit{2});
  CHECK(raised(bench, KnitPattern{PatternKind::slip, std::vector<NeedleSet>(6, one)}).empty());
  bench(Knit{2});
  CHECK(raised(bench, KnitPattern{PatternKind::slip, std::vector<NeedleSet>(8, one)}) ==
        Kinds{FaultKind::slip_too_long});
  bench(Knit{1});
  CHECK(raised(bench, KnitPattern{PatternKind::slip, {bench.from_to("L3", "R3")}}) == Kinds{FaultKind::float_too_long});
  CHECK(bench.only().c == 1);
  CHECK(raised(bench, KnitPattern{PatternKind::slip, {bench.from_to("L3", "R2")}}).empty());   // 5 is the limit
}
