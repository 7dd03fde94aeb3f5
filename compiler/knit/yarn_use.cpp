#include "compiler/knit/yarn_use.hpp"

#include <algorithm>

namespace stk::knit {

std::vector<std::int64_t> YarnUse::look(const runtime::Fabric& fabric, const std::vector<runtime::YarnId>& yarns) {
  std::vector<std::int64_t> loops;
  loops.reserve(yarns.size());
  for (const runtime::YarnId yarn : yarns) loops.push_back(fabric.yarn(yarn).loops);
  return loops;
}

void YarnUse::knitted(std::uint32_t piece, std::int32_t tension, Act act, const std::vector<std::int64_t>& before,
                      const std::vector<std::int64_t>& after) {
  if (before == after) return;
  auto entry = std::find_if(loops_.begin(), loops_.end(),
                            [&](const Loops& l) { return l.piece == piece && l.tension_hundredths == tension; });
  if (entry == loops_.end()) {
    loops_.push_back({piece, tension, std::vector<std::int64_t>(after.size(), 0)});
    entry = loops_.end() - 1;
  }
  std::int64_t all = 0;
  for (std::size_t y = 0; y < after.size(); ++y) {
    const std::int64_t formed = after[y] - before[y];
    entry->of_yarn[y] += formed;
    all += formed;
  }
  if (act != Act::knit_chart) return;
  // Of two colours each lies behind the stitches that the other one takes.
  for (std::size_t y = 0; y < after.size(); ++y)
    if (const std::int64_t formed = after[y] - before[y]; formed > 0 && formed < all)
      passed_.push_back({piece, y, all - formed});
}

}  // namespace stk::knit
