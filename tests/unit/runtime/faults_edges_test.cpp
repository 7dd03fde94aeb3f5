// Each fault of edges, taking off and finishing, raised and quiet.
#include <catch2/catch.hpp>

#include "tests/unit/runtime/support.hpp"

using namespace stk::runtime;

namespace {

using Kinds = std::vector<FaultKind>;

template <class Op>
Kinds raised(Bench& bench, const Op& op) {
  bench.faults.clear();
  return kinds_of(bench(op));
}
template <class Op>
Kinds finished(Bench& bench, const Op& op) {
  bench.faults.clear();
  return kinds_of(bench.finish(op));
}

constexpr std::int64_t cm = 10'000;

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

TEST_CASE("waste stays until what it holds is secured") {
  Bench bench;
  bench.cast_on(10);
  bench(Knit{10});
  bench(CutYarn{bench.main, 50 * cm});
  const Outcome off = bench(ScrapOff{Bed::main, {bench.from_to("L5", "L1"), bench.from_to("R1", "R5")}, bench.waste});
  CHECK(off.waste_rows == 8);
  CHECK(off.faults.empty());
  CHECK(finished(bench, DrawWaste{off.edges[0]}) == Kinds{FaultKind::waste_still_holds});
  CHECK(finished(bench, DrawWaste{EdgeId{77}}) == Kinds{FaultKind::edge_not_open});
  CHECK(finished(bench, Finish{}) == Kinds{FaultKind::edge_never_secured, FaultKind::ends_not_woven});
  CHECK(bench.faults[0].edge == off.edges[1]);
  CHECK(bench.faults[0].a == 5);
}

TEST_CASE("enough rows of waste") {
  for (const int rows : {5, 6}) {
    Bench bench;
    bench.cast_on(10);
    bench(Knit{10});
    bench(CutYarn{bench.main, 50 * cm});
    CHECK(raised(bench, ScrapOff{Bed::main, {bench.centred(10)}, bench.waste, rows}) ==
          Kinds(rows < 6 ? 1 : 0, FaultKind::too_little_waste));
  }
  Bench bench;   // the yarn still in the feeder, and parts that overlap
  bench.cast_on(10);
  bench(Knit{10});
  CHECK(raised(bench, ScrapOff{Bed::main, {bench.centred(10), NeedleSet::one(75)}, bench.waste}) ==
        Kinds{FaultKind::without_loops, FaultKind::feeder_busy});
}

TEST_CASE("a graft joins equal live edges, from the end where the tail hangs") {
  const auto folded = [](Bench& bench, int left, int right) {
    bench.cast_on(20);
    bench(Knit{10});
    bench(CutYarn{bench.main, 60 * cm});
    return bench(ScrapOff{Bed::main, {NeedleSet::range(75, 74 + right), NeedleSet::range(75 - left, 74)}, bench.waste})
        .edges;
  };
  {
    Bench bench;
    const std::vector<EdgeId> edges = folded(bench, 10, 10);
    CHECK(finished(bench, Graft{edges[0], edges[1], GraftFrom::open_side, true, 60 * cm}).empty());
    CHECK(finished(bench, Graft{edges[0], edges[1], GraftFrom::open_side}) ==
          Kinds{FaultKind::edge_already_used, FaultKind::edge_already_used});
  }
  {
    Bench bench;   // R10 has the tail; the fold is R1 and L1
    const std::vector<EdgeId> edges = folded(bench, 10, 10);
    CHECK(finished(bench, Graft{edges[0], edges[1], GraftFrom::fold}) == Kinds{FaultKind::tail_elsewhere});
    CHECK(bench.only().needle == bench.at("R10"));
    CHECK(bench.only().a == bench.at("R1"));
  }
  {
    Bench bench;
    const std::vector<EdgeId> edges = folded(bench, 9, 10);
    CHECK(finished(bench, Graft{edges[0], edges[1], GraftFrom::open_side}) == Kinds{FaultKind::graft_counts_differ});
    CHECK(bench.only().a == 10);
    CHECK(bench.only().b == 9);
  }
  {
    Bench bench;
    const std::vector<EdgeId> edges = folded(bench, 10, 10);
    CHECK(finished(bench, Graft{edges[0], edges[1], GraftFrom::open_side, true, 60 * cm + 1}) ==
          Kinds{FaultKind::tail_too_short});
  }
  {
    Bench bench;   // with a new length no tail is asked for
    const std::vector<EdgeId> edges = folded(bench, 10, 10);
    CHECK(finished(bench, Graft{edges[0], edges[1], GraftFrom::fold, false}).empty());
  }
  Bench bench;
  bench.cast_on(10);
  const Section& section = bench.fabric.section(bench.machine.section());
  CHECK(finished(bench, Graft{section.left, section.right}) ==
        Kinds{FaultKind::edge_not_open, FaultKind::edge_not_open});
}

TEST_CASE("a seam joins rows to rows, equal but for short rows and one in twenty") {
  for (const int rows : {84, 85}) {   // 80 rows allow 4 more
    Bench bench;
    const SectionId one = bench(BeginSection{}).section;
    const EdgeId cast_on = bench.cast_on(10).edges[0];
    bench(Knit{80});
    const SectionId two = bench(BeginSection{}).section;
    bench(Knit{rows});
    const EdgeId left = bench.fabric.section(one).left, right = bench.fabric.section(two).right;
    CHECK(finished(bench, Seam{{left}, {cast_on}}) == Kinds{FaultKind::seam_sorts_differ});
    CHECK(finished(bench, Seam{{bench.fabric.section(one).right}, {right}}) ==
          Kinds(rows > 84 ? 1 : 0, FaultKind::seam_counts_differ));
    if (rows > 84) CHECK(bench.only().c == 4);
    CHECK(finished(bench, Seam{{right}, {left}}) == Kinds{FaultKind::edge_already_used, FaultKind::edge_already_used});
  }
}

TEST_CASE("a seam sews with a tail that hangs there and is long enough") {
  Bench bench;
  bench.cast_on(10);
  bench(Knit{80});
  const Section section = bench.fabric.section(bench.machine.section());
  CHECK(finished(bench, Seam{{section.left}, {section.right}, true}) == Kinds{FaultKind::tail_elsewhere});
  Bench cut;
  cut.cast_on(10);
  cut(Knit{80});
  cut(CutYarn{cut.main, 30 * cm});
  const Section of = cut.fabric.section(cut.machine.section());
  CHECK(finished(cut, Seam{{of.left}, {of.right}, true, 31 * cm}) == Kinds{FaultKind::tail_too_short});
  const EdgeId live = cut(ScrapOff{Bed::main, {cut.centred(10)}, cut.waste}).edges[0];
  CHECK(finished(cut, Seam{{live}, {live}}) == Kinds{FaultKind::edge_not_open, FaultKind::edge_already_used});
}

TEST_CASE("binding off starts at the yarn, gathering at a tail") {
  Bench bench;
  bench.cast_on(20);
  bench(Knit{10});
  CHECK(raised(bench, BindOff{Bed::main, bench.from_to("L1", "R1")}) == Kinds{FaultKind::yarn_not_at_end});
  CHECK(raised(bench, Gather{Bed::main, bench.from_to("R2", "R10")}) == Kinds{FaultKind::yarn_not_cut});
  Bench right;
  right.cast_on(20);
  right(Knit{10});
  CHECK(raised(right, BindOff{Bed::main, right.from_to("R1", "R10")}).empty());
  CHECK(right.machine.place(right.main)->needle == right.at("R1"));
  CHECK(raised(right, BindOff{Bed::main, right.from_to("L10", "L4")}) == Kinds{FaultKind::yarn_not_at_end});
  Bench twice;
  twice.cast_on(20);
  twice(Knit{10});
  CHECK(raised(twice, BindOff{Bed::main, twice.from_to("R1", "R10")}).empty());
  CHECK(raised(twice, BindOff{Bed::main, twice.from_to("L10", "L1")}).empty());   // from where the first one stopped
  CHECK(twice.machine.place(twice.main)->needle == twice.at("L10"));
  Bench gather;
  gather.cast_on(20);
  gather(Knit{10});
  gather(CutYarn{gather.main, 20 * cm});
  CHECK(raised(gather, Gather{Bed::main, gather.from_to("L10", "L1")}) == Kinds{FaultKind::tail_elsewhere});
  CHECK(gather.only().needle == gather.at("R10"));
  CHECK(raised(gather, Gather{Bed::main, gather.from_to("R1", "R10"), {}, 21 * cm}) ==
        Kinds{FaultKind::tail_too_short});
  gather(Knit{0});
  CHECK(raised(gather, EndPiece{}).empty());
  CHECK(gather.machine.ledger().secured == 20);
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

TEST_CASE("a slot is knitted over, its loops are held, then it is opened, filled and closed") {
  const auto line = [](Bench& bench, bool over) {
    bench.cast_on(20);
    bench(Knit{10});
    const SlotId slot = bench(KnitByHand{Bed::main, bench.from_to("R1", "R10"), bench.waste}).slot;
    if (over) bench(Knit{10});
    bench.faults.clear();
    return slot;
  };
  Bench bench;
  const SlotId slot = line(bench, true);
  CHECK(bench.fabric.edge(bench.fabric.slot(slot).lower).whole == 10);
  CHECK(bench.fabric.edge(bench.fabric.slot(slot).upper).between == 9);
  CHECK(bench.fabric.edge(bench.fabric.slot(slot).upper).half == 2);
  CHECK(finished(bench, CloseCorners{slot}) == Kinds{FaultKind::slot_not_opened});
  CHECK(raised(bench, OpenSlot{slot, true}) == Kinds{FaultKind::loops_hang_free});
  CHECK(bench.only().a == 0);
  CHECK(raised(bench, OpenSlot{slot, true}) == Kinds{FaultKind::edge_already_used});
  Bench both;
  CHECK(raised(both, OpenSlot{line(both, true), false}) ==
        Kinds{FaultKind::loops_hang_free, FaultKind::loops_hang_free});
  Bench early;
  CHECK(raised(early, OpenSlot{line(early, false), true}) ==
        Kinds{FaultKind::slot_not_knitted, FaultKind::loops_hang_free});
  Bench never;
  line(never, true);
  CHECK(finished(never, Finish{}) == Kinds{FaultKind::slot_not_closed, FaultKind::ends_not_woven});
  Bench none;
  CHECK(raised(none, OpenSlot{SlotId{3}}) == Kinds{FaultKind::edge_not_open});
}

TEST_CASE("a sock is finished when nothing is open, loose or left") {
  Bench bench;
  bench.cast_on(10);
  bench(Knit{10});
  CHECK(raised(bench, EndPiece{}) == Kinds{FaultKind::loops_on_needles});
  CHECK(finished(bench, Finish{}) == Kinds{FaultKind::ends_not_woven});
  CHECK(bench.only().a == 2);
  CHECK(finished(bench, WeaveInEnds{}).empty());
  CHECK(finished(bench, Finish{}).empty());
  CHECK(finished(bench, ThreadThrough{{bench.machine.section()}}) == Kinds{FaultKind::no_eyelets});
  Bench waste;
  waste(CastOn{CastOnMethod::open_on_waste, Bed::main, waste.centred(9), {}, Side::right, waste.waste, waste.cord});
  waste(Drop{Bed::main, waste.centred(9)});
  CHECK(finished(waste, Finish{}) == Kinds{FaultKind::waste_left});
}

TEST_CASE("the waste of an open cast-on brings the carriage where it is asked, cord and all") {
  for (const Side side : {Side::left, Side::right}) {
    for (const int rows : {0, 7, 8, 22}) {
      Bench bench;
      const Outcome outcome = bench(
          CastOn{CastOnMethod::open_on_waste, Bed::main, bench.centred(9), {}, side, bench.waste, bench.cord, rows});
      CHECK(outcome.faults.empty());
      CHECK(bench.machine.carriage() == side);
      CHECK(outcome.waste_rows_before_comb == 3);
      CHECK(outcome.waste_rows_before_comb + outcome.waste_rows_after_comb == (rows == 0 ? 7 : rows));
      // even together, and it starts beside the side it ends on; odd, and it starts on the other
      const bool even = (outcome.waste_rows_before_comb + outcome.waste_rows_after_comb + outcome.cord_rows) % 2 == 0;
      CHECK(outcome.wrapped_from == (even ? opposite(side) : side));
    }
  }
  Bench busy;   // on a bed in use only the number of rows can do it
  busy.cast_on(6);
  busy(RestYarn{busy.main});
  const CastOn more{
      CastOnMethod::open_on_waste, Bed::main, busy.from_to("R10", "R14"), {}, Side::left, busy.waste, busy.cord};
  const Outcome outcome = busy(more);
  CHECK(outcome.faults.empty());
  CHECK(outcome.passes == 9);
  CHECK(busy.machine.carriage() == Side::left);
  CHECK(raised(busy, CastOn{CastOnMethod::open_on_waste,
                            Bed::main,
                            busy.from_to("R20", "R24"),
                            {},
                            Side::left,
                            busy.waste,
                            busy.cord,
                            2}) == Kinds{FaultKind::too_little_waste, FaultKind::carriage_elsewhere});
}

TEST_CASE("a second piece is joined to the first while it is knitted") {
  Bench bench;
  const SectionId first = bench(BeginSection{}).section;
  bench.cast_on(20);
  bench(Knit{60});
  bench(CutYarn{bench.main});
  bench(ScrapOff{Bed::main, {bench.centred(20)}, bench.waste});
  const SectionId second = bench(BeginSection{}).section;
  bench.cast_on(20);
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
  const SectionId first = bench(BeginSection{}).section;
  bench.cast_on(20);
  bench(Knit{60});
  bench(CutYarn{bench.main});
  bench(ScrapOff{Bed::main, {bench.centred(20)}, bench.waste});
  const SectionId second = bench(BeginSection{}).section;
  bench.cast_on(20);
  bench(KnitJoined{20, {bench.fabric.section(first).right}});
  bench(Knit{40});
  CHECK(finished(bench, Seam{{bench.fabric.section(second).left}, {bench.fabric.section(first).right}}).empty());
}

TEST_CASE("a selvedge left open beside sewn ones is a note: the two rows of a heel turn") {
  for (const bool all : {true, false}) {
    Bench bench;
    bench.cast_on(12);
    const SectionId leg = bench(BeginSection{}).section;
    bench(Knit{10});
    const SectionId turn = bench(BeginSection{}).section;
    bench(Knit{2});
    Seam seam{{bench.fabric.section(leg).left}, {bench.fabric.section(leg).right}};
    if (all) {
      seam.a.push_back(bench.fabric.section(turn).left);
      seam.b.push_back(bench.fabric.section(turn).right);
    }
    bench(BindOff{Bed::main, bench.centred(12)});
    bench(EndPiece{});
    bench.finish(seam);
    bench.finish(WeaveInEnds{});
    CHECK(finished(bench, Finish{}) == Kinds(all ? 0 : 2, FaultKind::selvedge_left_open));
    if (!all) CHECK(bench.faults[0].a == 2);
  }
  Bench cord;   // a piece of which no selvedge is sewn is meant so
  cord.cast_on(3);
  cord(Knit{100});
  cord(BindOff{Bed::main, cord.centred(3)});
  cord(EndPiece{});
  cord.finish(WeaveInEnds{});
  CHECK(finished(cord, Finish{}).empty());
}

TEST_CASE("a tail draws a tube together over both beds") {
  Bench bench(Bench::two_beds());
  bench(SetPitch{Pitch::half});
  bench.cast_on(12);
  bench(CastOn{CastOnMethod::e_wrap, Bed::second, bench.centred(12)});
  bench(Knit{40, KnitMode::rounds});
  bench(CutYarn{bench.main, 30 * cm});
  const Outcome outcome =
      bench(Gather{Bed::main, bench.centred(12), bench.centred(12), 30 * cm});  // the end hangs at the second bed
  CHECK(outcome.faults.empty());
  CHECK(outcome.edges.size() == 2);
  CHECK(bench.machine.stitches() == 0);
  CHECK(raised(bench, EndPiece{}).empty());
}

TEST_CASE("a seam is compared stretch by stretch") {
  for (const bool by_stretch : {false, true}) {
    Bench bench;
    std::vector<EdgeId> left, right;
    for (const auto& [rows, side] : {std::pair{20, 0}, std::pair{60, 0}, std::pair{60, 1}, std::pair{20, 1}}) {
      const SectionId section = bench(BeginSection{}).section;
      if (left.empty()) bench.cast_on(20);
      bench(Knit{rows});
      (side == 0 ? left : right).push_back(side == 0 ? bench.fabric.section(section).left : bench.fabric.section(section).right);
    }
    Seam seam{left, right};
    if (by_stretch) seam.stretches = {{1, 1}};
    CHECK(finished(bench, seam) == Kinds(by_stretch ? 1 : 0, FaultKind::seam_counts_differ));
    if (by_stretch) CHECK(bench.only().a == 20);
    if (by_stretch) CHECK(bench.only().b == 60);
  }
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

TEST_CASE("a tube is bound off round, a flat fabric on two beds across") {
  for (const bool tube : {true, false}) {
    Bench bench(Bench::two_beds());
    if (tube) {
      bench(SetPitch{Pitch::half});
      bench.cast_on(10, Side::right);
      bench(CastOn{CastOnMethod::e_wrap, Bed::second, bench.centred(10), {}, Side::left});
      bench(Knit{8, KnitMode::rounds});
    } else {
      bench(SetNeedles{Bed::main, bench.from_to("L5", "L1")});
      bench(SetNeedles{Bed::second, bench.from_to("R1", "R5")});
      bench(ThreadYarn{bench.main});
      bench(CastOn{CastOnMethod::zigzag, Bed::main, bench.from_to("L5", "L1"), bench.from_to("R1", "R5")});
      bench(Knit{8});
    }
    const auto before = bench.machine.place(bench.main);
    const Outcome outcome = bench(BindOff{Bed::main, bench.machine.carrying(Bed::main), bench.machine.carrying(Bed::second)});
    CHECK(bench.clean());
    CHECK(outcome.edges.size() == 2);
    CHECK(bench.machine.stitches() == 0);
    REQUIRE(before);
    CHECK((bench.machine.place(bench.main)->bed != before->bed) == tube);
  }
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

TEST_CASE("of two tails where a graft begins the longer is taken") {
  for (const std::int64_t second : {0, 60}) {
    Bench bench;
    std::array<EdgeId, 2> ends;
    for (const int side : {0, 1}) {
      bench.cast_on(10);
      bench(Knit{8});
      bench(CutYarn{bench.main, (side == 0 ? 40 : second) * cm});
      ends[static_cast<std::size_t>(side)] = bench(ScrapOff{Bed::main, {bench.machine.carrying(Bed::main)}, bench.waste, 8}).edges.front();
    }
    Graft graft{ends[0], ends[1]};
    graft.tail_needed_micrometres = (second == 0 ? 40 : 60) * cm;
    CHECK(finished(bench, graft).empty());
    CHECK(bench.fabric.edge(ends[1]).state == EdgeState::used);
  }
}
