#include "compiler/fit/grid.hpp"

#include <algorithm>

#include "compiler/text/columns.hpp"

namespace stk::fit {
namespace {

std::string padded(const std::string& text, std::size_t width, bool right) {
  const std::size_t used = text::display_width(text);
  const std::string blanks(width > used ? width - used : 0, ' ');
  return right ? blanks + text : text + blanks;
}

void line(std::string& page, std::string text) {
  const std::size_t end = text.find_last_not_of(' ');
  text.resize(end == std::string::npos ? 0 : end + 1);
  page += text + "\n";
}

bool anything(const GridRow& row, std::size_t from, std::size_t to) {
  if (row.cells.empty()) return true;
  for (std::size_t i = from; i < to; ++i) {
    if (!row.cells[i].empty() && row.cells[i] != "-") return true;
  }
  return false;
}

}  // namespace

std::string grid_text(const Grid& grid) {
  std::size_t label = 0;
  for (const GridRow& row : grid.rows) {
    if (!row.cells.empty()) label = std::max(label, text::display_width(row.label) + 2);
  }
  std::vector<std::size_t> widths;
  for (std::size_t i = 0; i < grid.columns.size(); ++i) {
    std::size_t width = text::display_width(grid.columns[i]);
    for (const GridRow& row : grid.rows) {
      if (i < row.cells.size()) width = std::max(width, text::display_width(row.cells[i]));
    }
    widths.push_back(width);
  }
  std::string page;
  for (std::size_t from = 0; from < widths.size();) {
    std::size_t to = from, used = label;
    while (to < widths.size() && (to == from || used + 2 + widths[to] <= page_width)) used += 2 + widths[to++];
    if (from > 0) page += "\n";
    std::string head = padded("", label, false);
    for (std::size_t i = from; i < to; ++i) head += "  " + padded(grid.columns[i], widths[i], true);
    line(page, head);
    page += std::string(std::min(used, page_width), '-') + "\n";
    for (const GridRow& row : grid.rows) {
      if (!anything(row, from, to)) continue;
      std::string text = row.cells.empty() ? row.label : padded("  " + row.label, label, false);
      for (std::size_t i = from; i < to && i < row.cells.size(); ++i)
        text += "  " + padded(row.cells[i], widths[i], true);
      line(page, text);
    }
    from = to;
  }
  return page;
}

}  // namespace stk::fit
