// Each fault of finishing, raised and quiet: grafts, seams, and what is left open in the end.
#include <catch2/catch.hpp>

#include "tests/unit/runtime/support.hpp"

using namespace stk::runtime;

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

TEST_CASE("a part of an edge is an edge of its own, and the edge is what is left") {
  Bench bench;
  bench.cast_on(20);
  bench(Knit{10});
  bench(CutYarn{bench.main, 60 * cm});
  const EdgeId edge = bench(ScrapOff{Bed::main, {bench.centred(20)}, bench.waste}).edges[0];
  CHECK(finished(bench, DivideEdge{edge, Side::left, 21}) == Kinds{FaultKind::edge_runs_out});
  CHECK(bench.only().a == 21);
  CHECK(bench.only().b == 20);
  CHECK(finished(bench, DivideEdge{edge, Side::left, 0}) == Kinds{FaultKind::edge_runs_out});
  const Outcome divided = bench.fabric.apply(FinishingOperation{no_tag, DivideEdge{edge, Side::right, 8}});
  REQUIRE(divided.clean());
  const EdgeId part = divided.edges.at(0);
  CHECK(bench.fabric.edge(part).whole == 8);
  CHECK(bench.fabric.edge(part).needles == NeedleSet::range(bench.at("R3"), bench.at("R10")));
  CHECK(bench.fabric.edge(edge).whole == 12);
  CHECK(bench.fabric.edge(edge).needles == NeedleSet::range(bench.at("L10"), bench.at("R2")));
  CHECK(bench.fabric.edge(edge).live);
  // All that is left is the edge itself.
  CHECK(bench.fabric.apply(FinishingOperation{no_tag, DivideEdge{edge, Side::left, 12}}).edges == std::vector<EdgeId>{edge});
  // The tail hangs at the right end: at the part, and no longer at the rest.
  const EdgeId middle = bench.fabric.apply(FinishingOperation{no_tag, DivideEdge{edge, Side::left, 4}}).edges.at(0);
  const EdgeId other = bench.fabric.apply(FinishingOperation{no_tag, DivideEdge{part, Side::left, 4}}).edges.at(0);
  CHECK(finished(bench, Graft{middle, part, GraftFrom::open_side, true, 60 * cm}).empty());
  CHECK(finished(bench, DivideEdge{part, Side::left, 1}) == Kinds{FaultKind::edge_already_used});
  CHECK(finished(bench, Finish{}) ==
        Kinds{FaultKind::edge_never_secured, FaultKind::edge_never_secured, FaultKind::ends_not_woven});
  (void)other;
}

TEST_CASE("rows and an unknown edge are not divided by stitches") {
  Bench bench;
  bench.cast_on(10);
  bench(Knit{10});
  const Section& section = bench.fabric.section(bench.machine.section());
  CHECK(finished(bench, DivideEdge{section.left, Side::left, 4}) == Kinds{FaultKind::edge_not_open});
  CHECK(finished(bench, DivideEdge{EdgeId{77}, Side::left, 4}) == Kinds{FaultKind::edge_not_open});
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
  // A ring of a first and a last row, one side shut: the other side is the top. Without the ring it is forgotten.
  for (const bool ring : {true, false}) {
    Bench bench;
    bench.cast_on(12);
    const SectionId instep = bench(BeginSection{}).section;
    bench(Knit{10});
    const SectionId sole = bench(BeginSection{}).section;
    bench(Knit{10});
    const EdgeId last = bench(BindOff{Bed::main, bench.centred(12)}).edges.at(0);
    bench(EndPiece{});
    bench.finish(Seam{{bench.fabric.section(instep).left}, {bench.fabric.section(sole).left}});
    if (ring) bench.finish(Seam{{bench.fabric.section(SectionId{0}).cast_on}, {last}});
    bench.finish(WeaveInEnds{});
    CHECK(finished(bench, Finish{}) == Kinds(ring ? 0 : 2, FaultKind::selvedge_left_open));
  }
  Bench cord;   // a piece of which no selvedge is sewn is meant so
  cord.cast_on(3);
  cord(Knit{100});
  cord(BindOff{Bed::main, cord.centred(3)});
  cord(EndPiece{});
  cord.finish(WeaveInEnds{});
  CHECK(finished(cord, Finish{}).empty());
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
