#include "compiler/knit/one_sock.hpp"

#include <algorithm>
#include <string>

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

void check_partners(const names::Program& program, const Knitter& knitter, const std::vector<PieceFacts>& pieces,
                    findings::Findings& findings, std::uint16_t edition) {
  if (findings.has_errors()) return;
  const std::size_t count = std::min(pieces.size(), program.pieces.size());
  for (std::size_t once = 0; once < count; ++once) {
    if (program.pieces[once].node->make) continue;
    for (std::size_t more = 0; more < count; ++more) {
      if (pieces[more].make < 2) continue;
      grade::SizeSet alone = 0;
      for (std::size_t i = 0; i < knitter.benches().size(); ++i) {
        const Bench& bench = *knitter.benches()[i];
        const auto one = bench.piece_called(pieces[once].name), other = bench.piece_called(pieces[more].name);
        if (bench.lost || !one || !other) continue;
        const auto of = [&](const std::vector<runtime::EdgeId>& edges, runtime::PieceId piece) {
          return std::any_of(edges.begin(), edges.end(), [&](runtime::EdgeId id) { return bench.fabric().edge(id).piece == piece; });
        };
        if (std::any_of(bench.met.begin(), bench.met.end(), [&](const Met& met) {
              return (of(met.edges, *one) && of(met.edges_to, *other)) || (of(met.edges, *other) && of(met.edges_to, *one));
            }))
          alone |= grade::size_bit(i);
      }
      if (!alone) continue;
      const names::Placed<syntax::Piece>& piece = program.pieces[once];
      findings.report<findings::Code::F23>(piece.node->name.span)
          .label("it is knitted once, and `{}`, which is joined to it, {}", pieces[more].name, pieces[more].make == 2 ? std::string("twice") : std::to_string(pieces[more].make) + " times")
          .help("`piece {}, make {}`; `make 1` where one is meant", pieces[once].name, pieces[more].make).at(edition, alone);
      break;
    }
  }
}

}  // namespace stk::knit
