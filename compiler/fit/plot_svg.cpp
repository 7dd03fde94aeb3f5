// People and sizes in a picture, laid out in whole units (one is a pixel at the usual size):
//
//   title
//   Women                 Men                 two panels of the same scale, a square for each cell of 5 mm
//   around ^              ^
//          |  shades      |  shades           the darker, the more people; a frame with a number is a size
//          +------> long  +------> long
//   shades and what they mean
//   1 Women M: feet of … cm, … cm around
//
// One hue from light to dark, and frames with a white rim: it can be read in grey.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <string_view>

#include "compiler/fit/report.hpp"
#include "compiler/fit/words.hpp"
#include "compiler/text/columns.hpp"
#include "compiler/text/xml.hpp"

namespace stk::fit {
namespace {

constexpr std::int64_t side = 14;  // of a cell
constexpr std::int64_t margin = 24, axis = 62, between = 30, line_height = 22, font = 15;

struct Shade {
  std::int64_t from;  // people in a cell
  const char* colour;
};
constexpr std::array<Shade, 5> shades{
    {{1, "#dfe6ea"}, {5, "#b4c4cd"}, {15, "#8199a6"}, {30, "#4f6b7b"}, {50, "#22394a"}}};

const char* colour_of(std::int64_t people) {
  const char* colour = "#fff";
  for (const Shade& shade : shades) {
    if (people >= shade.from) colour = shade.colour;
  }
  return colour;
}

struct Bounds {  // mm, whole centimetres
  std::int64_t left = 0, right = 0, low = 0, high = 0;
};

Bounds bounds_of(const std::vector<Cell>& people) {
  Bounds b{people.front().length, people.front().length, people.front().girth, people.front().girth};
  for (const Cell& cell : people) {
    b.left = std::min(b.left, cell.length);
    b.right = std::max(b.right, cell.length + cell_mm);
    b.low = std::min(b.low, cell.girth);
    b.high = std::max(b.high, cell.girth + cell_mm);
  }
  b.left = b.left / 10 * 10;
  b.low = b.low / 10 * 10;
  b.right = (b.right + 9) / 10 * 10;
  b.high = (b.high + 9) / 10 * 10;
  return b;
}

class Picture {
 public:
  Picture(const knit::Facts& facts, const EditionFit& fit, const std::vector<Cell>& people)
      : facts_(facts), fit_(fit), people_(people), bounds_(bounds_of(people)) {}

  std::string take() {
    const std::int64_t panel = (bounds_.right - bounds_.left) / cell_mm * side;
    const std::int64_t tall = (bounds_.high - bounds_.low) / cell_mm * side;
    const std::int64_t width = 2 * margin + 2 * (axis + panel) + between;
    const std::string title =
        fmt::format("Whom {} fits, edition {}", facts_.pattern.title, facts_.editions[fit_.edition].name);
    std::int64_t y = margin + 20;
    words(margin, y, title, "start", " font-size=\"20\" font-weight=\"bold\"");
    y += 34;
    std::int64_t x = margin + axis;
    for (const bool women : {true, false}) {
      const Shares& shares = women ? fit_.coverage.women : fit_.coverage.men;
      const Maybe share = over(Rational(100 * shares.fitted), Rational(shares.people));
      words(x, y,
            fmt::format("{}: {} % have a size", women ? "Women" : "Men", share ? values::decimal(*share, 1) : "-"),
            "start", " font-weight=\"bold\"");
      draw_panel(women, x, y + 12, panel, tall);
      x += panel + between + axis;
    }
    y += 12 + tall + 62;
    y = legend(y, width);
    return fmt::format(
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{0}\" height=\"{1}\" viewBox=\"0 0 {0} {1}\" role=\"img\" "
        "aria-labelledby=\"title desc\" font-family=\"sans-serif\" font-size=\"{2}\">\n"
        "<title id=\"title\">{3}</title>\n<desc id=\"desc\">{4}</desc>\n"
        "<rect width=\"{0}\" height=\"{1}\" fill=\"#fff\"/>\n{5}</svg>\n",
        width, y + margin - 8, font, text::xml(title),
        "How many people have which foot, by its length and its girth round the ball, and frames about the feet that "
        "each size fits.",
        body_);
  }

 private:
  void words(std::int64_t x, std::int64_t y, std::string_view text, const char* anchor = "start",
             const char* more = "") {
    body_ += fmt::format("<text x=\"{}\" y=\"{}\" text-anchor=\"{}\"{}>{}</text>\n", x, y, anchor, more, text::xml(text));
  }
  void square(std::int64_t x, std::int64_t y, std::int64_t w, std::int64_t h, const char* fill, const char* more = "") {
    body_ +=
        fmt::format("<rect x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\" fill=\"{}\"{}/>\n", x, y, w, h, fill, more);
  }
  void line(std::int64_t x1, std::int64_t y1, std::int64_t x2, std::int64_t y2, const char* colour) {
    body_ += fmt::format("<line x1=\"{}\" y1=\"{}\" x2=\"{}\" y2=\"{}\" stroke=\"{}\"/>\n", x1, y1, x2, y2, colour);
  }

  // Places to the tenth of a unit, in exact figures.
  std::string along(const Rational& mm, std::int64_t from, std::int64_t origin, bool up) const {
    const Maybe units = times(minus(mm, Rational(from)), Rational::of(side, cell_mm));
    const Maybe place = up ? minus(Rational(origin), units) : plus(Rational(origin), units);
    return place ? values::number_text(*place, 1) : "0";
  }

  void draw_panel(bool women, std::int64_t x, std::int64_t y, std::int64_t panel, std::int64_t tall) {
    const std::int64_t bottom = y + tall;
    square(x, y, panel, tall, "#fff", " stroke=\"#888\"");
    for (const Cell& cell : people_) {
      if (cell.women != women || cell.people == 0) continue;
      square(x + (cell.length - bounds_.left) / cell_mm * side,
             bottom - (cell.girth - bounds_.low + cell_mm) / cell_mm * side, side, side, colour_of(cell.people));
    }
    for (std::int64_t mm = bounds_.left; mm <= bounds_.right; mm += 10) {
      const std::int64_t at = x + (mm - bounds_.left) / cell_mm * side;
      line(at, bottom, at, bottom + (mm % 20 == 0 ? 6 : 3), "#444");
      if (mm % 20 == 0) words(at, bottom + 22, std::to_string(mm / 10), "middle");
    }
    for (std::int64_t mm = bounds_.low; mm <= bounds_.high; mm += 10) {
      const std::int64_t at = bottom - (mm - bounds_.low) / cell_mm * side;
      line(x - (mm % 20 == 0 ? 6 : 3), at, x, at, "#444");
      if (mm % 20 == 0) words(x - 10, at + 5, std::to_string(mm / 10), "end");
    }
    words(x + panel / 2, bottom + 44, "length of the foot, cm", "middle");
    body_ += fmt::format(
        "<text transform=\"translate({},{}) rotate(-90)\" text-anchor=\"middle\">round the ball, cm</text>\n", x - 42,
        y + tall / 2);
    for (const char* stroke : {"stroke=\"#fff\" stroke-width=\"5\"", "stroke=\"#b0471c\" stroke-width=\"2.5\""}) {
      for (const Box& box : fit_.coverage.boxes) {
        if (outside(box)) continue;
        const Box seen = clipped(box);
        body_ += fmt::format(
            "<path d=\"M{0} {2}H{1}V{3}H{0}Z\" fill=\"none\" {4}/>\n", along(seen.length_from, bounds_.left, x, false),
            along(seen.length_to, bounds_.left, x, false), along(seen.girth_to, bounds_.low, bottom, true),
            along(seen.girth_from, bounds_.low, bottom, true), stroke);
      }
    }
    for (std::size_t i = 0; i < fit_.coverage.boxes.size(); ++i) {
      const Box& box = fit_.coverage.boxes[i];
      if (outside(box)) continue;
      const Box seen = clipped(box);
      const Maybe cx = over(plus(seen.length_from, seen.length_to), Rational(2));
      const Maybe cy = over(plus(seen.girth_from, seen.girth_to), Rational(2));
      if (!cx || !cy) continue;
      const std::string at_x = along(*cx, bounds_.left, x, false), at_y = along(*cy, bounds_.low, bottom, true);
      body_ += fmt::format(
          "<circle cx=\"{0}\" cy=\"{1}\" r=\"11\" fill=\"#fff\" stroke=\"#b0471c\" stroke-width=\"2\"/>\n"
          "<text x=\"{0}\" y=\"{1}\" dy=\"5\" text-anchor=\"middle\" font-weight=\"bold\">{2}</text>\n",
          at_x, at_y, i + 1);
    }
  }

  bool outside(const Box& box) const {
    return box.length_to <= Rational(bounds_.left) || box.length_from >= Rational(bounds_.right) ||
           box.girth_to <= Rational(bounds_.low) || box.girth_from >= Rational(bounds_.high);
  }
  Box clipped(Box box) const {
    box.length_from = std::max(box.length_from, Rational(bounds_.left));
    box.length_to = std::min(box.length_to, Rational(bounds_.right));
    box.girth_from = std::max(box.girth_from, Rational(bounds_.low));
    box.girth_to = std::min(box.girth_to, Rational(bounds_.high));
    return box;
  }

  std::int64_t legend(std::int64_t y, std::int64_t width) {
    std::int64_t x = margin;
    words(x, y + 14, "People in a square of 5 mm:");
    x += 220;
    for (std::size_t i = 0; i < shades.size(); ++i) {
      square(x, y, 18, 18, shades[i].colour, " stroke=\"#888\"");
      const std::string range = i + 1 < shades.size() ? fmt::format("{} to {}", shades[i].from, shades[i + 1].from - 1)
                                                      : fmt::format("{} and more", shades[i].from);
      words(x + 26, y + 14, range);
      x += 110;
    }
    y += 18 + 30;
    std::vector<std::string> beyond;
    for (std::size_t i = 0; i < fit_.coverage.boxes.size(); ++i) {
      const Box& box = fit_.coverage.boxes[i];
      const std::string name = printed_name(facts_, box.size);
      if (outside(box)) {
        beyond.push_back(name);
        continue;
      }
      words(margin, y,
            fmt::format("{}  {}: feet {} to {} cm long, {} to {} cm round the ball", i + 1, name,
                        values::centimetres(box.length_from), values::centimetres(box.length_to),
                        values::centimetres(box.girth_from), values::centimetres(box.girth_to)));
      y += line_height;
    }
    std::vector<std::string> notes;
    if (!beyond.empty()) notes.push_back("Outside the picture: " + listed(beyond) + ".");
    notes.push_back(
        fmt::format("People: {} women and {} men of a 2012 survey of US Army personnel (NATICK/TR-15/007). Children, "
                    "older people and "
                    "those unfit for service are not among them.",
                    thousands(fit_.coverage.women.people), thousands(fit_.coverage.men.people)));
    for (const std::string& note : notes) {
      for (const std::string& part : text::wrapped(note, static_cast<std::size_t>((width - 2 * margin) / 8))) {
        words(margin, y, part, "start", " fill=\"#444\"");
        y += line_height;
      }
    }
    return y - line_height + 10;
  }

  const knit::Facts& facts_;
  const EditionFit& fit_;
  const std::vector<Cell>& people_;
  Bounds bounds_;
  std::string body_;
};

}  // namespace

std::string coverage_svg(const knit::Facts& facts, const EditionFit& edition, const std::vector<Cell>& people) {
  if (people.empty()) return {};
  return Picture(facts, edition, people).take();
}

}  // namespace stk::fit
