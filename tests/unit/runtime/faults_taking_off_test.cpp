// Stitches leave the needles: waste, slots, binding off, gathering. Each fault raised, and quiet.
#include <catch2/catch.hpp>

#include "tests/unit/runtime/support.hpp"

using namespace stk::runtime;

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
