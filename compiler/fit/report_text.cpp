// The report for a terminal: figures, what they come to, the sections as knitted, the steps from size to size, people.
#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <functional>
#include <iterator>
#include <string_view>

#include "compiler/fit/grading.hpp"
#include "compiler/fit/grid.hpp"
#include "compiler/fit/report.hpp"
#include "compiler/fit/verdicts.hpp"
#include "compiler/fit/words.hpp"
#include "compiler/text/columns.hpp"

namespace stk::fit {
namespace {

constexpr const char* nothing = "-";

class Page {
 public:
  Page(const knit::Facts& facts, const EditionFit& fit) : facts_(facts), fit_(fit) {}

  std::string take() {
    title();
    figures();
    heading("What it comes to");
    for (const std::string& one : verdicts(facts_, fit_)) item(one);
    for (const std::string& one : cautions(fit_)) paragraph(one, "\n");
    sections();
    steps();
    const std::vector<std::string> people = coverage_words(facts_, fit_);
    if (!people.empty()) {
      heading("Whom the sizes fit");
      for (const std::string& one : people) item(one);
    }
    heading("What this report does not know");
    paragraph(
        "It goes by the gauge of a washed swatch, and a seam takes nothing off. It does not know your yarn, how far it "
        "stretches and how well it comes back. Let somebody with such feet try the sock on.");
    return std::move(bytes_);
  }

 private:
  const knit::EditionFacts& edition() const { return facts_.editions[fit_.edition]; }

  void paragraph(const std::string& text, const char* before = "") {
    bytes_ += before;
    for (const std::string& line : text::wrapped(text, page_width)) bytes_ += line + "\n";
  }
  void item(const std::string& text) {
    for (const std::string& line : text::wrapped(text, page_width, "- ", "  ")) bytes_ += line + "\n";
  }
  void heading(const std::string& text) {
    bytes_ += "\n" + text + "\n" + std::string(text::display_width(text), '-') + "\n";
  }

  void title() {
    const std::string name = facts_.pattern.title.empty() ? "this pattern" : facts_.pattern.title;
    paragraph("Fit of " + text::printable(name) + ", edition " + edition().name);
    bytes_ += "\n";
    paragraph(
        "In cm, of the washed sock. Ease is by how much the sock is larger (+) or smaller (−) than the body there.");
    bytes_ += "\n";
  }

  std::vector<std::string> size_names() const {
    std::vector<std::string> names;
    for (const SizeFit& one : fit_.sizes) names.push_back(printed_name(facts_, one.size));
    return names;
  }

  using Cell = std::function<std::string(const SizeFit&)>;
  GridRow row(std::string label, const Cell& cell) const {
    GridRow row{std::move(label), {}};
    for (const SizeFit& one : fit_.sizes) row.cells.push_back(cell(one));
    return row;
  }
  static std::string length(const Maybe& value) { return value ? values::centimetres(*value) : nothing; }
  static std::string ease(const Maybe& value) { return value ? signed_percent(*value) : nothing; }

  void add(Grid& grid, const char* head, std::vector<GridRow> rows) const {
    const auto empty = [](const GridRow& row) {
      return std::all_of(row.cells.begin(), row.cells.end(), [](const std::string& cell) { return cell == nothing; });
    };
    rows.erase(std::remove_if(rows.begin(), rows.end(), empty), rows.end());
    if (rows.empty()) return;
    std::string heading = head;
    rows.erase(std::remove_if(rows.begin(), rows.end(), [&](const GridRow& row) { return folded(row, heading); }),
               rows.end());
    if (rows.empty()) return;
    grid.rows.push_back({heading, {}});
    for (GridRow& row : rows) grid.rows.push_back(std::move(row));
  }

  // What is the same in all sizes is said once, in the heading: these rows only.
  static bool folded(const GridRow& row, std::string& heading) {
    static constexpr std::string_view rows[] = {"ease declared", "held against the", "fabric", "at most", "usual"};
    if (std::find(std::begin(rows), std::end(rows), row.label) == std::end(rows)) return false;
    if (std::any_of(row.cells.begin(), row.cells.end(),
                    [&](const std::string& cell) { return cell != row.cells[0]; })) {
      return false;
    }
    heading += ", " + row.label + " " + row.cells[0];
    return true;
  }

  std::string body_name(const std::string& measure) const {
    const auto& names = facts_.body_measure_names;
    return std::find(names.begin(), names.end(), "foot_" + measure) != names.end() ? "foot" : "body";
  }

  void figures() {
    Grid grid{size_names(), {}};
    for (const knit::MeasureFacts& measure : edition().measures) {
      std::vector<GridRow> rows;
      rows.push_back(row("sock", [&](const SizeFit& s) { return length(value_at(measure.finished, s.size)); }));
      rows.push_back(
          row(body_name(measure.name), [&](const SizeFit& s) { return length(value_at(measure.body, s.size)); }));
      rows.push_back(row("ease", [&](const SizeFit& s) {
        return ease(ease_of(value_at(measure.finished, s.size), value_at(measure.body, s.size)));
      }));
      rows.push_back(row("ease declared", [&](const SizeFit& s) {
        const Maybe from = value_at(measure.ease_from, s.size), to = value_at(measure.ease_to, s.size);
        return from && to ? range_words(*from, *to) : std::string(nothing);
      }));
      if (measure.name == "around") {
        rows.push_back(row("opens on the ball", [&](const SizeFit& s) {
          const Maybe ratio = over(value_at(measure.body, s.size), value_at(measure.finished, s.size));
          return ratio ? values::decimal(*ratio, 2) + " ×" : std::string(nothing);
        }));
      }
      std::string head = measure_words(measure.name);
      head[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(head[0])));
      add(grid, head.c_str(), std::move(rows));
    }
    const auto passage = [&](const std::function<std::string(const Passage&)>& cell) {
      return [cell](const SizeFit& s) { return s.fabric ? cell(*s.fabric) : std::string(nothing); };
    };
    add(grid, "Over heel and instep",
        {row("heel and instep", [&](const SizeFit& s) { return length(body_measure(facts_, "heel_around", s.size)); }),
         row("tightest of the leg", passage([](const Passage& p) { return values::centimetres(p.width); })),
         row("its stitches", passage([](const Passage& p) { return std::to_string(p.stretch.stitches); })),
         row("fabric", passage([](const Passage& p) { return fabric_word(p.stretch.fabric); })),
         row("opens", passage([](const Passage& p) { return values::decimal(p.opening, 2) + " ×"; })),
         row("at most", passage([](const Passage& p) { return values::number_text(p.limit, 2) + " ×"; }))});
    add(grid, "At the top",
        {row("sock",
             [&](const SizeFit& s) { return s.top ? values::centimetres(s.top->width) : std::string(nothing); }),
         row("leg there", [&](const SizeFit& s) { return s.top ? length(s.top->body) : std::string(nothing); }),
         row("held against the",
             [&](const SizeFit& s) { return s.top && s.top->body ? s.top->against : std::string(nothing); }),
         row("ease", [&](const SizeFit& s) { return s.top ? ease(s.top->ease) : std::string(nothing); }),
         row("usual", [&](const SizeFit& s) {
           return s.top && s.top->body ? range_words(s.top->usual.from, s.top->usual.to) : std::string(nothing);
         })});
    bytes_ += grid_text(grid);
  }

  // "Heel"; with several pieces "sole: Heel".
  std::string section_heading(const std::string& piece, const std::string& section) const {
    const std::string name = text::printable(section);
    if (edition().pieces.size() < 2 && !name.empty()) return name;
    return measure_words(piece) + (name.empty() ? "" : ": " + name);
  }

  // Sections are those of all sizes, by piece and heading, in the order of the first size that has them.
  void sections() {
    std::vector<std::pair<std::string, std::string>> keys;
    for (const SizeFit& one : fit_.sizes) {
      for (const SectionMeasure& section : one.sections) {
        const std::pair key(section.piece, section.section);
        if (std::find(keys.begin(), keys.end(), key) == keys.end()) keys.push_back(key);
      }
    }
    if (keys.empty()) return;
    Grid grid{size_names(), {}};
    for (const auto& key : keys) {
      const auto cell = [&](const std::function<std::string(const SectionMeasure&)>& text) {
        return [&, text](const SizeFit& s) {
          for (const SectionMeasure& section : s.sections) {
            if (section.piece == key.first && section.section == key.second) return text(section);
          }
          return std::string(nothing);
        };
      };
      const auto range = [](std::string a, const std::string& b) { return a == b ? a : a + "–" + b; };
      add(grid, section_heading(key.first, key.second).c_str(),
          {row("stitches", cell([&](const SectionMeasure& m) {
                 return m.rows > 0 ? range(std::to_string(m.fewest), std::to_string(m.most)) : std::string(nothing);
               })),
           row("wide", cell([&](const SectionMeasure& m) {
                 return m.narrowest ? range(values::centimetres(*m.narrowest), values::centimetres(*m.widest))
                                    : std::string(nothing);
               })),
           row("rows", cell([](const SectionMeasure& m) {
                 return m.rows > 0 ? std::to_string(m.rows) : std::string(nothing);
               })),
           row("short rows", cell([&](const SectionMeasure& m) {
                 return m.short_rows > 0 ? std::to_string(m.short_rows) : std::string(nothing);
               })),
           row("long",
               cell([](const SectionMeasure& m) { return m.rows > 0 ? length(m.height) : std::string(nothing); }))});
    }
    heading("As knitted");
    paragraph(
        "Wide is a piece as it lies flat, or a tube all the way round. Short rows are not in the length, and a hem is "
        "measured before it is folded. A needle that is left out from the beginning counts as a stitch.");
    bytes_ += "\n";
    bytes_ += grid_text(grid);
  }

  // One step a column: to the size named from the one before it in the order of the body measure.
  void steps() {
    if (fit_.sizes.size() < 2) return;
    bool begun = false;
    for (const knit::MeasureFacts& measure : edition().measures) {
      std::vector<std::size_t> order = order_of(facts_, measure);
      order.erase(std::remove_if(order.begin(), order.end(),
                                 [&](std::size_t size) {
                                   return std::none_of(fit_.sizes.begin(), fit_.sizes.end(),
                                                       [&](const SizeFit& s) { return s.size == size; });
                                 }),
                  order.end());
      if (order.size() < 2) continue;
      if (!begun) {
        heading("From size to size");
        paragraph("By how much each size is larger than the one before it, in the order of the body measure.");
      }
      begun = true;
      Grid grid;
      std::string head = measure_words(measure.name);
      head[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(head[0])));
      GridRow sock{"sock", {}}, body{body_name(measure.name), {}};
      for (std::size_t i = 1; i < order.size(); ++i) {
        const auto step = [&](const knit::Amount& amount) {
          const Maybe by = minus(value_at(amount, order[i]), value_at(amount, order[i - 1]));
          if (!by) return std::string(nothing);
          std::string text = values::centimetres(*by);
          if (text.front() == '-') return "−" + text.substr(1);
          return text == "0" ? text : "+" + text;
        };
        grid.columns.push_back(printed_name(facts_, order[i]));
        sock.cells.push_back(step(measure.finished));
        body.cells.push_back(step(measure.body));
      }
      add(grid, head.c_str(), {sock, body});
      bytes_ += "\n";
      bytes_ += grid_text(grid);
    }
  }

  const knit::Facts& facts_;
  const EditionFit& fit_;
  std::string bytes_;
};

}  // namespace

std::string report_text(const knit::Facts& facts, const std::vector<EditionFit>& editions) {
  std::string text;
  for (const EditionFit& fit : editions) text += (text.empty() ? "" : "\n\n") + Page(facts, fit).take();
  return text;
}

}  // namespace stk::fit
