#include "compiler/outputs/chart_text.hpp"

#include <fmt/core.h>

#include <algorithm>

#include "compiler/outputs/characters.hpp"
#include "compiler/text/columns.hpp"

namespace stk::outputs {

namespace {

using document::Chart;
using document::Mark;
using document::NeedleChart;
using knit::DrawnMove;
using knit::DrawnNeedle;

std::string character(const DrawnNeedle& needle, bool bare) {
  switch (document::mark_of(needle, bare)) {
    case Mark::in_work:
      return "|";
    case Mark::out_of_work:
      return ".";
    case Mark::several_loops:
      return needle.loops < 10 ? fmt::format("{}", needle.loops) : "+";
    case Mark::empty_in_work:
      return "o";
    case Mark::upper:
      return "^";
    case Mark::held:
      return "T";
    case Mark::tuck:
      return "u";
    case Mark::slip:
      return "-";
    case Mark::move:
      break;
  }
  return " ";
}

std::string in_key(Mark mark) {
  switch (mark) {
    case Mark::in_work:
      return "|";
    case Mark::out_of_work:
      return ".";
    case Mark::several_loops:
      return "2";
    case Mark::empty_in_work:
      return "o";
    case Mark::upper:
      return "^";
    case Mark::held:
      return "T";
    case Mark::tuck:
      return "u";
    case Mark::slip:
      return "-";
    case Mark::move:
      return "<-+";
  }
  return "";
}

// Columns stand two cells apart; arrows may begin or end beside the drawing.
struct Grid {
  std::size_t left = 0;  // cells kept free on the left
  std::size_t width = 0;
};

Grid grid_of(const NeedleChart& chart) {
  std::int32_t first = 0, last = static_cast<std::int32_t>(chart.after.size()) - 1;
  for (const DrawnMove& move : chart.moves) {
    first = std::min(first, std::min(move.from, move.to));
    last = std::max(last, std::max(move.from, move.to));
  }
  Grid grid;
  grid.left = static_cast<std::size_t>(-first) * 2;
  grid.width = static_cast<std::size_t>(last - first) * 2 + 1;
  return grid;
}

std::size_t cell_of(const Grid& grid, std::int32_t column) {
  return static_cast<std::size_t>(static_cast<std::int64_t>(grid.left) + 2 * static_cast<std::int64_t>(column));
}

std::string needle_row(const std::vector<DrawnNeedle>& row, const NeedleChart& chart, const Grid& grid) {
  std::string line(grid.width, ' ');
  for (std::size_t i = 0; i < row.size(); ++i) {
    line[cell_of(grid, static_cast<std::int32_t>(i))] = character(row[i], chart.bare)[0];
  }
  return line;
}

// As many lines as the arrows need so that none runs into another.
std::vector<std::string> arrow_rows(const NeedleChart& chart, const Grid& grid) {
  std::vector<std::string> lines;
  for (const DrawnMove& move : chart.moves) {
    const std::size_t from = cell_of(grid, move.from), to = cell_of(grid, move.to);
    const std::size_t begin = std::min(from, to), end = std::max(from, to) + 1;
    auto line = std::find_if(lines.begin(), lines.end(),
                             [&](const std::string& l) { return l.find_first_not_of(' ', begin) >= end; });
    if (line == lines.end()) line = lines.insert(lines.end(), std::string(grid.width, ' '));
    std::fill(line->begin() + static_cast<std::ptrdiff_t>(begin), line->begin() + static_cast<std::ptrdiff_t>(end),
              '-');
    (*line)[from] = '+';
    (*line)[to] = to < from ? '<' : '>';
  }
  return lines;
}

// "=====" under the columns, and how often they stand; one line each, since the numbers are long.
std::vector<std::string> repeat_rows(const NeedleChart& chart, const Grid& grid) {
  std::vector<std::string> lines;
  for (const document::ChartRepeat& repeat : chart.repeats) {
    const std::size_t begin = cell_of(grid, static_cast<std::int32_t>(repeat.first));
    const std::size_t end = cell_of(grid, static_cast<std::int32_t>(repeat.last)) + 1;
    lines.push_back(std::string(begin, ' ') + std::string(end - begin, '=') + " × " + repeat.times);
  }
  return lines;
}

// "1   5    10": the last digit of each stands under its column. The last column has its number where there is room.
std::string column_numbers(std::size_t columns) {
  std::string line;
  for (std::size_t column = 1; column <= columns; ++column) {
    if (column != 1 && column != columns && column % 5 != 0) continue;
    const std::string number = fmt::format("{}", column);
    if (!line.empty() && line.size() + number.size() >= column) continue;
    line += std::string(column > line.size() + number.size() ? column - line.size() - number.size() : 0, ' ') + number;
  }
  return line;
}

// The last row at the top, as the fabric grows; numbers of the rows at the right.
void colour_lines(const document::ColourChart& chart, std::size_t width, std::vector<std::string>& lines) {
  for (std::size_t row = chart.rows.size(); row-- > 0;) {
    lines.push_back(fmt::format("  {}  {}", chart.rows[row], row + 1));
  }
  const std::size_t columns = chart.rows.empty() ? 0 : chart.rows.front().size();
  lines.push_back("  " + column_numbers(columns));
  lines.push_back(fmt::format("  {}  repeat", std::string(columns, '=')));
  lines.emplace_back();
  for (const std::string& line : colour_words(chart)) {
    for (std::string& part : text::wrapped(line, width, "  ", "    ")) lines.push_back(std::move(part));
  }
  lines.emplace_back();
  lines.push_back(fmt::format("  {:<5}{}", chart.ground, chart.ground_yarn));
  lines.push_back(fmt::format("  {:<5}{}", chart.second, chart.second_yarn));
}

// The last row at the top; beside each the way of the carriage and the counter after it.
void short_row_lines(const document::ShortRowChart& chart, std::vector<std::string>& lines) {
  for (std::size_t i = chart.rows.size(); i-- > 0;) {
    const document::ShortRow& row = chart.rows[i];
    std::string drawn(chart.columns, '.');
    for (std::size_t column = row.first; column <= row.last && column < drawn.size(); ++column) drawn[column] = '|';
    for (const std::size_t column : row.wrapped) drawn[column] = 'w';
    lines.push_back(fmt::format("  {}  {}  RC {:03}", drawn, row.to_right ? "->" : "<-", row.counter));
  }
  lines.emplace_back();
  lines.push_back(fmt::format("  From {} on the left to {} on the right.", chart.first_needle, chart.last_needle));
  lines.push_back("  The row at the bottom is knitted first.");
  lines.emplace_back();
  lines.push_back(fmt::format("  {:<5}{}", "|", "needle that knits"));
  lines.push_back(fmt::format("  {:<5}{}", ".", "needle held"));
  lines.push_back(fmt::format("  {:<5}{}", "w", "needle held, wrapped after the row"));
  lines.push_back(fmt::format("  {:<5}{}", "->", "the carriage goes from left to right"));
}

void add_row(std::vector<std::string>& lines, std::string_view label, std::string row) {
  row.erase(row.find_last_not_of(' ') + 1);
  lines.push_back(fmt::format("  {:<8}{}", label, row));
}

std::vector<std::string> with_plain_blanks(std::vector<std::string> lines) {
  for (std::string& line : lines) line = plain_blanks(line);
  return lines;
}

}  // namespace

std::string mark_words(Mark mark) {
  switch (mark) {
    case Mark::in_work:
      return "needle in work";
    case Mark::out_of_work:
      return "needle out of work";
    case Mark::several_loops:
      return "needle in work with that many loops";
    case Mark::empty_in_work:
      return "needle in work without a loop";
    case Mark::upper:
      return "needle in upper working position";
    case Mark::held:
      return "needle held";
    case Mark::tuck:
      return "needle set to tuck";
    case Mark::slip:
      return "needle set to slip";
    case Mark::move:
      return "where the loops go";
  }
  return "";
}

std::string chart_title(const Chart& chart) {
  return fmt::format("Chart {}. {}{}", chart.number, chart.title, chart.sizes.empty() ? "" : ": " + chart.sizes);
}

std::string last_label(const NeedleChart& chart) {
  if (chart.rows > 0) return "row 1";
  return chart.changes ? "after" : chart.second.empty() ? "set" : "main";
}

std::vector<std::string> needle_lines(const NeedleChart& chart) {
  return {fmt::format("Leftmost needle: {}.", chart.first_needle),
          fmt::format("Rightmost needle: {}.", chart.last_needle)};
}

std::vector<std::string> colour_words(const document::ColourChart& chart) {
  const std::size_t columns = chart.rows.empty() ? 0 : chart.rows.front().size();
  return {fmt::format("Column 1 is on the left; row 1, at the bottom, is knitted first. Columns 1 to {} repeat.", columns),
          fmt::format("Left end needle, {}: column {}.", chart.first_needle, chart.first_column),
          fmt::format("Right end needle, {}: column {}.", chart.last_needle, chart.last_column)};
}

std::vector<std::string> chart_lines(const Chart& chart, std::size_t width) {
  std::vector<std::string> lines = text::wrapped(chart_title(chart), width);
  if (const auto* colours = std::get_if<document::ColourChart>(&chart.picture)) {
    lines.emplace_back();
    colour_lines(*colours, width, lines);
    return with_plain_blanks(std::move(lines));
  }
  if (const auto* rows = std::get_if<document::ShortRowChart>(&chart.picture)) {
    lines.emplace_back();
    short_row_lines(*rows, lines);
    return with_plain_blanks(std::move(lines));
  }
  const auto* needles = std::get_if<NeedleChart>(&chart.picture);
  if (needles == nullptr) {  // of a kind that is not drawn in characters: its words serve
    for (std::string& line : text::wrapped(chart.alternative, width)) lines.push_back(std::move(line));
    return with_plain_blanks(std::move(lines));
  }
  lines.emplace_back();
  const Grid grid = grid_of(*needles);
  if (needles->changes) {
    add_row(lines, "before", needle_row(needles->before, *needles, grid));
    const std::vector<std::string> arrows = arrow_rows(*needles, grid);
    for (std::size_t i = 0; i < arrows.size(); ++i) add_row(lines, i == 0 ? "move" : "", arrows[i]);
  }
  if (!needles->second.empty()) add_row(lines, "second", needle_row(needles->second, *needles, grid));
  for (std::int64_t row = needles->rows; row > 1; --row) {
    add_row(lines, fmt::format("row {}", row), needle_row(needles->after, *needles, grid));
  }
  add_row(lines, last_label(*needles), needle_row(needles->after, *needles, grid));
  for (const std::string& line : repeat_rows(*needles, grid)) add_row(lines, line.empty() ? "" : "repeat", line);
  lines.emplace_back();
  for (const std::string& line : needle_lines(*needles)) {
    for (std::string& part : text::wrapped(line, width, "  ", "    ")) lines.push_back(std::move(part));
  }
  lines.emplace_back();
  for (const Mark mark : chart.key) lines.push_back(fmt::format("  {:<5}{}", in_key(mark), mark_words(mark)));
  return with_plain_blanks(std::move(lines));
}

}  // namespace stk::outputs
