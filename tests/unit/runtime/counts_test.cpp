// Counts over very many rows, mirrored work, and the ledger of loops.
#include <catch2/catch.hpp>

#include <chrono>

#include "tests/unit/runtime/short_rows.hpp"

using namespace stk::runtime;

TEST_CASE("ten million rows cost no more than ten, and every count is right") {
  for (const std::int64_t passes : {7LL, 8LL, 1'000LL, 10'000'001LL, 1'000'000'000'000LL}) {
    MachineSpec spec;
    spec.needles = needle_limit;
    Bench bench(spec);
    bench.cast_on(needle_limit);
    bench(HangWeights{});
    const auto begin = std::chrono::steady_clock::now();
    const Outcome outcome = bench(Knit{passes});
    CHECK(std::chrono::steady_clock::now() - begin < std::chrono::milliseconds(200));
    CHECK(outcome.faults.empty());
    CHECK(outcome.passes == passes);
    CHECK(outcome.loops == passes * needle_limit);
    CHECK(bench.machine.counter() == passes);
    CHECK(bench.machine.selvedge_rows(Side::left) == passes);
    CHECK(bench.machine.selvedge_rows(Side::right) == passes);
    CHECK(bench.fabric.yarn(bench.main).loops == (passes + 1) * needle_limit);
    CHECK(bench.machine.carriage() == (passes % 2 ? Side::left : Side::right));
    CHECK(bench.machine.place(bench.main)->needle == (passes % 2 ? 0 : needle_limit - 1));
    CHECK(bench.machine.place(bench.main)->pass == passes - 1);
  }
  Bench bench;
  bench.cast_on(4);
  CHECK(bench(Knit{-5}).passes == 0);
}

TEST_CASE("n rows at once are n rows one by one") {
  for (int rows = 0; rows < 20; ++rows) {
    Bench at_once, one_by_one;
    for (Bench* bench : {&at_once, &one_by_one}) {
      bench->cast_on(14);
      (*bench)(Hold{Bed::main, bench->from_to("L7", "L6")});
    }
    at_once(Knit{rows});
    for (int row = 0; row < rows; ++row) one_by_one(Knit{1});
    CHECK(at_once.machine.counter() == one_by_one.machine.counter());
    CHECK(at_once.machine.ledger() == one_by_one.machine.ledger());
    CHECK(at_once.kinds() == one_by_one.kinds());
    CHECK(at_once.fabric.yarn(at_once.main).loops == one_by_one.fabric.yarn(one_by_one.main).loops);
    CHECK(at_once.machine.selvedge_rows(Side::right) == one_by_one.machine.selvedge_rows(Side::right));
  }
}

TEST_CASE("work in a mirror is the mirror image of the work") {
  Bench plain, image;
  const auto both = [&](const auto& op) {
    plain(op);
    const Operation turned = mirrored(Operation{plain.tag, op}, image.spec, image.fabric);
    const Outcome outcome = image.machine.apply(turned);
    image.faults.insert(image.faults.end(), outcome.faults.begin(), outcome.faults.end());
    REQUIRE(image.machine.carrying(Bed::main) == plain.machine.carrying(Bed::main).mirrored(plain.spec.needles));
    REQUIRE(image.machine.held(Bed::main) == plain.machine.held(Bed::main).mirrored(plain.spec.needles));
    REQUIRE(image.machine.counter() == plain.machine.counter());
    REQUIRE(image.kinds() == plain.kinds());
    if (!plain.machine.carriage()) return;
    REQUIRE(image.machine.carriage() == opposite(*plain.machine.carriage()));
    REQUIRE(image.machine.selvedge_rows(Side::left) == plain.machine.selvedge_rows(Side::right));
    REQUIRE(image.machine.selvedge_rows(Side::right) == plain.machine.selvedge_rows(Side::left));
  };
  both(ThreadYarn{plain.main});
  both(CastOn{CastOnMethod::e_wrap, Bed::main, plain.centred(20)});
  both(Knit{5});
  both(Hold{Bed::main, plain.from_to("L10", "L3")});   // floats
  both(Knit{3});
  both(Release{Bed::main, plain.from_to("L10", "L3")});
  both(Decrease{Bed::main, Side::right, 1});
  both(Increase{Bed::main, Side::left, 2});
  both(Knit{2});
  both(Move{Bed::main, plain.from_to("R2", "R4"), -1, Empties::filled_from_left});
  both(Cross{Bed::main, plain.at("L6"), 2, 1});
  both(Knit{2});
  both(Move{Bed::main, NeedleSet::one(plain.at("L3")), 1, Empties::unsaid});
  both(Knit{1});
  both(PickUp{
      {plain.fabric.section(plain.machine.section()).left}, Bed::main, Side::left, plain.from_to("L13", "L12"), 1, 2});
  both(Knit{2});
  both(CutYarn{plain.main, 300'000});
  both(Gather{Bed::main, plain.machine.carrying(Bed::main)});
  CHECK(plain.kinds() == std::vector<FaultKind>{FaultKind::float_too_long, FaultKind::empty_needles_knitted,
                                                FaultKind::pick_up_leaves_rows});
}

TEST_CASE("no loop is lost: what came is there, merged, secured or on an edge") {
  Bench bench;
  bench.cast_on(40);
  bench(Knit{4});
  bench(Increase{Bed::main, Side::left, 2});
  bench(Knit{2});
  bench(Hold{Bed::main, bench.from_to("L21", "L1")});
  ShortRows{bench, Bed::main, bench.from_to("R1", "R20")}.run(8);
  bench(Release{Bed::main, bench.machine.held(Bed::main)});
  bench(Knit{2});
  bench(CutYarn{bench.main, 900'000});
  bench(ScrapOff{Bed::main, {bench.from_to("R1", "R20")}, bench.waste});
  const Ledger& of = bench.machine.ledger();
  CHECK(of.cast_on == 40);
  CHECK(of.increased == 1);
  CHECK(of.wrapped == of.merged);
  CHECK(of.to_edges == 20);
  CHECK(of.cast_on + of.increased + of.wrapped == of.merged + of.to_edges + bench.machine.loops_on_hooks());
  CHECK(bench.clean());
}
