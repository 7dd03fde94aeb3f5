// A chart in plain characters, one needle a column, and the words of its key. The same words explain the SVG.
#pragma once

#include <string>
#include <vector>

#include "compiler/document/chart.hpp"

namespace stk::outputs {

std::string mark_words(document::Mark mark);  // "needle out of work"

// Lines of at most `width` cells: title, drawing, where the needles lie, key.
std::vector<std::string> chart_lines(const document::Chart& chart, std::size_t width);

std::string chart_title(const document::Chart& chart);                      // "Chart 1. Move … (Women L and Men L)"
std::string last_label(const document::NeedleChart& chart);   // of the row at the bottom
std::vector<std::string> colour_words(const document::ColourChart& chart);   // how it lies on the needles
std::vector<std::string> needle_lines(const document::NeedleChart& chart);  // "Leftmost needle: L18 (L21)."

}  // namespace stk::outputs
