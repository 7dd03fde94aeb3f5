#include "compiler/knit/seam_stretches.hpp"

#include <string>

namespace stk::knit {

std::vector<std::array<std::uint32_t, 2>> seam_stretches(const Bench& bench, const std::vector<runtime::EdgeId>& a,
                                                         const std::vector<runtime::EdgeId>& b, bool one_to_one) {
  std::vector<std::array<std::uint32_t, 2>> stretches;
  const auto name = [&](runtime::EdgeId id) { return bench.section_name(bench.fabric().edge(id).section); };
  std::uint32_t from_a = 0, from_b = 0;   // where what lies between two pairs begins
  // Short rows leave a few rows at an edge, to be eased in: they need no section to face them.
  const auto empty = [&](const std::vector<runtime::EdgeId>& side, std::size_t from, std::size_t to) {
    for (; from < to; ++from) {
      const runtime::Edge& edge = bench.fabric().edge(side[from]);
      if (edge.rows - edge.joined > 3 * bench.fabric().section(edge.section).short_row_series) return false;
    }
    return true;
  };
  const auto nothing_faces = [&](std::size_t to_a, std::size_t to_b) { return empty(a, from_a, to_a) != empty(b, from_b, to_b); };
  for (std::uint32_t i = 0; i < a.size(); ++i) {
    const std::string here = name(a[i]);
    for (std::uint32_t j = from_b; j < b.size() && !here.empty(); ++j) {
      if (name(b[j]) != here) continue;
      if (nothing_faces(i, j)) return {};
      stretches.push_back({i, j});
      stretches.push_back({i + 1, j + 1});
      from_a = i + 1;
      from_b = j + 1;
      break;
    }
  }
  if (nothing_faces(a.size(), b.size())) return {};
  if (stretches.empty() && one_to_one && a.size() == b.size())
    for (std::uint32_t i = 1; i < a.size(); ++i) stretches.push_back({i, i});
  return stretches;
}

}  // namespace stk::knit
