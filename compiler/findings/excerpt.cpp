#include "compiler/findings/excerpt.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <string_view>

#include "compiler/text/columns.hpp"

namespace stk::findings {
namespace {

constexpr std::size_t least_room = 20;  // cells of source that are shown however narrow the style is

// The columns [begin, end) of the whole line that are shown.
struct Window {
  std::size_t begin = 0;
  std::size_t end = 0;
};

struct Columns {
  std::size_t begin = 0;
  std::size_t end = 0;  // at least begin + 1: something must be seen
};

class LineDrawing {
 public:
  LineDrawing(const text::Source& source, std::uint32_t line, const TextStyle& style)
      : style_(style), text_(source.line(line)), clusters_(text::clusters(text_)), number_(fmt::format("{:>5}", line)) {
    start_ = static_cast<std::uint32_t>(text_.data() - source.text().data());
    const std::size_t gutter = number_.size() + 3;
    room_ = std::max(least_room, style.width > gutter ? style.width - gutter : 0);
    window_ = {0, line_width()};
  }

  void look_at(text::Span span) {
    if (line_width() <= room_) return;
    const Columns columns = columns_of(span);
    if (columns.end + 1 < room_) {
      window_ = {0, room_};
    } else {
      const std::size_t begin = columns.begin > room_ / 3 ? columns.begin - room_ / 3 : 0;
      window_ = {begin, std::min(line_width(), begin + room_)};
    }
  }

  std::string source_line() const {
    std::string shown;
    const bool cut_before = window_.begin > 0, cut_after = window_.end < line_width();
    for (const text::Cluster& cluster : clusters_) {
      const std::size_t end = cluster.column + cluster.width;
      if (end <= window_.begin || cluster.column >= window_.end) continue;
      const bool at_cut = (cut_before && cluster.column < window_.begin + 1) || (cut_after && end > window_.end - 1);
      if (!at_cut) {
        shown += cluster.shown;
        continue;
      }
      // One ellipsis in place of what the cut goes through, and blanks for the rest of its cells in the window.
      const std::size_t visible = std::min(end, window_.end) - std::max(cluster.column, window_.begin);
      shown += "…";
      shown.append(visible - 1, ' ');
    }
    while (!shown.empty() && shown.back() == ' ') shown.pop_back();
    return shown.empty() ? gutter(number_, "") : gutter(number_, shown);
  }

  void underline(const Mark& mark, std::vector<std::string>& lines) const {
    Columns columns = columns_of(mark.span);
    // Into the window; a mark beside it is drawn at its edge, so that it is seen that there is one.
    columns.begin = columns.begin > window_.begin ? columns.begin - window_.begin : 0;
    columns.end = columns.end > window_.begin ? columns.end - window_.begin : 0;
    columns.begin = std::min(columns.begin, room_ - 1);
    columns.end = std::clamp(columns.end, columns.begin + 1, room_);
    const char* const rendition = mark.primary ? rendition_of(mark.severity) : other_rendition;
    const std::string line(columns.end - columns.begin, mark.primary ? '^' : '-');
    const std::string before(columns.begin, ' ');
    const std::string label = text::printable(mark.text);
    const std::string blank(number_.size(), ' ');
    if (columns.end + 1 + text::display_width(label) <= room_) {
      const std::string drawn = label.empty() ? line : line + ' ' + label;
      lines.push_back(gutter(blank, before + coloured(drawn, rendition, style_)));
      return;
    }
    lines.push_back(gutter(blank, before + coloured(line, rendition, style_)));
    const std::string indent(columns.begin < room_ / 2 ? columns.begin : 2, ' ');
    for (const std::string& part : text::wrapped(mark.text, room_ - indent.size())) {
      lines.push_back(gutter(blank, indent + coloured(part, rendition, style_)));
    }
  }

 private:
  std::size_t line_width() const { return clusters_.empty() ? 0 : clusters_.back().column + clusters_.back().width; }

  std::string gutter(const std::string& number, const std::string& rest) const {
    return coloured(number + " |", quiet_rendition, style_) + (rest.empty() ? "" : " " + rest);
  }

  Columns columns_of(text::Span span) const {
    const std::size_t begin = span.begin - start_, end = std::max(span.begin, span.end) - start_;
    Columns result{line_width(), line_width()};
    for (const text::Cluster& cluster : clusters_) {
      if (cluster.end > begin) {
        result.begin = std::min(result.begin, cluster.column);
        if (cluster.begin < end) result.end = cluster.column + cluster.width;
        if (cluster.begin >= end) {
          result.end = std::min(result.end, cluster.column);
          break;
        }
      }
    }
    result.end = std::max(result.end, result.begin + 1);
    return result;
  }

  const TextStyle& style_;
  std::string_view text_;
  std::vector<text::Cluster> clusters_;
  std::string number_;
  std::uint32_t start_ = 0;  // byte of the line's begin in the source
  std::size_t room_ = 0;     // cells to the right of the gutter
  Window window_;
};

}  // namespace

std::string coloured(std::string text, const char* rendition, const TextStyle& style) {
  if (!style.colour) return text;
  return fmt::format("\x1b[{}m{}\x1b[0m", rendition, text);
}

const char* rendition_of(Severity severity) {
  switch (severity) {
    case Severity::error:
      return "1;31";
    case Severity::warning:
      return "1;33";
    case Severity::note:
      return "1;36";
  }
  return "1";
}

std::vector<std::string> excerpt(const text::Source& source, std::uint32_t line, const std::vector<Mark>& marks,
                                 const TextStyle& style) {
  LineDrawing drawing(source, line, style);
  if (!marks.empty()) drawing.look_at(marks.front().span);
  std::vector<std::string> lines{drawing.source_line()};
  for (const Mark& mark : marks) drawing.underline(mark, lines);
  return lines;
}

}  // namespace stk::findings
