#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <string_view>
#include <utility>

#include "compiler/findings/catalog.hpp"
#include "compiler/findings/excerpt.hpp"
#include "compiler/findings/render.hpp"
#include "compiler/text/columns.hpp"

namespace stk::findings {
namespace {

const char* word(Severity severity) {
  switch (severity) {
    case Severity::error:
      return "error";
    case Severity::warning:
      return "warning";
    case Severity::note:
      return "note";
  }
  return "";
}

// "Women M", "Women M and Men L", "Child M, Women M and Men L".
std::string listed(const std::vector<std::string>& names) {
  std::string result;
  for (std::size_t i = 0; i < names.size(); ++i) {
    if (i > 0) result += i + 1 == names.size() ? " and " : ", ";
    result += names[i];
  }
  return result;
}

std::string sizes_in_words(std::uint64_t set, const LaneNames& names) {
  std::vector<std::string> in, out;
  for (std::size_t i = 0; i < names.sizes.size() && i < 64; ++i) {
    const std::string& name = i < names.printed.size() && !names.printed[i].empty() ? names.printed[i] : names.sizes[i];
    ((set >> i & 1u) != 0 ? in : out).push_back(name);
  }
  const std::size_t total = in.size() + out.size();
  if (in.empty()) return {};
  if (total == 1) return fmt::format("in size {}", in[0]);
  if (out.empty()) return total == 2 ? "in both sizes" : fmt::format("in all {} sizes", total);
  if (in.size() == 1) return fmt::format("in size {} (of {})", in[0], total);
  if (out.size() <= 2 && in.size() > 2 * out.size()) {
    return fmt::format("in all {} sizes but {}", total, listed(out));
  }
  return fmt::format("in sizes {} (of {})", listed(in), total);
}

std::string editions_in_words(const std::vector<std::uint16_t>& editions, const LaneNames& names) {
  std::vector<std::string> in;
  for (const std::uint16_t edition : editions) {
    if (edition < names.editions.size()) in.push_back(names.editions[edition]);
  }
  if (in.empty()) return {};
  if (in.size() == 1) return "edition " + in[0];
  if (in.size() == names.editions.size()) {
    return in.size() == 2 ? "both editions" : fmt::format("all {} editions", in.size());
  }
  return "editions " + listed(in);
}

void append(std::string& text, std::string_view more) {
  if (more.empty()) return;
  if (!text.empty()) text += ", ";
  text += more;
}

class Drawing {
 public:
  Drawing(const Finding& finding, const text::Sources& sources, const LaneNames& names, const TextStyle& style)
      : finding_(finding), sources_(sources), names_(names), style_(style) {}

  std::string draw() {
    header();
    marks();
    for (const std::string& line : where_it_happens(finding_, names_)) paragraph("  ", line);
    for (const Label& label : finding_.labels) {
      if (!beside_primary(label)) elsewhere(label);
    }
    for (const std::string& note : finding_.notes) paragraph("  note: ", note);
    for (const std::string& help : finding_.helps) paragraph("  help: ", help);
    if (finding_.helps.empty()) {
      for (const Edit& edit : finding_.edits) paragraph("  help: ", in_words(edit));
    }
    return std::move(out_);
  }

 private:
  bool has_source(text::Span span) const { return span.file.value < sources_.size(); }
  std::uint32_t line_of(text::Span span) const { return sources_[span.file].position(span.begin).line; }
  std::string place(text::Span span) const {
    return fmt::format("{}:{}", text::printable(sources_[span.file].name()), line_of(span));
  }

  void line(std::string_view text) {
    out_ += text;
    out_ += '\n';
  }

  void paragraph(std::string_view head, std::string_view text) {
    std::vector<std::string> lines = text::wrapped(text, style_.width, head, std::string(head.size(), ' '));
    // "  help:" stands in colour; the wrapped text after it does not.
    const std::size_t colon = head.find(':');
    if (colon != std::string_view::npos) {
      const bool help = head.find("help") != std::string_view::npos;
      lines[0] = "  " + coloured(lines[0].substr(2, colon - 1), help ? help_rendition : other_rendition, style_) +
                 lines[0].substr(colon + 1);
    }
    for (const std::string& one : lines) line(one);
  }

  // error C04: the groups of 3 do not come out even                 slack-water.stk:41
  void header() {
    const std::string head = fmt::format("{} {}:", word(finding_.severity), entry(finding_.code).name);
    std::vector<std::string> lines = text::wrapped(finding_.title, style_.width, head + " ", "  ");
    const std::size_t last_width = text::display_width(lines.back());
    lines[0] = coloured(head, rendition_of(finding_.severity), style_) + lines[0].substr(head.size());
    for (std::size_t i = 0; i + 1 < lines.size(); ++i) line(lines[i]);
    if (!has_source(finding_.primary)) return line(lines.back());
    const std::string at = place(finding_.primary);
    const std::size_t at_width = text::display_width(at);
    if (last_width + 2 + at_width <= style_.width) {
      return line(lines.back() + std::string(style_.width - last_width - at_width, ' ') + at);
    }
    line(lines.back());
    line(std::string(style_.width > at_width ? style_.width - at_width : 0, ' ') + at);
  }

  bool beside_primary(const Label& label) const {
    return has_source(finding_.primary) && has_source(label.span) && label.span.file == finding_.primary.file &&
           line_of(label.span) == line_of(finding_.primary);
  }

  void marks() {
    if (!has_source(finding_.primary)) {
      if (!finding_.primary_label.empty()) paragraph("  ", finding_.primary_label);
      return;
    }
    std::vector<Mark> marks{{finding_.primary, finding_.primary_label, true, finding_.severity}};
    for (const Label& label : finding_.labels) {
      if (beside_primary(label)) marks.push_back({label.span, label.text, false, finding_.severity});
    }
    draw_excerpt(finding_.primary, marks);
  }

  void elsewhere(const Label& label) {
    if (!has_source(label.span)) return paragraph("  ", label.text);
    if (label.span.file != finding_.primary.file) line("  " + place(label.span));
    draw_excerpt(label.span, {{label.span, label.text, false, finding_.severity}});
  }

  void draw_excerpt(text::Span at, const std::vector<Mark>& marks) {
    for (const std::string& one : excerpt(sources_[at.file], line_of(at), marks, style_)) line(one);
  }

  std::string in_words(const Edit& edit) const {
    if (!has_source(edit.span)) return fmt::format("write `{}`", edit.replacement);
    const std::string_view old = sources_[edit.span.file].text(edit.span);
    if (edit.replacement.empty()) return fmt::format("take out `{}`", old);
    if (edit.span.empty()) {
      const text::Position at = sources_[edit.span.file].position(edit.span.begin);
      return fmt::format("add `{}` at line {}, column {}", edit.replacement, at.line, at.column);
    }
    return fmt::format("write `{}` in place of `{}`", edit.replacement, old);
  }

  const Finding& finding_;
  const text::Sources& sources_;
  const LaneNames& names_;
  const TextStyle& style_;
  std::string out_;
};

std::string counted(std::size_t n, std::string_view what) {
  return fmt::format("{} {}{}", n, what, n == 1 ? "" : "s");
}

std::string summary(const std::vector<Finding>& findings, std::size_t hidden) {
  std::array<std::size_t, 3> counts{};
  for (const Finding& finding : findings) ++counts[static_cast<std::size_t>(finding.severity)];
  std::string result;
  for (const Severity severity : {Severity::error, Severity::warning, Severity::note}) {
    const std::size_t n = counts[static_cast<std::size_t>(severity)];
    if (n > 0) append(result, counted(n, word(severity)));
  }
  if (hidden > 0) result += fmt::format("; {} more than are shown here (--show 0 shows all)", hidden);
  return result + "\n";
}

}  // namespace

std::vector<std::string> where_it_happens(const Finding& finding, const LaneNames& names) {
  // One line for each set of sizes: editions that fail in the same sizes share it.
  std::vector<std::pair<std::uint64_t, std::vector<std::uint16_t>>> groups;
  for (const Lanes& lanes : finding.lanes) {
    const auto same = std::find_if(groups.begin(), groups.end(), [&](const auto& g) { return g.first == lanes.sizes; });
    if (same == groups.end()) {
      groups.push_back({lanes.sizes, {lanes.edition}});
    } else {
      same->second.push_back(lanes.edition);
    }
  }
  std::string on_the_machine;
  if (finding.row) on_the_machine = fmt::format("at RC {}", *finding.row);
  if (!finding.needle.empty()) append(on_the_machine, "needle " + finding.needle);
  if (finding.mirrored) append(on_the_machine, "in the second, mirrored piece only");
  std::vector<std::string> lines;
  for (const auto& [sizes, editions] : groups) {
    std::string line = sizes_in_words(sizes, names);
    append(line, editions_in_words(editions, names));
    if (lines.empty()) append(line, on_the_machine);
    if (!line.empty()) lines.push_back(std::move(line));
  }
  if (groups.empty() && !on_the_machine.empty()) lines.push_back(on_the_machine);
  return lines;
}

std::string render_text(const Finding& finding, const text::Sources& sources, const LaneNames& names,
                        const TextStyle& style) {
  return Drawing(finding, sources, names, style).draw();
}

std::string render_text(const std::vector<Finding>& findings, const text::Sources& sources, const LaneNames& names,
                        const TextStyle& style, std::size_t show) {
  if (findings.empty()) return {};
  const std::size_t shown = show == 0 ? findings.size() : std::min(show, findings.size());
  std::string out;
  // Where not all are shown, errors go before warnings and notes; within those the order stays.
  std::vector<std::size_t> order;
  for (std::size_t i = 0; i < findings.size(); ++i) order.push_back(i);
  if (shown < findings.size()) {
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return findings[a].severity < findings[b].severity; });
    order.resize(shown);
    std::sort(order.begin(), order.end());
  }
  for (const std::size_t i : order) {
    out += render_text(findings[i], sources, names, style);
    out += '\n';
  }
  return out + summary(findings, findings.size() - shown);
}

}  // namespace stk::findings
