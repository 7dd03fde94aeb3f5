// Edges come back on the needles: hung, picked up along, joined while knitting. Each fault raised, and quiet.
#include <catch2/catch.hpp>

#include <array>

#include "tests/unit/runtime/support.hpp"

using namespace stk::runtime;

namespace {

// A piece of 20 stitches and 60 rows is off on waste; of a second one 20 stitches are cast on. The section of each.
std::array<SectionId, 2> one_done_and_one_begun(Bench& bench) {
  const SectionId first = bench(BeginSection{}).section;
  bench.cast_on(20);
  bench(Knit{60});
  bench(CutYarn{bench.main});
  bench(ScrapOff{Bed::main, {bench.centred(20)}, bench.waste});
  const SectionId second = bench(BeginSection{}).section;
  bench.cast_on(20);
  return {first, second};
}

}  // namespace

TEST_CASE("a hem's loops are counted by their kind") {
  // Every other needle over `across`: the loops between are one fewer than the stitches.
  for (const int across : {36, 37}) {
    Bench bench;
    const NeedleSet all = bench.centred(across);
    NeedleSet ribs;
    for (int needle = all.first(); needle <= all.last(); needle += 2) ribs.insert(needle);
    const EdgeId edge =
        bench(CastOn{CastOnMethod::open_on_waste, Bed::main, ribs, {}, Side::right, bench.waste, bench.cord}).edges[0];
    bench(ThreadYarn{bench.main});
    bench(Knit{8});
    CHECK(bench.fabric.edge(edge).whole == (across + 1) / 2);
    CHECK(bench.fabric.edge(edge).between == (across + 1) / 2 - 1);
    CHECK(bench.fabric.edge(edge).state == EdgeState::on_waste);
    const NeedleSet empties = all - ribs;
    bench(BringIntoWork{Bed::main, empties});
    // 36: 18 in work and 18 empties, but 17 loops: the 18th needle lies outside the last stitch, and the half loop under
    //     that stitch does not reach it.
    // 37: 19 in work, 18 empties, 18 loops.
    CHECK(empties.count() == 18);
    const Outcome hung = bench(Hang{edge, Bed::main, empties, {}, Loops::between});
    if (across == 37) {
      CHECK(kinds_of(hung).empty());
    } else {
      REQUIRE(kinds_of(hung) == Kinds{FaultKind::hang_counts_differ});
      CHECK(hung.faults[0].needles == NeedleSet::one(empties.last()));
    }
    CHECK(bench.fabric.edge(edge).between == (across == 37 ? 18 : 17));
  }
}

TEST_CASE("n loops between and a half go on n + 1 needles that lie over their stitches") {
  Bench bench;
  const NeedleSet all = bench.centred(20);
  const EdgeId edge =
      bench(CastOn{CastOnMethod::open_on_waste, Bed::main, all, {}, Side::right, bench.waste, bench.cord}).edges[0];
  bench(ThreadYarn{bench.main});
  bench(Knit{8});
  CHECK(raised(bench, Hang{edge, Bed::main, all, {}, Loops::between}).empty());
}

TEST_CASE("loops and needles differ: said with both counts, and nothing follows") {
  Bench bench;
  const EdgeId edge = bench.cast_on(20).edges[0];
  bench(Knit{4});
  bench(HangComb{});
  bench(Knit{4});
  CHECK(raised(bench, Hang{edge, Bed::main, bench.centred(18)}) == Kinds{FaultKind::hang_counts_differ});
  CHECK(bench.only().a == 18);
  CHECK(bench.only().b == 20);
  CHECK(raised(bench, Knit{2}).empty());
  CHECK(raised(bench, Hang{edge, Bed::main, bench.centred(20)}) == Kinds{FaultKind::edge_already_used});
  CHECK(raised(bench, Hang{EdgeId{99}, Bed::main, bench.centred(20)}) == Kinds{FaultKind::edge_not_open});
  const Section& section = bench.fabric.section(bench.machine.section());
  CHECK(raised(bench, Hang{section.left, Bed::main, bench.centred(4)}) == Kinds{FaultKind::edge_not_open});
}

TEST_CASE("a comb hangs in no edge that is hung or drawn") {
  for (const bool moves : {true, false}) {
    Bench bench;
    const EdgeId edge = bench.cast_on(20).edges[0];
    bench(Knit{3});
    const Tag comb = bench.tag + 1;
    bench(HangComb{});
    bench(Knit{5});
    Hang hang{edge, Bed::main, bench.centred(20)};
    hang.moves_comb = moves;
    const Outcome outcome = bench(hang);
    CHECK(outcome.comb_moved == moves);
    CHECK(kinds_of(outcome) == Kinds(moves ? 0 : 1, FaultKind::comb_hangs_in_edge));
    if (!moves) CHECK(bench.only().cause == comb);
  }
  Bench bench;
  const EdgeId open =
      bench(CastOn{CastOnMethod::open_on_waste, Bed::main, bench.centred(9), {}, Side::right, bench.waste, bench.cord})
          .edges[0];
  bench(ThreadYarn{bench.main});
  bench(Knit{4});
  CHECK(raised(bench, DrawWaste{open}) == Kinds{FaultKind::comb_hangs_in_edge, FaultKind::waste_still_holds});
}

TEST_CASE("loops picked up: from the work outwards, at the rate, once") {
  const auto flap = [](Bench& bench) {
    bench.cast_on(12);
    bench(Knit{14});
    return bench.fabric.section(bench.machine.section());
  };
  Bench bench;
  const Section section = flap(bench);
  CHECK(raised(bench, PickUp{{section.left}, Bed::main, Side::left, NeedleSet::range(62, 68), 1, 2}).empty());
  CHECK(raised(bench, Knit{1}).empty());
  CHECK(raised(bench, PickUp{{section.left}, Bed::main, Side::left, NeedleSet::range(60, 61), 1, 2}) ==
        Kinds{FaultKind::edge_already_used});
  CHECK(raised(bench, PickUp{{section.right}, Bed::main, Side::right, NeedleSet::range(82, 88), 1, 2}) ==
        Kinds{FaultKind::pick_up_apart});
  Bench many;
  const Section of = flap(many);
  CHECK(raised(many, PickUp{{of.left}, Bed::main, Side::left, NeedleSet::range(61, 68), 1, 2}) ==
        Kinds{FaultKind::pick_up_too_many});
  CHECK(many.only().b == 7);
  CHECK(many.only().c == 14);
  CHECK(raised(many, PickUp{{of.right}, Bed::main, Side::right, NeedleSet::range(81, 86), 1, 2}) ==
        Kinds{FaultKind::pick_up_leaves_rows});
  Bench carry;
  const Section on = flap(carry);
  CHECK(raised(carry, PickUp{{on.left}, Bed::main, Side::left, NeedleSet::range(63, 69), 1, 2}) ==
        Kinds{FaultKind::needles_carry, FaultKind::pick_up_leaves_rows});
  CHECK(raised(carry, PickUp{{EdgeId{99}}, Bed::main, Side::left, NeedleSet::one(60)}) ==
        Kinds{FaultKind::edge_not_open});
}

TEST_CASE("both gussets picked up before a row: the second one lies beyond the yarn") {
  Bench bench;
  bench.cast_on(12);
  bench(Knit{14});
  const Section section = bench.fabric.section(bench.machine.section());
  bench(PickUp{{section.left}, Bed::main, Side::left, NeedleSet::range(62, 68), 1, 2});
  bench(PickUp{{section.right}, Bed::main, Side::right, NeedleSet::range(81, 87), 1, 2});
  CHECK(raised(bench, Knit{1}) == Kinds{FaultKind::float_too_long});
  CHECK(bench.only().a == 6);
}

TEST_CASE("a second piece is joined to the first while it is knitted") {
  Bench bench;
  const auto [first, second] = one_done_and_one_begun(bench);
  const Outcome outcome = bench(KnitJoined{60, {bench.fabric.section(first).right}});
  CHECK(outcome.faults.empty());
  CHECK(outcome.passes == 60);
  CHECK(bench.machine.ledger().picked_up == 30);   // one loop for 2 rows
  CHECK(bench.machine.most_loops_on_a_hook() == 1);
  CHECK(bench.fabric.edge(bench.fabric.section(first).right).state == EdgeState::used);
  CHECK(bench.fabric.edge(bench.fabric.section(second).left).joined == 60);
  CHECK(raised(bench, KnitJoined{2, {bench.fabric.section(first).right}}) ==
        Kinds{FaultKind::edge_already_used});
  CHECK(raised(bench, KnitJoined{64, {}, {bench.fabric.section(first).left}}) ==
        Kinds{FaultKind::join_runs_out});
  CHECK(bench.only().a == 64);
  CHECK(bench.only().b == 60);
  CHECK(raised(bench, KnitJoined{2, {}, {EdgeId{77}}}) == Kinds{FaultKind::edge_not_open});
  CHECK(bench.machine.counter() == 124);
  bench(CutYarn{bench.main});
  const EdgeId end = bench(ScrapOff{Bed::main, {bench.centred(20)}, bench.waste}).edges[0];
  bench.finish(WeaveInEnds{});
  CHECK(bench.fabric.edge(end).whole == 20);
  CHECK(finished(bench, Finish{}) == Kinds{FaultKind::edge_never_secured, FaultKind::edge_never_secured,
                                           FaultKind::selvedge_left_open, FaultKind::selvedge_left_open});
}

TEST_CASE("open stitches are taken in by the rows that start beside them, from the nearest outwards") {
  // The turn of a square heel: of 24 stitches the middle 8 take in 8 from each side.
  Bench bench;
  bench.cast_on(24);
  bench(Knit{24});
  const SectionId cup = bench(BeginSection{}).section;
  const EdgeId left = bench(TakeOff{Bed::main, bench.from_to("L12", "L5")}).edges[0];
  bench(Knit{1});
  const EdgeId right = bench(TakeOff{Bed::main, bench.from_to("R5", "R12")}).edges[0];
  const Outcome outcome = bench(KnitJoined{15, {left}, {right}});
  CHECK(outcome.faults.empty());
  CHECK_FALSE(outcome.waste_drawn);
  CHECK(bench.machine.ledger().hung == 15);
  CHECK(bench.machine.ledger().picked_up == 0);
  CHECK(bench.fabric.edge(left).state == EdgeState::used);
  CHECK(bench.fabric.edge(right).state == EdgeState::on_holder);
  CHECK(bench.fabric.edge(right).whole == 1);
  CHECK(bench.fabric.edge(right).needles == bench.from_to("R12", "R12"));   // R5 was taken first
  CHECK(bench.fabric.edge(right).joined == 7);
  CHECK(bench.fabric.edge(bench.fabric.section(cup).left).joined == 15);
  CHECK(bench.fabric.edge(bench.fabric.section(cup).left).rows == 16);      // one before the joining began
  CHECK(bench.machine.stitches() == 8);
  CHECK(bench.machine.carriage() == Side::right);
  CHECK(raised(bench, KnitJoined{2, {left}}) == Kinds{FaultKind::edge_already_used});
  CHECK(raised(bench, Hang{right, Bed::main, bench.from_to("R4", "R4")}).empty());
  CHECK(bench.fabric.edge(right).state == EdgeState::used);
}

TEST_CASE("of open stitches and rows one sort is joined on a side, and each edge once") {
  for (const bool twice : {true, false}) {
    Bench bench;
    bench.cast_on(24);
    bench(Knit{24});
    const EdgeId own = bench.fabric.section(bench.machine.section()).left;
    const EdgeId side = bench(TakeOff{Bed::main, bench.from_to("L12", "L5")}).edges[0];
    if (twice) {
      CHECK(raised(bench, KnitJoined{2, {side}, {side}}) == Kinds{FaultKind::edge_already_used});
    } else {
      CHECK(raised(bench, KnitJoined{2, {side, own}}) == Kinds{FaultKind::join_sorts_differ});
      CHECK(bench.only().other_edge == own);
    }
    CHECK(bench.machine.counter() == 24);                       // nothing was knitted
    CHECK(bench.fabric.edge(side).state == EdgeState::used);    // and it is not told again as left open
  }
}

TEST_CASE("rows ask for a loop of open stitches where they start, and what is left stays open") {
  Bench bench;
  bench.cast_on(24);
  bench(Knit{24});
  bench(CutYarn{bench.main});
  const EdgeId waiting = bench(ScrapOff{Bed::main, {bench.from_to("R1", "R12")}, bench.waste}).edges[0];
  bench(ThreadYarn{bench.main});
  CHECK(raised(bench, KnitJoined{9, {}, {waiting}}).empty());        // five of these start on the right
  CHECK(bench.fabric.edge(waiting).whole == 7);
  CHECK(bench.fabric.edge(waiting).waste_in);
  CHECK(raised(bench, KnitJoined{17, {}, {waiting}}) == Kinds{FaultKind::join_runs_out});
  CHECK(bench.only().a == 8);                                        // from the left: rows 2, 4 and so on
  CHECK(bench.only().b == 7);
  CHECK(bench.fabric.edge(waiting).state == EdgeState::used);
  CHECK_FALSE(bench.fabric.edge(waiting).waste_in);
  CHECK(bench.machine.most_loops_on_a_hook() == 1);
}

TEST_CASE("a piece is joined on both sides while it is knitted, and leaves nothing to sew") {
  Bench bench;
  const SectionId first = bench(BeginSection{}).section;
  bench.cast_on(20);
  bench(Knit{60});
  bench(CutYarn{bench.main});
  bench(BindOff{Bed::main, bench.centred(20)});
  const SectionId second = bench(BeginSection{}).section;
  bench.cast_on(20);
  const Section& instep = bench.fabric.section(first);
  const Outcome outcome = bench(KnitJoined{60, {instep.right}, {instep.left}});
  CHECK(outcome.faults.empty());
  CHECK(bench.machine.ledger().picked_up == 60);   // one loop for 2 rows on each side
  CHECK(bench.machine.most_loops_on_a_hook() == 1);
  for (const Side side : {Side::left, Side::right}) {
    const Section& one = bench.fabric.section(first);
    const Section& other = bench.fabric.section(second);
    CHECK(bench.fabric.edge(side == Side::left ? one.left : one.right).state == EdgeState::used);
    CHECK(bench.fabric.edge(side == Side::left ? other.left : other.right).joined == 60);
  }
  CHECK(raised(bench, KnitJoined{4, {bench.fabric.section(second).left}, {bench.fabric.section(first).left}}) ==
        Kinds{FaultKind::edge_already_used});
}

TEST_CASE("a joined piece turns a partly joined selvedge over to the seam") {
  Bench bench;
  const auto [first, second] = one_done_and_one_begun(bench);
  bench(KnitJoined{20, {bench.fabric.section(first).right}});
  bench(Knit{40});
  CHECK(finished(bench, Seam{{bench.fabric.section(second).left}, {bench.fabric.section(first).right}}).empty());
}

TEST_CASE("a cast-on is hung in the order in which the fabric meets the needles") {
  const auto hung = [](Bed bed, const char* first, const char* last, HangOrder order) {
    Bench bench(Bench::two_beds());
    bench(ThreadYarn{bench.main});
    const EdgeId edge = bench(CastOn{CastOnMethod::e_wrap, Bed::main, bench.from_to("R1", "R8")}).edges.front();
    bench(Knit{12});
    Hang hang{edge, bed, bench.from_to(first, last)};
    hang.order = order;
    return raised(bench, hang);
  };
  const Kinds crossed{FaultKind::hung_crossed};
  CHECK(hung(Bed::main, "R1", "R8", HangOrder::straight).empty());      // a hem
  CHECK(hung(Bed::main, "R1", "R8", HangOrder::reversed) == crossed);
  CHECK(hung(Bed::second, "R1", "R8", HangOrder::straight).empty());    // the facing bed
  CHECK(hung(Bed::second, "R1", "R8", HangOrder::reversed) == crossed);
  CHECK(hung(Bed::main, "L8", "L1", HangOrder::reversed).empty());      // beside the work: folded sideways
  CHECK(hung(Bed::main, "L8", "L1", HangOrder::straight) == crossed);
  CHECK(hung(Bed::main, "L4", "R4", HangOrder::straight) == Kinds{FaultKind::needles_carry});
}

TEST_CASE("loops along a selvedge begin at the row knitted last") {
  for (const bool from_far_end : {false, true}) {
    Bench bench;
    std::vector<EdgeId> along;
    for (int part = 0; part < 2; ++part) {
      const SectionId section = bench(BeginSection{}).section;
      if (part == 0) bench.cast_on(10);
      bench(Knit{10});
      along.push_back(bench.fabric.section(section).left);
    }
    if (!from_far_end) std::swap(along[0], along[1]);
    CHECK(raised(bench, PickUp{along, Bed::main, Side::left, bench.from_to("L15", "L6"), 1, 2}) ==
          Kinds(from_far_end ? 1 : 0, FaultKind::pick_up_from_far_end));
  }
}
