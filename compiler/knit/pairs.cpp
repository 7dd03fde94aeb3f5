#include "compiler/knit/pairs.hpp"

#include <algorithm>
#include <array>
#include <cstddef>
#include <cstdint>
#include <vector>

namespace stk::knit {

namespace {

// Which half of the needles this edge was taken off, from the middle to the end: -1 left, 1 right, 0 neither.
int half_taken_off(const runtime::Edge& edge, int twice_middle, const runtime::NeedleSet& whole) {
  const int first = edge.needles.first(), last = edge.needles.last();
  if (first == whole.first() && 2 * last < twice_middle && 2 * (last + 1) > twice_middle) return -1;
  if (last == whole.last() && 2 * first > twice_middle && 2 * (first - 1) < twice_middle) return 1;
  return 0;
}

// Stitches of one half that were taken off and hung again for a heel flap; what was sewn or grafted was only finished. Both
// halves hung again are an opening, not a heel.
bool flap_on_one_half(const Bench& bench, runtime::PieceId piece, int twice_middle, const runtime::NeedleSet& whole) {
  const runtime::Fabric& fabric = bench.fabric();
  std::array<bool, 3> hung{};
  for (std::uint32_t i = 0; i < fabric.edges().size(); ++i) {
    const runtime::Edge& edge = fabric.edges()[i];
    if (!(edge.piece == piece) || edge.kind != runtime::EdgeKind::live || edge.state != runtime::EdgeState::used || edge.needles.empty()) continue;
    const auto among = [&](const std::vector<runtime::EdgeId>& edges) { return std::find(edges.begin(), edges.end(), runtime::EdgeId{i}) != edges.end(); };
    if (std::any_of(bench.met.begin(), bench.met.end(), [&](const Met& met) { return among(met.edges) || among(met.edges_to); })) continue;
    hung[static_cast<std::size_t>(1 + half_taken_off(edge, twice_middle, whole))] = true;
  }
  return hung[0] != hung[2];
}

// Of the piece: all its edges say where the middle is, short rows and lines of waste for a later heel where heels lie.
bool lies_on_one_half(const Bench& bench, runtime::PieceId piece) {
  const runtime::Fabric& fabric = bench.fabric();
  runtime::NeedleSet heel, whole;
  for (const runtime::Section& section : fabric.sections())
    if (section.piece == piece) heel |= section.short_row_needles;
  for (const runtime::Slot& slot : fabric.slots())
    if (fabric.edge(slot.lower).piece == piece) heel |= fabric.edge(slot.lower).needles;
  for (const runtime::Edge& edge : fabric.edges())
    if (edge.piece == piece && edge.kind != runtime::EdgeKind::selvedge) whole |= edge.needles;
  if (whole.empty()) return false;
  const int twice_middle = whole.first() + whole.last();
  if (flap_on_one_half(bench, piece, twice_middle, whole)) return true;
  return !heel.empty() && (2 * heel.first() > twice_middle || 2 * heel.last() < twice_middle);
}

}  // namespace

void check_pairs(const names::Program& program, const Knitter& knitter, const std::vector<PieceFacts>& pieces,
                 findings::Findings& findings, std::uint16_t edition) {
  if (findings.has_errors()) return;
  for (std::size_t p = 0; p < pieces.size() && p < program.pieces.size(); ++p) {
    if (pieces[p].make < 2 || pieces[p].second_mirrored) continue;
    grade::SizeSet alike = 0;
    for (std::size_t i = 0; i < knitter.benches().size(); ++i) {
      const Bench& bench = *knitter.benches()[i];
      const std::optional<runtime::PieceId> piece = bench.piece_called(pieces[p].name);
      if (!bench.lost && piece && lies_on_one_half(bench, *piece)) alike |= grade::size_bit(i);
    }
    if (!alike) continue;
    findings.report<findings::Code::E35>(program.pieces[p].node->name.span)
        .label("its heel lies on one half")
        .help("`make 2, second mirrored` puts the seam of one sock on its left and that of the other on its right").at(edition, alike);
  }
}

}  // namespace stk::knit
