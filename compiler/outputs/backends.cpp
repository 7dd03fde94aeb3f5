#include <algorithm>
#include <array>

#include "compiler/outputs/formats.hpp"

namespace stk::outputs {

std::span<const Backend* const> backends() {
  static const std::array<const Backend*, 3> list{&text_backend(), &markdown_backend(), &charts_backend()};
  return list;
}

const Backend* find_backend(std::string_view name) {
  const auto all = backends();
  const auto found = std::find_if(all.begin(), all.end(), [&](const Backend* b) { return b->name() == name; });
  return found == all.end() ? nullptr : *found;
}

}  // namespace stk::outputs
