// A table for a terminal, sizes as columns. What is wider than the page goes on below, with its first column again.
#pragma once

#include <string>
#include <vector>

namespace stk::fit {

struct GridRow {
  std::string label;
  std::vector<std::string> cells;  // none: the label is a heading
};
struct Grid {
  std::vector<std::string> columns;
  std::vector<GridRow> rows;
};

inline constexpr std::size_t page_width = 80;
std::string grid_text(const Grid& grid);

}  // namespace stk::fit
