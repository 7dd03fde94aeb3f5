// How a chart is laid out, in whole units (one unit is a pixel at the usual size):
//
//   Chart 1. Move the last st …
//
//   before   |  |  |          each needle 56 wide, a stroke 84 high
//                 /
//   after    |  2  .          arrows go from a needle of `before` to one of `after`
//            |_____|
//              × 12
//   Leftmost needle …
//   key
#include "compiler/outputs/chart_svg.hpp"

#include <fmt/core.h>

#include <algorithm>

#include "compiler/outputs/chart_svg_rows.hpp"
#include "compiler/outputs/chart_text.hpp"
#include "compiler/outputs/svg_drawing.hpp"

namespace stk::outputs {

namespace {

using document::Chart;
using document::Mark;
using document::NeedleChart;
using knit::DrawnMove;
using knit::DrawnNeedle;

constexpr int pitch = 56, stroke_height = 84, label_width = 130, arrow_height = 96, key_height = 52;

// One needle with its middle at x and its top at y.
void needle(Drawing& drawing, const DrawnNeedle& n, bool bare, int x, int y, int height = stroke_height) {
  const int bottom = y + height;
  switch (document::mark_of(n, bare)) {
    case Mark::out_of_work:
      drawing.dot(x, y + height / 2, 7);
      break;
    case Mark::in_work:
      drawing.line(x, y, x, bottom, 8);
      break;
    case Mark::several_loops:
      drawing.line(x, y, x, bottom, 8);
      for (int loop = 0; loop < std::min<int>(n.loops, 4); ++loop)
        drawing.ring(x, y + height / 4 + loop * height / 4, std::min(9, height / 8));
      drawing.words(x + 14, y + 18, fmt::format("{}", n.loops), "start", true);
      break;
    case Mark::empty_in_work:
      drawing.hollow(x - 8, y, 16, height);
      break;
    case Mark::upper:
      drawing.line(x, y, x, bottom, 8);
      drawing.line(x - 14, y + 18, x, y, 5);
      drawing.line(x + 14, y + 18, x, y, 5);
      break;
    case Mark::held:
      drawing.line(x, y, x, bottom, 8);
      drawing.line(x - 16, y, x + 16, y, 8);
      break;
    case Mark::tuck:   // a stroke with a loop lying over its head
      drawing.line(x, y + 18, x, bottom, 8);
      drawing.ring(x, y + 12, 12);
      break;
    case Mark::slip:   // a stroke passed over by a line
      drawing.line(x, y, x, bottom, 3);
      drawing.line(x - 16, y + height / 2, x + 16, y + height / 2, 6);
      break;
    case Mark::move:
      break;
  }
}

void key_mark(Drawing& drawing, Mark mark, int x, int y) {
  using Position = DrawnNeedle::Position;
  switch (mark) {
    case Mark::in_work:
      needle(drawing, {Position::work, 1, false}, false, x, y, key_height);
      break;
    case Mark::out_of_work:
      needle(drawing, {Position::out, 0, false}, false, x, y, key_height);
      break;
    case Mark::several_loops:
      needle(drawing, {Position::work, 2, false}, false, x, y, key_height);
      break;
    case Mark::empty_in_work:
      needle(drawing, {Position::work, 0, true}, false, x, y, key_height);
      break;
    case Mark::upper:
      needle(drawing, {Position::upper, 1, false}, false, x, y, key_height);
      break;
    case Mark::held:
      needle(drawing, {Position::hold, 1, false}, false, x, y, key_height);
      break;
    case Mark::tuck:
      needle(drawing, {Position::tuck, 1, false}, false, x, y, key_height);
      break;
    case Mark::slip:
      needle(drawing, {Position::slip, 1, false}, false, x, y, key_height);
      break;
    case Mark::move:
      drawing.arrow(x + 20, y + 4, x - 18, y + key_height - 4);
      break;
  }
}

struct Columns {
  int left = 0, width = 0;  // of the drawing beside its labels
  int middle(std::int32_t column) const { return left + pitch / 2 + column * pitch; }
};

// An arrow starts below its needle and ends above the next row; shortened so that its head does not touch the needle.
void arrows(Drawing& drawing, const NeedleChart& chart, const Columns& columns, int top) {
  for (const DrawnMove& move : chart.moves) {
    drawing.arrow(columns.middle(move.from), top + 10, columns.middle(move.to), top + arrow_height - 16);
  }
}

int picture(Drawing& drawing, const NeedleChart& chart, const Columns& columns, int y) {
  const auto row = [&](std::string_view label, const std::vector<DrawnNeedle>& needles) {
    drawing.words(margin, y + stroke_height / 2 + font / 3, label);
    for (std::size_t i = 0; i < needles.size(); ++i) {
      needle(drawing, needles[i], chart.bare, columns.middle(static_cast<std::int32_t>(i)), y);
    }
    y += stroke_height;
  };
  if (chart.changes) {
    row("before", chart.before);
    if (!chart.moves.empty()) {
      arrows(drawing, chart, columns, y);
      y += arrow_height;
    } else {
      y += arrow_height / 2;
    }
  }
  if (!chart.second.empty()) {
    row("second", chart.second);
    y += 26;
  }
  for (std::int64_t number = chart.rows; number > 1; --number) {
    row(fmt::format("row {}", number), chart.after);
    y += 26;
  }
  row(last_label(chart), chart.after);
  if (chart.repeats.empty()) return y;
  // Brackets in one line. The number of a single one stands below it; several have letters, and a line each.
  y += 34;
  const bool lettered = chart.repeats.size() > 1;
  char letter = 'a';
  for (const document::ChartRepeat& repeat : chart.repeats) {
    const int begin = columns.middle(static_cast<std::int32_t>(repeat.first)) - 20;
    const int end = columns.middle(static_cast<std::int32_t>(repeat.last)) + 20;
    drawing.line(begin, y - 14, begin, y, 4);
    drawing.line(begin, y, end, y, 4);
    drawing.line(end, y - 14, end, y, 4);
    if (lettered) drawing.words((begin + end) / 2, y + line_height - 4, std::string(1, letter++), "middle", true);
  }
  if (lettered) y += line_height + 6;
  letter = 'a';
  for (const document::ChartRepeat& repeat : chart.repeats) {
    y += line_height;
    const int x = lettered ? columns.left : columns.middle(static_cast<std::int32_t>(repeat.first)) - 20;
    drawing.words(x, y, lettered ? fmt::format("{} × {}", letter++, repeat.times) : "× " + repeat.times, "start", true);
  }
  return y;
}

int key(Drawing& drawing, const Chart& chart, int y) {
  drawing.line(margin, y, margin + 200, y, 2);
  y += 24;
  for (const Mark mark : chart.key) {
    key_mark(drawing, mark, margin + pitch / 2, y);
    drawing.words(margin + pitch + 28, y + key_height / 2 + font / 3, mark_words(mark));
    y += key_height + 16;
  }
  return y;
}

}  // namespace

std::string chart_svg(const Chart& chart) {
  Drawing drawing;
  int width = 760, y = margin - 8;
  Columns columns;
  const auto* needles = std::get_if<NeedleChart>(&chart.picture);
  if (needles != nullptr) {
    std::int32_t first = 0, last = static_cast<std::int32_t>(needles->after.size()) - 1;
    for (const DrawnMove& move : needles->moves) {
      first = std::min(first, std::min(move.from, move.to));
      last = std::max(last, std::max(move.from, move.to));
    }
    columns.left = margin + label_width - first * pitch;
    columns.width = (last + 1) * pitch;
    width = std::max(width, columns.left + columns.width + margin);
  }
  const auto* colour_chart = std::get_if<document::ColourChart>(&chart.picture);
  const auto* short_rows = std::get_if<document::ShortRowChart>(&chart.picture);
  if (colour_chart != nullptr) width = std::max(width, width_of(*colour_chart));
  if (short_rows != nullptr) width = std::max(width, width_of(*short_rows));
  const int text_width = width - 2 * margin;
  y = text_lines(drawing, chart_title(chart) + ".", margin, y, text_width, true) + 36;
  if (needles != nullptr) {
    y = picture(drawing, *needles, columns, y) + 14;
    for (const std::string& line : needle_lines(*needles)) y = text_lines(drawing, line, margin, y, text_width);
    y = key(drawing, chart, y + 28);
  } else if (colour_chart != nullptr) {
    y = colours(drawing, *colour_chart, margin, y);
    for (const std::string& line : colour_words(*colour_chart)) y = text_lines(drawing, line, margin, y, text_width);
    y += 24;
  } else if (short_rows != nullptr) {
    y = staircase(drawing, *short_rows, margin, y);
    y = text_lines(drawing,
                   fmt::format("From {} on the left to {} on the right; the row at the bottom is knitted first. The "
                               "numbers are the row counter after the row.",
                               short_rows->first_needle, short_rows->last_needle),
                   margin, y, text_width) +
        24;
  } else {
    y = text_lines(drawing, chart.alternative, margin, y, text_width) + margin;
  }
  return fmt::format(
      "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
      "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{0}\" height=\"{1}\" viewBox=\"0 0 {0} {1}\" role=\"img\" "
      "aria-labelledby=\"title desc\" font-family=\"sans-serif\" font-size=\"{2}\">\n"
      "<title id=\"title\">{3}</title>\n<desc id=\"desc\">{4}</desc>\n"
      "<defs><marker id=\"head\" markerUnits=\"userSpaceOnUse\" markerWidth=\"22\" markerHeight=\"22\" refX=\"18\" "
      "refY=\"11\" orient=\"auto\"><path d=\"M0 1 L21 11 L0 21 Z\"/></marker></defs>\n"
      "<rect width=\"{0}\" height=\"{1}\" fill=\"#fff\"/>\n{5}</svg>\n",
      width, y + 4, font, text::xml(chart_title(chart)), text::xml(chart.alternative), drawing.body());
}

}  // namespace stk::outputs
