// A row is marked and hung from later: a hem at the end, a ridge. What it does, and each way it does not fit.
#include <catch2/catch.hpp>

#include "tests/unit/runtime/support.hpp"

using namespace stk::runtime;

namespace {

const Kinds unfit{FaultKind::marked_row_unfit};

EdgeId marked(Bench& bench, const NeedleSet& needles) { return bench(MarkRow{Bed::main, needles}).edges.at(0); }

}  // namespace

TEST_CASE("a marked row is hung straight above itself: two loops on each needle, knitted together") {
  Bench bench;
  bench.cast_on(20);
  bench(Knit{10});
  const NeedleSet all = bench.centred(20);
  const EdgeId row = marked(bench, all);
  CHECK(bench.fabric.edge(row).whole == 20);
  CHECK(bench.fabric.edge(row).counter == 10);
  CHECK(bench.fabric.edge(row).state == EdgeState::secure);
  bench(Knit{6});
  CHECK(raised(bench, Hang{row, Bed::main, all}).empty());
  CHECK(bench.machine.loops_on(Bed::main, all.first()) == 2);
  CHECK(raised(bench, Knit{1}).empty());
  CHECK(bench.machine.loops_on(Bed::main, all.first()) == 1);
  CHECK(bench.machine.ledger().hung == 20);
  CHECK(bench.machine.ledger().merged == 20);
  CHECK(raised(bench, Hang{row, Bed::main, all}) == Kinds{FaultKind::edge_already_used});
}

TEST_CASE("a row is knitted on every needle before the mark is hung on it") {
  Bench bench;
  bench.cast_on(20);
  bench(Knit{10});
  const NeedleSet all = bench.centred(20), four = bench.from_to("L10", "L7");
  const EdgeId row = marked(bench, all);
  CHECK(raised(bench, Hang{row, Bed::main, all}) == unfit);
  CHECK(bench.only().a == 0);
  CHECK(bench.only().needles == all);
  bench(Hold{Bed::main, four});
  bench(Knit{2});
  bench(Release{Bed::main, four});
  CHECK(raised(bench, Hang{row, Bed::main, all}) == unfit);
  CHECK(bench.only().needles == four);
  bench(Knit{1});
  CHECK(raised(bench, Hang{row, Bed::main, all}).empty());
}

TEST_CASE("a marked row goes into no other fabric, across to no other bed, folded to no ring") {
  Bench bench(Bench::two_beds());
  bench.cast_on(8);
  bench(Knit{10});
  const NeedleSet all = bench.centred(8);
  const EdgeId row = marked(bench, all);
  bench(Knit{4});
  CHECK(raised(bench, Hang{row, Bed::second, all}) == unfit);
  CHECK(bench.only().a == 2);
  CHECK(raised(bench, Hang{row, Bed::main, bench.from_to("R10", "R17")}) == unfit);
  CHECK(bench.only().a == 2);
  Hang folded{row, Bed::main, bench.from_to("R1", "R4"), bench.from_to("R1", "R4")};
  folded.order = HangOrder::folded;
  CHECK(raised(bench, folded) == unfit);
  CHECK(bench.only().a == 3);
  CHECK(raised(bench, Hang{row, Bed::main, all, {}, Loops::between}) == unfit);
  CHECK(bench.only().a == 3);
  CHECK(raised(bench, Hang{row, Bed::main, bench.from_to("L4", "R3")}) == Kinds{FaultKind::hang_counts_differ});
}

TEST_CASE("when its fabric is off the needles a marked row is out of reach") {
  Bench bench;
  bench.cast_on(8);
  bench(Knit{10});
  const NeedleSet all = bench.centred(8);
  const EdgeId row = marked(bench, all);
  bench(Knit{4});
  bench(BindOff{Bed::main, all});
  bench.cast_on(8);
  bench(Knit{4});
  CHECK(raised(bench, Hang{row, Bed::main, all}) == unfit);
  CHECK(bench.only().a == 1);
}

TEST_CASE("marking wants loops, and an unused mark leaves nothing open") {
  Bench bench;
  CHECK(raised(bench, MarkRow{Bed::main, {}}) == Kinds{FaultKind::nothing_in_work});
  CHECK(raised(bench, MarkRow{Bed::main, bench.centred(4)}) == Kinds{FaultKind::without_loops});
  bench.cast_on(8);
  bench(Knit{10});
  const NeedleSet all = bench.centred(8);
  const EdgeId row = marked(bench, all);
  bench(BindOff{Bed::main, all});
  bench(EndPiece{});
  CHECK(finished(bench, Seam{{row}, {row}}) == Kinds{FaultKind::edge_not_open, FaultKind::edge_already_used});
  bench.finish(WeaveInEnds{});
  CHECK(finished(bench, Finish{}).empty());
}
