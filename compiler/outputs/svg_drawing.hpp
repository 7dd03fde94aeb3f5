// The marks of which every SVG chart is made, in whole units; black and grey on white, so that a printed page and every
// eye can tell them apart.
#pragma once

#include <fmt/core.h>

#include <string>
#include <string_view>

#include "compiler/text/xml.hpp"

namespace stk::outputs {

inline constexpr int margin = 32, font = 26, line_height = 36;

class Drawing {
 public:
  void line(int x1, int y1, int x2, int y2, int width) {
    body_ += fmt::format(
        "<line x1=\"{}\" y1=\"{}\" x2=\"{}\" y2=\"{}\" stroke=\"#000\" stroke-width=\"{}\" "
        "stroke-linecap=\"round\"/>\n",
        x1, y1, x2, y2, width);
  }
  void dot(int x, int y, int radius) { body_ += fmt::format("<circle cx=\"{}\" cy=\"{}\" r=\"{}\"/>\n", x, y, radius); }
  void ring(int x, int y, int radius) {
    body_ += fmt::format("<circle cx=\"{}\" cy=\"{}\" r=\"{}\" fill=\"#fff\" stroke=\"#000\" stroke-width=\"4\"/>\n", x,
                         y, radius);
  }
  void hollow(int x, int y, int width, int height) {
    body_ += fmt::format(
        "<rect x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\" rx=\"6\" fill=\"#fff\" stroke=\"#000\" "
        "stroke-width=\"3\"/>\n",
        x, y, width, height);
  }
  void square(int x, int y, int side, bool filled) {
    body_ += fmt::format("<rect x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\"{} stroke=\"#000\" stroke-width=\"1\"/>\n",
                         x, y, side, side, filled ? "" : " fill=\"#fff\"");
  }
  void arrow(int x1, int y1, int x2, int y2) {
    body_ += fmt::format(
        "<line x1=\"{}\" y1=\"{}\" x2=\"{}\" y2=\"{}\" stroke=\"#000\" stroke-width=\"4\" "
        "marker-end=\"url(#head)\"/>\n",
        x1, y1, x2, y2);
  }
  void words(int x, int y, std::string_view text, std::string_view anchor = "start", bool bold = false) {
    body_ += fmt::format("<text x=\"{}\" y=\"{}\"{}{}>{}</text>\n", x, y,
                         anchor == "start" ? "" : fmt::format(" text-anchor=\"{}\"", anchor),
                         bold ? " font-weight=\"bold\"" : "", text::xml(text));
  }
  void shade(int x, int y, int side) {
    body_ += fmt::format("<rect x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\" fill=\"#bbb\" stroke=\"#000\" "
                         "stroke-width=\"1\"/>\n",
                         x, y, side, side);
  }
  const std::string& body() const { return body_; }

 private:
  std::string body_;
};

// Lines of words from y downwards, broken to `width`; gives where they end.
int text_lines(Drawing& drawing, std::string_view text, int x, int y, int width, bool bold = false);

}  // namespace stk::outputs
