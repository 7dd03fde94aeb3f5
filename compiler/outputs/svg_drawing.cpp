#include "compiler/outputs/svg_drawing.hpp"

#include <algorithm>

#include "compiler/text/columns.hpp"

namespace stk::outputs {

namespace {

// How wide a letter is, in tenths of a unit, at most: for breaking lines. Wide faces and bold ones must fit too.
constexpr int letter_tenths = 150, bold_letter_tenths = 172;

}  // namespace

int text_lines(Drawing& drawing, std::string_view text, int x, int y, int width, bool bold) {
  const auto cells = static_cast<std::size_t>(std::max(12, width * 10 / (bold ? bold_letter_tenths : letter_tenths)));
  for (const std::string& line : text::wrapped(text, cells)) {
    y += line_height;
    drawing.words(x, y, line, "start", bold);
  }
  return y;
}

}  // namespace stk::outputs
