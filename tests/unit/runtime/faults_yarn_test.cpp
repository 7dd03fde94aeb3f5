// Each fault of carriage, yarn, comb and tension, raised and quiet.
#include <catch2/catch.hpp>

#include "tests/unit/runtime/support.hpp"

using namespace stk::runtime;

TEST_CASE("a row needs something in work and a yarn, said once") {
  Bench bench;
  CHECK(raised(bench, Knit{5}) == Kinds{FaultKind::nothing_in_work});
  CHECK(bench.machine.counter() == 5);
  CHECK(raised(bench, Knit{5}).empty());
  CHECK(raised(bench, CastOn{CastOnMethod::e_wrap, Bed::main, bench.centred(10)}) ==
        Kinds{FaultKind::no_yarn_threaded});
  CHECK(raised(bench, Knit{5}).empty());   // follows from it
  bench(ThreadYarn{bench.main});
  CHECK(raised(bench, Knit{5}).empty());
  bench(CutYarn{bench.main});
  CHECK(raised(bench, Knit{5}) == Kinds{FaultKind::no_yarn_threaded});
  CHECK(raised(bench, CastOn{CastOnMethod::e_wrap, Bed::main, {}}) == Kinds{FaultKind::nothing_in_work});
}

TEST_CASE("the feeder holds one yarn in use, and cut and rest know what is threaded") {
  Bench bench;
  bench.cast_on(10);
  bench(Knit{2});
  CHECK(raised(bench, ThreadYarn{bench.contrast}) == Kinds{FaultKind::feeder_busy});
  CHECK(bench.only().yarn == bench.main);
  CHECK(raised(bench, RestYarn{bench.main}) == Kinds{FaultKind::yarn_not_threaded});   // it was taken out just now
  CHECK(raised(bench, CutYarn{bench.main}).empty());                                   // though it rests on the fabric
  CHECK(raised(bench, CutYarn{bench.main}) == Kinds{FaultKind::yarn_not_threaded});
  CHECK(raised(bench, RestYarn{bench.contrast}).empty());
  CHECK(raised(bench, ThreadYarn{bench.main, bench.contrast}).empty());
  CHECK(raised(bench, ThreadYarn{YarnId{99}}) == Kinds{FaultKind::no_such_yarn});
  CHECK(raised(bench, ScrapOff{Bed::main, {bench.centred(10)}, YarnId{}}) == Kinds{FaultKind::no_such_yarn});
  CHECK(raised(bench, CastOn{CastOnMethod::open_on_waste, Bed::main, NeedleSet::one(5)}) ==
        Kinds{FaultKind::no_such_yarn});
}

TEST_CASE("a row of one colour strands the other: only its last place shows it") {
  Bench bench;
  bench.cast_on(48);
  bench(Knit{2});
  bench(ThreadYarn{bench.main, bench.contrast});
  NeedleSet every_fourth;
  for (int needle = bench.at("L24"); needle <= bench.at("R24"); needle += 4) every_fourth.insert(needle);
  CHECK(raised(bench, KnitPattern{PatternKind::two_colour, {every_fourth, {}, every_fourth}}) ==
        Kinds{FaultKind::float_too_long});
  CHECK(bench.only().yarn == bench.contrast);
  CHECK(bench.only().needle == bench.at("L24"));
  CHECK(bench.only().a == 43);   // of 48 needles
  CHECK(bench.only().d == 2);
  bench(CutYarn{bench.contrast});
  bench(Knit{1});
  bench(ThreadYarn{bench.main, bench.contrast});
  CHECK(raised(bench, KnitPattern{PatternKind::two_colour, {every_fourth, every_fourth}})
            .empty());  // a new end: no float
}

TEST_CASE("a float within a row is measured in loops, to the limit and one beyond") {
  for (const int gap : {5, 6}) {
    Bench bench;
    bench.cast_on(40);
    bench(Knit{2});
    bench(ThreadYarn{bench.main, bench.contrast});
    NeedleSet coloured;
    for (int needle = bench.at("L20"); needle <= bench.at("R20"); needle += gap + 1) coloured.insert(needle);
    CHECK(raised(bench, KnitPattern{PatternKind::two_colour, {coloured}}) ==
          Kinds(gap > 5 ? 1 : 0, FaultKind::float_too_long));
  }
  Bench one;
  one.cast_on(10);
  one(Knit{1});
  CHECK(raised(one, KnitPattern{PatternKind::two_colour, {NeedleSet::one(75), NeedleSet::one(75)}}) ==
        Kinds{FaultKind::no_second_yarn});
}

TEST_CASE("needles held in the middle are a float in every row, said once") {
  Bench bench;
  bench.cast_on(30);
  bench(Knit{2});
  const Tag hold = bench.tag + 1;
  bench(Hold{Bed::main, bench.from_to("L3", "R3")});
  CHECK(raised(bench, Knit{20}) == Kinds{FaultKind::float_too_long});
  CHECK(bench.only().a == 6);
  CHECK(bench.only().cause == hold);
  CHECK(raised(bench, Knit{20}).empty());
}

TEST_CASE("the carriage stands where it is asked") {
  Bench bench;
  bench.cast_on(10, Side::left);
  CHECK(bench.machine.carriage() == Side::left);
  bench(CutYarn{bench.main, 0});
  bench(ThreadYarn{bench.contrast});
  CHECK(raised(bench, CastOn{CastOnMethod::e_wrap, Bed::main, bench.from_to("R7", "R8"), {}, Side::right}).empty());
  bench(Knit{1});   // what was wrapped by hand alone binds the carriage to no side
  CHECK(raised(bench, CastOn{CastOnMethod::e_wrap, Bed::main, bench.from_to("R10", "R12"), {}, Side::right}) ==
        Kinds{FaultKind::carriage_elsewhere, FaultKind::float_too_long});   // and the yarn is there with it
  CHECK(raised(bench, CastOn{CastOnMethod::e_wrap, Bed::main, bench.from_to("R15", "R16"), {}, Side::right}).empty());
}

TEST_CASE("a ring is cast on round the corner, from where the first half ended") {
  for (const Side second : {Side::left, Side::right}) {
    Bench bench(Bench::two_beds());
    bench(SetPitch{Pitch::half});
    bench.cast_on(20, Side::right);
    const auto kinds = raised(bench, CastOn{CastOnMethod::e_wrap, Bed::second, bench.centred(20), {}, second});
    CHECK(kinds == Kinds(second == Side::left ? 0 : 1, FaultKind::float_too_long));
    if (second == Side::left) CHECK(raised(bench, Knit{8, KnitMode::rounds}).empty());
  }
}

TEST_CASE("stitches that drift apart on the bed leave a ladder") {
  for (const int gap : {5, 6}) {
    Bench bench;
    bench(SetNeedles{Bed::main, bench.from_to("L6", "L1") | NeedleSet::range(bench.at("L1") + gap + 1, bench.at("L1") + gap + 6)});
    bench(ThreadYarn{bench.main});
    bench(CastOn{CastOnMethod::e_wrap, Bed::main, bench.machine.in_work(Bed::main)});
    CHECK(raised(bench, Knit{4}) == Kinds(gap > 5 ? 1 : 0, FaultKind::float_too_long));
    if (gap > 5) CHECK(bench.only().c == 2);
    CHECK(raised(bench, Knit{4}).empty());
  }
}

TEST_CASE("the tensions used fit on the dial together") {
  Bench bench;
  CHECK(raised(bench, SetTension{Beds::main, -60}).empty());
  CHECK(raised(bench, SetTension{Beds::main, 40}).empty());
  CHECK(raised(bench, SetTension{Beds::main, 41}) == Kinds{FaultKind::tension_beyond_dial});
  CHECK(bench.only().a == 101);
  CHECK(raised(bench, SetTension{Beds::main, -60}).empty());
}

TEST_CASE("a jump of tension inside one fabric is a note") {
  Bench bench;
  bench.cast_on(10);
  bench(Knit{2});
  bench(SetTension{Beds::main, -30});
  CHECK(raised(bench, Knit{2}).empty());
  bench(SetTension{Beds::main, 10});
  CHECK(raised(bench, Knit{2}) == Kinds{FaultKind::tension_jumps});
  bench(SetTension{Beds::main, -40});
  bench(BeginSection{});
  CHECK(raised(bench, Knit{2}).empty());   // another fabric
}

TEST_CASE("the comb needs rows to hang in, by the kind of cast-on") {
  const std::pair<CastOnMethod, int> needs[] = {{CastOnMethod::e_wrap, 3},
                                                {CastOnMethod::every_other_with_weave, 3},
                                                {CastOnMethod::closed_by_latch, 1},
                                                {CastOnMethod::closed_by_crochet, 1}};
  for (const auto& [method, rows] : needs) {
    for (const int knitted : {rows - 1, rows}) {
      Bench bench;
      bench(ThreadYarn{bench.main});
      bench(CastOn{method, Bed::main, bench.centred(20)});
      bench(Knit{knitted});
      CHECK(raised(bench, HangComb{}) == Kinds(knitted < rows ? 1 : 0, FaultKind::comb_too_early));
    }
  }
  Bench bare;
  CHECK(raised(bare, HangComb{}) == Kinds{FaultKind::comb_without_fabric});
  CHECK(raised(bare, HangWeights{}) == Kinds{FaultKind::comb_without_fabric});
  CHECK(raised(bare, RemoveComb{}) == Kinds{FaultKind::no_comb});
}

TEST_CASE("the comb goes into a zigzag before the next pass") {
  for (const bool late : {false, true}) {
    Bench bench(Bench::two_beds());
    bench(ThreadYarn{bench.main});
    bench(CastOn{CastOnMethod::zigzag, Bed::main, bench.from_to("L4", "L1"), bench.from_to("R1", "R4")});
    if (late) bench(Knit{2, KnitMode::rounds});
    CHECK(raised(bench, HangComb{}) == Kinds(late ? 1 : 0, FaultKind::comb_too_late));
    CHECK(raised(bench, RemoveComb{}).empty());
  }
}

TEST_CASE("fabric that has grown away from the weights is a note, until they are moved") {
  for (const bool moved : {false, true}) {
    Bench bench;
    bench.cast_on(20);
    bench(Knit{3});
    bench(HangComb{});
    for (int by = 0; by < bench.machine.spec().weights_reach; ++by) {
      bench(Increase{});
      bench(Increase{Bed::main, Side::right});
      CHECK(raised(bench, Knit{2}).empty());
    }
    bench(Increase{});
    bench(Increase{Bed::main, Side::right});
    if (moved) CHECK(raised(bench, HangWeights{}).empty());
    CHECK(raised(bench, Knit{2}).empty());   // a weight needs fabric to hang on
    CHECK(raised(bench, Knit{20}) == Kinds(moved ? 0 : 1, FaultKind::weights_do_not_reach));
    if (!moved) CHECK(bench.only().a == bench.machine.spec().weights_reach + 1);
    CHECK(raised(bench, Knit{20}).empty());
  }
}

TEST_CASE("rows without any weights are a note after a while") {
  Bench bench(MachineSpec{}, true);
  bench.cast_on(20);
  CHECK(raised(bench, Knit{20}).empty());
  CHECK(raised(bench, Knit{9}) == Kinds{FaultKind::no_weights});
  CHECK(bench.only().a == 29);
  CHECK(bench.only().cause == 2);   // the cast-on
  CHECK(raised(bench, Knit{40}).empty());
  bench(HangWeights{});
  CHECK(raised(bench, Knit{40}).empty());
}

TEST_CASE("a very long hold is a note, until the weights are moved") {
  Bench bench;
  bench.cast_on(20);
  bench(Knit{2});
  bench(Hold{Bed::main, bench.from_to("L10", "L1")});
  CHECK(raised(bench, Knit{60}) == Kinds{FaultKind::open_slit});   // half of it waits: a slit, and a note
  CHECK(raised(bench, HangWeights{}).empty());
  CHECK(raised(bench, Knit{60}).empty());
  CHECK(raised(bench, Knit{1}) == Kinds{FaultKind::long_hold});
  CHECK(bench.only().a == 61);
  CHECK(raised(bench, Knit{40}).empty());
}

TEST_CASE("a carriage that knits one way passes back for nothing") {
  Bench bench;
  bench.cast_on(3);
  bench(SetCarriage{CarriageKnits::to_left});
  const Outcome outcome = bench(Knit{40});
  CHECK(outcome.faults.empty());   // n - 2 loops: the yarn returns over one
  CHECK(outcome.loops == 60);
  CHECK(bench.machine.counter() == 40);
  Bench wide;
  wide.cast_on(8);
  wide(SetCarriage{CarriageKnits::to_left});
  CHECK(raised(wide, Knit{40}) == Kinds{FaultKind::float_too_long});
  CHECK(wide.only().a == 6);
}
