// Correct practice that a careless rule would stop: each stays quiet (common practice, worked through needle by
// needle).
#include <catch2/catch.hpp>

#include "tests/unit/runtime/short_rows.hpp"

using namespace stk::runtime;

TEST_CASE("the selvedge end of a heel turns beside no neighbour") {
  Bench bench;
  bench.cast_on(20);
  bench(Knit{4});
  ShortRows{bench, Bed::main, bench.centred(20)}.run(6);
  bench(Knit{2});
  CHECK(bench.clean());
}

TEST_CASE("a waiting half is held for a whole heel, and more needles than rows") {
  Bench bench;
  bench.cast_on(72);
  bench(Knit{4});
  bench(Hold{Bed::main, bench.from_to("L36", "L1")});
  ShortRows{bench, Bed::main, bench.from_to("R1", "R36")}.run(12);
  bench(Release{Bed::main, bench.machine.held(Bed::main)});
  bench(Knit{2});
  CHECK(bench.clean());
}

TEST_CASE("a transfer at the edge does not break the selvedge") {
  Bench bench;
  bench.cast_on(20);
  bench(Knit{10});
  bench(Move{Bed::main, NeedleSet::one(bench.at("R10")), -1, Empties::out_of_work});
  bench(Knit{10});
  CHECK(bench.machine.selvedge_rows(Side::right) == 20);
  CHECK(bench.clean());
}

TEST_CASE("an empty needle may wait for its loop until the next row") {
  Bench bench;
  const EdgeId edge = bench.cast_on(20).edges[0];
  bench(Knit{8});
  bench(BringIntoWork{Bed::main, bench.from_to("R11", "R11")});
  bench(Move{Bed::main, bench.from_to("R9", "R10"), 1});
  bench(SayEmpties{Bed::main, NeedleSet::one(bench.at("R9")), Empties::filled_from_left});
  bench(Knit{1});
  CHECK(bench.clean());
  CHECK(bench.machine.stitches() == 21);
  CHECK(bench.fabric.edge(edge).state == EdgeState::secure);
}

TEST_CASE("a step that widens the work brings its needle") {
  Bench bench;
  bench.cast_on(20);
  bench(Knit{2});
  bench(Increase{Bed::main, Side::left, 0});
  bench(Increase{Bed::main, Side::right, 0});
  bench(Knit{2});
  CHECK(bench.machine.stitches() == 22);
  CHECK(bench.clean());
}

TEST_CASE("tension changes at an edge, at a change of yarn and between sections") {
  Bench bench;
  bench(SetTension{Beds::main, 0});
  const EdgeId edge =
      bench(CastOn{CastOnMethod::open_on_waste, Bed::main, bench.centred(20), {}, Side::right, bench.waste, bench.cord})
          .edges[0];
  bench(ThreadYarn{bench.main});
  bench(SetTension{Beds::main, -50});
  bench(Knit{10});
  bench(Hang{edge, Bed::main, bench.centred(20)});
  bench(SetTension{Beds::main, 0});
  bench(Knit{4});
  bench(CutYarn{bench.main});
  bench(ThreadYarn{bench.contrast});
  bench(SetTension{Beds::main, -50});
  bench(Knit{4});
  CHECK(bench.clean());
}

TEST_CASE("an odd number of rows is nobody's fault, and a new end floats from nowhere") {
  Bench bench;
  bench.cast_on(30);
  bench(Knit{9});
  bench(CutYarn{bench.main});
  bench(ThreadYarn{bench.contrast});
  bench(Knit{9});
  bench(CutYarn{bench.contrast});
  bench(ThreadYarn{bench.main});
  bench(Knit{9});
  CHECK(bench.clean());
}

TEST_CASE("a comb in the picot hem after 3 of 4 rows") {
  Bench bench;
  bench.cast_on(30);
  bench(Knit{3});
  bench(HangComb{});
  bench(Knit{1});
  CHECK(bench.clean());
}

TEST_CASE("stripes with both yarns on one side carry up the edge") {
  Bench bench;
  bench.cast_on(30);
  for (int stripe = 0; stripe < 6; ++stripe) {
    bench(Knit{2});
    bench(RestYarn{stripe % 2 == 0 ? bench.main : bench.contrast});
    bench(ThreadYarn{stripe % 2 == 0 ? bench.contrast : bench.main});
  }
  CHECK(bench.clean());
}

TEST_CASE("one sock of a pair: an odd heel takes the yarn along on a tube") {
  Bench bench(Bench::two_beds());
  bench(SetPitch{Pitch::half});
  bench.cast_on(13);
  bench(CastOn{CastOnMethod::e_wrap, Bed::second, bench.centred(13), {}, Side::left});
  bench(Knit{5, KnitMode::rounds});
  bench(Hold{Bed::second, bench.centred(13)});
  ShortRows rows{bench, Bed::main, bench.centred(13)};
  rows.run(6);
  CHECK(rows.rows == 15);
  CHECK(bench.machine.carriage() == Side::left);
  bench(Release{Bed::second, bench.centred(13)});
  bench(Lift{Bed::main, NeedleSet::one(bench.centred(13).last())});   // its one corner
  bench(Knit{4, KnitMode::rounds});
  CHECK(bench.clean());
}
