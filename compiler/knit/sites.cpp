#include "compiler/knit/sites.hpp"

#include <algorithm>
#include <tuple>

namespace stk::knit {
namespace {

auto key(const text::Span& s) { return std::make_tuple(s.file.value, s.begin, s.end); }

}  // namespace

bool Sites::Less::operator()(const Site& a, const Site& b) const {
  if (key(a.step) != key(b.step)) return key(a.step) < key(b.step);
  return std::lexicographical_compare(a.calls.begin(), a.calls.end(), b.calls.begin(), b.calls.end(),
                                      [](const text::Span& x, const text::Span& y) { return key(x) < key(y); });
}

runtime::Tag Sites::tag(text::Span step, const std::vector<text::Span>& calls) {
  Site site{step, calls, step};
  if (const auto known_site = tags_.find(site); known_site != tags_.end()) return known_site->second;
  if (in_library(step.file))
    for (auto call = calls.rbegin(); call != calls.rend(); ++call)
      if (!in_library(call->file)) {
        site.mend = *call;
        break;
      }
  const auto tag = static_cast<runtime::Tag>(sites_.size());
  sites_.push_back(site);
  tags_.emplace(std::move(site), tag);
  return tag;
}

}  // namespace stk::knit
