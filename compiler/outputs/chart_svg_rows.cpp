#include "compiler/outputs/chart_svg_rows.hpp"

#include <fmt/core.h>

#include <algorithm>

namespace stk::outputs {

namespace {

constexpr int cell = 28, number_width = 60, counter_width = 110;

}  // namespace

int width_of(const document::ColourChart& chart) {
  const int columns = chart.rows.empty() ? 0 : static_cast<int>(chart.rows.front().size());
  return 2 * margin + number_width + cell * columns;
}

int width_of(const document::ShortRowChart& chart) {
  return 2 * margin + counter_width + cell * static_cast<int>(chart.columns);
}

// Squares: filled for the second yarn, empty for the ground; a number at every fifth row and column.
int colours(Drawing& drawing, const document::ColourChart& chart, int x, int y) {
  const int rows = static_cast<int>(chart.rows.size());
  int columns = 0;
  for (int row = 0; row < rows; ++row) {
    const std::string& marks = chart.rows[static_cast<std::size_t>(rows - 1 - row)];
    columns = std::max(columns, static_cast<int>(marks.size()));
    for (int column = 0; column < static_cast<int>(marks.size()); ++column) {
      drawing.square(x + column * cell, y + row * cell, cell, marks[static_cast<std::size_t>(column)] == chart.second);
    }
    const int number = rows - row;
    if (number == 1 || number % 5 == 0) {
      drawing.words(x + columns * cell + 10, y + row * cell + cell - 6, fmt::format("{}", number));
    }
  }
  y += rows * cell + line_height;
  for (int column = 1; column <= columns; ++column) {
    if (column == 1 || column % 5 == 0 || (column == columns && columns % 5 > 1)) {
      drawing.words(x + (column - 1) * cell + cell / 2, y, fmt::format("{}", column), "middle");
    }
  }
  y += 30;   // what repeats
  drawing.line(x + 2, y - 14, x + 2, y, 4);
  drawing.line(x + 2, y, x + columns * cell - 2, y, 4);
  drawing.line(x + columns * cell - 2, y - 14, x + columns * cell - 2, y, 4);
  drawing.words(x + columns * cell / 2, y + line_height - 6, "repeat", "middle");
  y += line_height + 30;
  for (const bool second : {false, true}) {
    drawing.square(x, y, 36, second);
    drawing.words(x + 60, y + 28, second ? chart.second_yarn : chart.ground_yarn);
    y += 52;
  }
  return y;
}

// Grey squares knit; white ones are held, with a ring where the needle is wrapped. Beside each row its counter, and an
// arrow for the way of the carriage.
int staircase(Drawing& drawing, const document::ShortRowChart& chart, int x, int y) {
  const int rows = static_cast<int>(chart.rows.size()), columns = static_cast<int>(chart.columns);
  for (int i = 0; i < rows; ++i) {
    const document::ShortRow& row = chart.rows[static_cast<std::size_t>(rows - 1 - i)];
    const int top = y + i * cell;
    for (int column = 0; column < columns; ++column) {
      const bool knits = column >= static_cast<int>(row.first) && column <= static_cast<int>(row.last);
      if (knits) {
        drawing.shade(x + column * cell, top, cell);
      } else {
        drawing.square(x + column * cell, top, cell, false);
      }
    }
    for (const std::size_t column : row.wrapped)
      drawing.ring(x + static_cast<int>(column) * cell + cell / 2, top + cell / 2, 7);
    const int right = x + columns * cell + 12, middle = top + cell / 2;
    drawing.line(right, middle, right + 22, middle, 3);
    const int tip = row.to_right ? right + 22 : right, back = row.to_right ? -9 : 9;
    drawing.line(tip, middle, tip + back, middle - 7, 3);
    drawing.line(tip, middle, tip + back, middle + 7, 3);
    if (i == 0 || i == rows - 1 || row.counter % 4 == 0) {
      drawing.words(right + 34, top + cell - 5, fmt::format("{:03}", row.counter));
    }
  }
  y += rows * cell + 30;
  const auto entry = [&](const char* words) {
    drawing.words(x + 60, y + 24, words);
    y += 44;
  };
  drawing.shade(x, y, cell);
  entry("needle that knits");
  drawing.square(x, y, cell, false);
  entry("needle held");
  drawing.square(x, y, cell, false);
  drawing.ring(x + cell / 2, y + cell / 2, 7);
  entry("needle held, wrapped after the row");
  return y;
}

}  // namespace stk::outputs
