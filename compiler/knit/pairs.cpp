#include "compiler/knit/pairs.hpp"

#include <cstddef>

namespace stk::knit {

namespace {

// Of the piece: its first cast-on says where the middle is.
bool lies_on_one_half(const runtime::Fabric& fabric, runtime::PieceId piece) {
  runtime::NeedleSet short_rows, cast_on;
  for (const runtime::Section& section : fabric.sections()) {
    if (section.piece != piece) continue;
    short_rows |= section.short_row_needles;
    if (cast_on.empty() && section.cast_on.given()) cast_on = fabric.edge(section.cast_on).needles;
  }
  if (short_rows.empty() || cast_on.empty()) return false;
  const int twice_middle = cast_on.first() + cast_on.last();
  return 2 * short_rows.first() > twice_middle || 2 * short_rows.last() < twice_middle;
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
        .label("its short rows lie on one half")
        .help("`make 2, second mirrored` puts the seam of one sock on its left and that of the other on its right").at(edition, alike);
  }
}

}  // namespace stk::knit
