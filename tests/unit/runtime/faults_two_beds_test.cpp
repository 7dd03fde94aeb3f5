// What only two beds can do wrong, raised and quiet.
#include <catch2/catch.hpp>
#include <string>
#include <tuple>

#include "tests/unit/runtime/support.hpp"

using namespace stk::runtime;

namespace {

void tube(Bench& bench, int half, Pitch pitch = Pitch::half) {
  bench(SetPitch{pitch});
  bench.cast_on(half);
  bench(CastOn{CastOnMethod::e_wrap, Bed::second, bench.centred(half)});
}

}  // namespace

TEST_CASE("needles that face each other meet at full pitch, said once") {
  Bench bench(Bench::two_beds());
  tube(bench, 36, Pitch::full);
  CHECK(raised(bench, Knit{4, KnitMode::rounds}) == Kinds{FaultKind::opposed_at_full_pitch});
  CHECK(bench.only().needles.count() == 36);
  CHECK(raised(bench, Knit{4, KnitMode::rounds}).empty());
  bench(SetPitch{Pitch::half});
  CHECK(raised(bench, Knit{4, KnitMode::rounds}).empty());
}

TEST_CASE("a tube is knitted in rounds") {
  Bench bench(Bench::two_beds());
  tube(bench, 12);
  CHECK(raised(bench, Knit{4, KnitMode::rounds}).empty());
  CHECK(bench.machine.tube());
  CHECK(raised(bench, Knit{4}) == Kinds{FaultKind::layers_joined});
  CHECK(raised(bench, Knit{4}).empty());
}

TEST_CASE("a tube does not begin on a rib: it is shut below") {
  Bench bench(Bench::two_beds());
  bench(ThreadYarn{bench.main});
  bench(CastOn{CastOnMethod::zigzag, Bed::main, bench.from_to("L6", "L1"), bench.from_to("R1", "R6")});
  bench(HangComb{});
  CHECK(raised(bench, Knit{2, KnitMode::rounds}).empty());   // straight after the zigzag
  CHECK(raised(bench, Knit{10}).empty());
  CHECK(raised(bench, Knit{2, KnitMode::rounds}) == Kinds{FaultKind::tube_shut_below});
  CHECK(raised(bench, Knit{20, KnitMode::rounds}).empty());
}

TEST_CASE("the beds of a tube end one over the other, give or take a needle, said once until they do") {
  for (const auto& [first, last, apart] : {std::tuple{"L6", "R6", -1}, {"L5", "R6", -1}, {"L5", "R5", -1}, {"L4", "R6", 0}, {"L5", "R4", 1}}) {
    Bench bench(Bench::two_beds());
    bench(SetPitch{Pitch::half});
    bench.cast_on(12);
    bench(CastOn{CastOnMethod::e_wrap, Bed::second, bench.from_to(first, last)});
    const std::string where = std::string(first) + " to " + last;
    INFO(where);
    CHECK(raised(bench, Knit{4, KnitMode::rounds}) == Kinds(apart < 0 ? 0 : 1, FaultKind::tube_ends_apart));
    if (apart < 0) continue;
    CHECK(bench.only().a == apart);
    CHECK(bench.only().needle == bench.at(apart == 0 ? "L6" : "R6"));
    CHECK(bench.only().b == bench.at(apart == 0 ? first : last));
    CHECK(raised(bench, Knit{4, KnitMode::rounds}).empty());
  }
}

TEST_CASE("rounds knit the end stitches of both beds, and no bed rests") {
  Bench bench(Bench::two_beds());
  tube(bench, 12);
  bench(Knit{4, KnitMode::rounds});
  bench(Hold{Bed::second, NeedleSet::one(bench.at("R6"))});
  CHECK(raised(bench, Knit{4, KnitMode::rounds}) == Kinds{FaultKind::tube_side_open});
  CHECK(bench.only().bed == Bed::second);
  bench(Release{Bed::second, NeedleSet::one(bench.at("R6"))});
  CHECK(raised(bench, Knit{4, KnitMode::rounds}).empty());
  CHECK(bench(Hold{Bed::second, bench.centred(12)}).bed_rested);
  CHECK(raised(bench, Knit{2, KnitMode::rounds}) == Kinds{FaultKind::bed_rests_in_round});
  CHECK(raised(bench, Release{Bed::second, bench.centred(12)}).empty());
}

TEST_CASE("rows on one bed of a tube turn at its end: a corner, unless lifted") {
  for (const bool lifted : {true, false}) {
    Bench bench(Bench::two_beds());
    tube(bench, 12);
    bench(Knit{4, KnitMode::rounds});
    bench(Hold{Bed::second, bench.centred(12)});
    bench(Knit{2});
    bench(Release{Bed::second, bench.centred(12)});
    if (lifted) bench(Lift{Bed::main, NeedleSet::one(bench.at("L6")) | NeedleSet::one(bench.at("R6"))});
    CHECK(raised(bench, Knit{4, KnitMode::rounds}) == Kinds(lifted ? 0 : 1, FaultKind::corner_gap));
    if (!lifted) CHECK(bench.only().a == 2);   // both
  }
}

TEST_CASE("a loop is transferred at full pitch to an empty needle") {
  Bench bench(Bench::two_beds());
  bench.cast_on(12);
  bench(Knit{4});
  const NeedleSet some = bench.from_to("R2", "R3");
  CHECK(raised(bench, Transfer{Bed::main, some}).empty());
  CHECK(bench.machine.stitches(Bed::second) == 2);
  CHECK(raised(bench, Transfer{Bed::main, some}) == Kinds{FaultKind::without_loops});
  CHECK(raised(bench, Knit{2}).empty());
  CHECK(raised(bench, Transfer{Bed::second, some}).empty());
  bench(Transfer{Bed::main, some});
  bench(Move{Bed::main, NeedleSet::one(bench.at("R1")), 1, Empties::out_of_work, true});
  CHECK(raised(bench, Transfer{Bed::second, NeedleSet::one(bench.at("R2"))}) == Kinds{FaultKind::needle_occupied});
  CHECK(raised(bench, Transfer{Bed::second, NeedleSet::one(bench.at("R2")), true}).empty());
  CHECK(bench.machine.loops_on(Bed::main, bench.at("R2")) == 2);
  bench(SetPitch{Pitch::half});
  CHECK(raised(bench, Transfer{Bed::second, NeedleSet::one(bench.at("R3"))}) ==
        Kinds{FaultKind::transfer_at_half_pitch});
}

TEST_CASE("short rows over half of both beds leave the yarn inside the tube") {
  Bench bench(Bench::two_beds());
  tube(bench, 24);
  bench(Knit{4, KnitMode::rounds});
  for (const Bed bed : {Bed::main, Bed::second}) bench(Hold{bed, bench.from_to("L12", "L1")});
  bench.faults.clear();
  bench(Knit{4, KnitMode::rounds});
  const std::vector<FaultKind> kinds = bench.kinds();
  CHECK(std::count(kinds.begin(), kinds.end(), FaultKind::float_too_long) == 1);
}

TEST_CASE("rounds over a zigzag make a pouch; up to three are the edge of a rib") {
  for (const int rounds : {3, 4}) {
    Bench bench(Bench::two_beds());
    bench(ThreadYarn{bench.main});
    bench(CastOn{CastOnMethod::zigzag, Bed::main, bench.from_to("L5", "L1"), bench.from_to("R1", "R5")});
    CHECK(raised(bench, Knit{2 * rounds, KnitMode::rounds}) == Kinds(rounds > 3 ? 1 : 0, FaultKind::tube_shut_by_zigzag));
  }
}

TEST_CASE("beds that knit a tube at two tensions are a note, once") {
  Bench bench(Bench::two_beds());
  bench(SetPitch{Pitch::half});
  bench.cast_on(10, Side::right);
  bench(CastOn{CastOnMethod::e_wrap, Bed::second, bench.centred(10), {}, Side::left});
  bench(SetTension{Beds::second, -30});
  CHECK(raised(bench, Knit{8, KnitMode::rounds}) == Kinds{FaultKind::beds_at_two_tensions});
  CHECK(bench.only().b == -30);
  CHECK(raised(bench, Knit{8, KnitMode::rounds}).empty());
  bench(SetTension{Beds::both, 0});
  CHECK(raised(bench, Knit{8, KnitMode::rounds}).empty());
}
