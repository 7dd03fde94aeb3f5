#include "compiler/knit/unsewn.hpp"

#include <algorithm>

namespace stk::knit {

namespace {

bool knits_rounds(const std::vector<Step>& steps) {
  return std::any_of(steps.begin(), steps.end(), [](const Step& step) {
    const bool rounds = step.kind == Step::Kind::operation && step.operation.act == Act::knit && step.operation.method == Method::full;
    return rounds || knits_rounds(step.steps) || std::any_of(step.turns.begin(), step.turns.end(), knits_rounds);
  });
}

constexpr std::int64_t a_length_of_fabric = 30;   // rows: less is an edge that nobody would sew

}  // namespace

void check_sewn(const names::Program& program, const Knitter& knitter, const std::vector<PieceFacts>& pieces,
                findings::Findings& findings, std::uint16_t edition) {
  const bool around = std::any_of(program.finished.begin(), program.finished.end(),
                                  [](const auto& placed) { return placed.node->measure.text == "around"; });
  if (!around || pieces.empty() || program.finishes.empty() || findings.has_errors()) return;
  if (std::any_of(pieces.begin(), pieces.end(), [](const auto& piece) { return knits_rounds(piece.first); })) return;
  grade::SizeSet open = 0;
  std::int64_t rows = 0;
  for (std::size_t i = 0; i < knitter.benches().size(); ++i) {
    const Bench& bench = *knitter.benches()[i];
    if (bench.lost) continue;
    std::int64_t longest = 0;
    bool sewn = false;
    for (const runtime::Edge& edge : bench.fabric().edges()) {
      if (edge.kind != runtime::EdgeKind::selvedge) continue;
      longest = std::max(longest, edge.rows);
      sewn = sewn || edge.state == runtime::EdgeState::used || edge.joined > 0;
    }
    if (sewn || longest < a_length_of_fabric) continue;
    if (!open) rows = longest;
    open |= grade::size_bit(i);
  }
  if (!open) return;
  findings.report<findings::Code::E32>(program.finishes.back().span)
      .label("the longest has {} rows, and nothing here takes one", rows)
      .help("`seam {0}.left to {0}.right, mattress, with main`", pieces.front().name).at(edition, open);
}

}  // namespace stk::knit
