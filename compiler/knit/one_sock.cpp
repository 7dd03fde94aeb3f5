#include "compiler/knit/one_sock.hpp"

#include <algorithm>

#include "compiler/grade/value.hpp"

namespace stk::knit {

void check_one_sock(const names::Program& program, findings::Findings& findings, std::uint16_t edition) {
  const auto finished = [&](const char* measure) {
    return std::any_of(program.finished.begin(), program.finished.end(),
                       [&](const auto& placed) { return placed.node->measure.text == measure; });
  };
  const bool for_feet = std::any_of(program.sizes.measures.begin(), program.sizes.measures.end(),
                                    [](const names::Measure& measure) { return measure.name == "foot_length"; });
  if (!for_feet || !finished("around") || !finished("length") || program.pieces.size() != 1) return;
  const syntax::Piece& piece = *program.pieces.front().node;
  if (piece.make || program.finishes.empty() || findings.has_errors()) return;
  findings.report<findings::Code::F23>(piece.name.span)
      .label("nothing says how many are knitted")
      .help("`piece {}, make 2`; `make 1` where one is meant", piece.name.text)
      .at(edition, grade::all_sizes(program.sizes.size()));
}

}  // namespace stk::knit
