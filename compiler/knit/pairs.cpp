#include "compiler/knit/pairs.hpp"

#include <cstddef>

namespace stk::knit {

namespace {

// Of the piece: all its edges say where the middle is, short rows and lines of waste for a later heel where heels lie.
bool lies_on_one_half(const runtime::Fabric& fabric, runtime::PieceId piece) {
  runtime::NeedleSet heel, whole;
  for (const runtime::Section& section : fabric.sections())
    if (section.piece == piece) heel |= section.short_row_needles;
  for (const runtime::Slot& slot : fabric.slots())
    if (fabric.edge(slot.lower).piece == piece) heel |= fabric.edge(slot.lower).needles;
  for (const runtime::Edge& edge : fabric.edges())
    if (edge.piece == piece && edge.kind != runtime::EdgeKind::selvedge) whole |= edge.needles;
  if (heel.empty() || whole.empty()) return false;
  const int twice_middle = whole.first() + whole.last();
  return 2 * heel.first() > twice_middle || 2 * heel.last() < twice_middle;
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
      if (!bench.lost && piece && lies_on_one_half(bench.fabric(), *piece)) alike |= grade::size_bit(i);
    }
    if (!alike) continue;
    findings.report<findings::Code::E35>(program.pieces[p].node->name.span)
        .label("its heel lies on one half")
        .help("`make 2, second mirrored` puts the seam of one sock on its left and that of the other on its right").at(edition, alike);
  }
}

}  // namespace stk::knit
