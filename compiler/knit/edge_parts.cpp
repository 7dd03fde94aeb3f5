// A part of an edge: `seam left half of sole.cast_on to right half of sole.cast_on`. The stitches asked for become an edge
// of their own, so that what is left of it goes by the plain name, and is found where nothing secures it.
#include <algorithm>
#include <set>
#include <string>

#include "compiler/knit/knitter.hpp"

namespace stk::knit {

using findings::Code;
using grade::has_size;
using grade::size_bit;

// What a plain name means after a part was taken, here or before, is what is left.
void Knitter::told_edges(const syntax::Step& step, SizeSet active, Operation& operation) const {
  std::set<std::string> divided_here;
  const auto divided_before = [&](const syntax::EdgeRef& ref) {
    for (std::size_t i = 0; i < sizes_; ++i) {
      SizeSet missing = 0;
      if (!has_size(active, i)) continue;
      const auto part = edge(ref, i, missing);
      if (part && part->edges.size() == 1 && benches_[i].divided.count(part->edges.front()) > 0) return true;
    }
    return false;
  };
  const auto told = [&](const syntax::EdgeRef& ref) {
    const std::string name = edge_name(ref), rest = (divided_before(ref) ? "rest of " : "") + name;
    if (!ref.part) return divided_here.count(name) > 0 ? "rest of " + name : rest;
    divided_here.insert(name);
    if (const auto* half = std::get_if<syntax::HalfSelector>(&ref.part->node))
      return (half->side == syntax::Side::left ? "left half of " : "right half of ") + rest;
    const auto* some = std::get_if<syntax::OnSideSelector>(&ref.part->node);
    return (some && some->side == syntax::Side::left ? "left sts of " : "right sts of ") + rest;
  };
  for (const syntax::EdgeRef& ref : step.edges) operation.edges.push_back(told(ref));
  for (const syntax::EdgeRef& ref : step.edges_to) operation.edges_to.push_back(told(ref));
}

std::vector<Knitter::AskedPart> Knitter::asked_parts(const syntax::Step& step, Place& place) {
  std::vector<AskedPart> asked;
  for (const auto* refs : {&step.edges, &step.edges_to})
    for (const syntax::EdgeRef& ref : *refs) {
      AskedPart& part = asked.emplace_back();
      part.span = ref.span;
      if (!ref.part) continue;
      const auto side = [](syntax::Side said) { return said == syntax::Side::left ? runtime::Side::left : runtime::Side::right; };
      part.span = ref.part->span;
      if (const auto* half = std::get_if<syntax::HalfSelector>(&ref.part->node)) {
        part.side = side(half->side);
        part.half = true;
      } else if (const auto* some = std::get_if<syntax::OnSideSelector>(&ref.part->node)) {
        part.side = side(some->side);
        part.counts = evaluator_.whole(*some->count, values::dimensions::sts, *place.frame, place.active);
      }
    }
  return asked;
}

// All parts of one step are measured before the first is taken: both halves in one seam are halves of the same edge.
bool Knitter::take_parts(const syntax::Step& step, std::size_t size, const std::vector<AskedPart>& asked,
                         std::vector<runtime::EdgeId>& edges, SizeRecord& record) {
  Bench& bench = benches_[size];
  const auto first = std::find_if(asked.begin(), asked.end(), [](const AskedPart& part) { return part.side.has_value(); });
  if (first == asked.end()) return true;
  const auto refuse = [&](const AskedPart& part, const char* label) {
    findings_.report<Code::E27>(part.span).label("{}", label)
        .help("a part is taken of stitches: of what was cast on, taken off or bound off on one bed").at(edition_, size_bit(size));
    bench.lost = true;
    return false;
  };
  if (edges.size() != asked.size()) return refuse(*first, "beside a part stand edges of one section each");
  std::vector<std::int64_t> wanted(asked.size(), 0);
  for (std::size_t k = 0; k < asked.size(); ++k) {
    if (!asked[k].side) continue;
    const runtime::Edge& edge = bench.fabric().edge(edges[k]);
    if (edge.kind == runtime::EdgeKind::selvedge) return refuse(asked[k], "this edge has rows");
    if (edge.kind == runtime::EdgeKind::gathered) return refuse(asked[k], "these stitches are drawn together");
    if (edge.needles.count() != edge.whole) return refuse(asked[k], "this edge is taken whole or not at all");
    if (asked[k].half && edge.whole % 2 != 0) {
      findings_.report<Code::C01>(asked[k].span).label("{} sts are left of this edge", edge.whole).at(edition_, size_bit(size));
      bench.lost = true;
      return false;
    }
    if (!asked[k].half && !asked[k].counts[size]) {
      bench.lost = true;
      return false;
    }
    for (std::size_t m = 0; m < k; ++m) {
      if (!(edges[m] == edges[k]) || asked[m].side != asked[k].side) continue;
      findings_.report<Code::E06>(asked[k].span).label("these are the stitches that were named before")
          .help("the same edge has another end: `left half` and `right half`, `… on left` and `… on right`").at(edition_, size_bit(size));
      bench.lost = true;
      return false;
    }
    wanted[k] = asked[k].half ? edge.whole / 2 : std::clamp<std::int64_t>(*asked[k].counts[size], 0, runtime::needle_limit);
  }
  record.part_counts.assign(asked.size(), 0);
  for (std::size_t k = 0; k < asked.size(); ++k) {
    if (!asked[k].side) continue;
    record.part_counts[k] = static_cast<std::int32_t>(wanted[k]);
    runtime::DivideEdge divide{edges[k], *asked[k].side, static_cast<int>(wanted[k])};
    runtime::Outcome outcome;
    if (bench.knitting()) {
      outcome = apply(step, size, divide);
    } else {   // off the machine nothing turns the sides of a mirrored piece about but we
      if (mirrored_edge_piece(size, edges[k])) divide.side = runtime::opposite(divide.side);
      outcome = bench.finish({tag(step.verb), divide});
      report_faults(outcome, size);
    }
    if (outcome.edges.empty()) {
      bench.lost = true;
      return false;
    }
    bench.divided.insert(edges[k]);
    edges[k] = outcome.edges.front();
  }
  return true;
}

}  // namespace stk::knit
