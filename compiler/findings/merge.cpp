// One mistake, one finding: every size is knitted for itself and reports for itself, and here the reports of one place
// come together again.
#include <algorithm>
#include <map>
#include <tuple>

#include "compiler/findings/findings.hpp"

namespace stk::findings {
namespace {

using Key = std::tuple<Code, std::uint16_t, std::uint32_t, std::uint32_t>;

Key key_of(const Finding& finding) {
  return {finding.code, finding.primary.file.value, finding.primary.begin, finding.primary.end};
}

void unite(std::vector<Lanes>& into, const std::vector<Lanes>& from) {
  for (const Lanes& lanes : from) {
    const auto same =
        std::find_if(into.begin(), into.end(), [&](const Lanes& l) { return l.edition == lanes.edition; });
    if (same == into.end()) {
      into.push_back(lanes);
    } else {
      same->sizes |= lanes.sizes;
    }
  }
}

}  // namespace

std::vector<Finding> merged(const std::vector<Finding>& all) {
  std::vector<Finding> result;
  std::map<Key, std::size_t> place;
  for (const Finding& finding : all) {
    const auto [found, is_new] = place.try_emplace(key_of(finding), result.size());
    if (is_new) {
      result.push_back(finding);
      continue;
    }
    Finding& first = result[found->second];
    // The text, the row and the needle stay those of the first size; what the others add is that they are concerned
    // too. No lanes means "not a matter of sizes", which is more than any set of them.
    if (first.lanes.empty() || finding.lanes.empty()) {
      first.lanes.clear();
    } else {
      unite(first.lanes, finding.lanes);
    }
    first.mirrored = first.mirrored && finding.mirrored;
  }
  for (Finding& finding : result) {
    std::sort(finding.lanes.begin(), finding.lanes.end(),
              [](const Lanes& a, const Lanes& b) { return a.edition < b.edition; });
  }
  // Stable: at one place the order of reporting stays, which is that of the phases.
  std::stable_sort(result.begin(), result.end(), [](const Finding& a, const Finding& b) {
    return std::tie(a.primary.file.value, a.primary.begin) < std::tie(b.primary.file.value, b.primary.begin);
  });
  return result;
}

}  // namespace stk::findings
