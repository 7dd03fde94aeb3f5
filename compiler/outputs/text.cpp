// Plain text, 80 columns wide: capitals for headings, blank lines between paragraphs, charts at the end.
#include <fmt/core.h>

#include <algorithm>

#include "compiler/outputs/characters.hpp"
#include "compiler/outputs/chart_text.hpp"
#include "compiler/outputs/formats.hpp"
#include "compiler/outputs/paths.hpp"
#include "compiler/text/columns.hpp"

namespace stk::outputs {

namespace {

using namespace document;

constexpr std::size_t page_width = 80;

std::string run_of(const Paragraph& paragraph) {
  std::string text = paragraph.lead.empty() ? "" : paragraph.lead + ":";
  for (const Sentence& sentence : paragraph.sentences) {
    if (!text.empty()) text += ' ';
    text += sentence.text;
  }
  return text;
}

std::string padded(const std::string& text, std::size_t width, bool right) {
  const std::size_t used = text::display_width(text);
  const std::string blanks(width > used ? width - used : 0, ' ');
  return right ? blanks + text : text + blanks;
}

class Page {
 public:
  void line(const std::string& text) {
    std::size_t end = text.find_last_not_of(' ');
    bytes_.append(text, 0, end == std::string::npos ? 0 : end + 1);
    bytes_ += '\n';
  }
  void gap() {
    if (!bytes_.empty() && !(bytes_.size() > 1 && bytes_.compare(bytes_.size() - 2, 2, "\n\n") == 0)) bytes_ += '\n';
  }
  void paragraph(const std::string& text, std::string_view first = {}, std::string_view rest = {}) {
    for (const std::string& one : text::wrapped(text, page_width, first, rest)) line(one);
  }
  std::string take() { return plain_blanks(bytes_); }

 private:
  std::string bytes_;
};

void title(Page& page, const Title& title) {
  const std::string name = upper_case(title.name);
  std::string by = title.by;
  if (!title.version.empty()) by += (by.empty() ? "version " : ", version ") + title.version;
  const std::size_t used = text::display_width(name) + text::display_width(by);
  if (used + 2 <= page_width) {
    page.line(name + std::string(page_width - used, ' ') + by);
  } else {
    page.paragraph(name);
    page.paragraph(by);
  }
  std::string edition = title.edition.empty() ? "" : "Edition " + title.edition;
  if (!title.size.empty()) edition += (edition.empty() ? "Size " : ", size ") + title.size;
  if (!edition.empty()) page.line(edition);
}

std::vector<std::size_t> widths_of(const Table& table) {
  std::vector<std::size_t> widths;
  for (std::size_t column = 0; column < table.columns.size(); ++column) {
    std::size_t width = 0;
    for (const std::string& word : text::wrapped(table.columns[column], 1)) {
      width = std::max(width, text::display_width(word));
    }
    for (const auto& row : table.rows) {
      if (column < row.size()) width = std::max(width, text::display_width(row[column]));
    }
    widths.push_back(width);
  }
  return widths;
}

// Columns first and `columns`, heads broken over several lines.
void table_part(Page& page, const Table& table, const std::vector<std::size_t>& columns,
                const std::vector<std::size_t>& widths) {
  std::vector<std::vector<std::string>> heads;
  std::size_t height = 0;
  for (const std::size_t column : columns) {
    heads.push_back(text::wrapped(table.columns[column], widths[column]));
    height = std::max(height, heads.back().size());
  }
  for (std::size_t row = 0; row < height; ++row) {
    std::string text;
    for (std::size_t i = 0; i < columns.size(); ++i) {
      const std::size_t missing = height - heads[i].size();  // heads stand on the line, not on the top
      const std::string cell = row < missing ? "" : heads[i][row - missing];
      text += (i > 0 ? "  " : "") + padded(cell, widths[columns[i]], i > 0);
    }
    page.line(text);
  }
  std::size_t total = 0;
  for (const std::size_t column : columns) total += widths[column] + 2;
  page.line(std::string(total - 2, '-'));
  for (const auto& cells : table.rows) {
    std::string text;
    for (std::size_t i = 0; i < columns.size(); ++i) {
      const std::string cell = columns[i] < cells.size() ? cells[columns[i]] : "";
      text += (i > 0 ? "  " : "") + padded(cell, widths[columns[i]], i > 0);
    }
    page.line(text);
  }
}

// A table that is too wide goes on below, its first column printed again.
void table(Page& page, const Table& table) {
  if (!table.caption.empty()) {
    page.paragraph(table.caption + ":");
    page.gap();
  }
  if (table.columns.empty()) return;
  const std::vector<std::size_t> widths = widths_of(table);
  std::vector<std::size_t> part{0};
  std::size_t used = widths[0];
  for (std::size_t column = 1; column < table.columns.size(); ++column) {
    if (used + 2 + widths[column] > page_width && part.size() > 1) {
      table_part(page, table, part, widths);
      page.gap();
      part = {0};
      used = widths[0];
    }
    part.push_back(column);
    used += 2 + widths[column];
  }
  table_part(page, table, part, widths);
}

void definitions(Page& page, const Definitions& definitions) {
  std::size_t width = 0;
  for (const Definition& entry : definitions.entries) width = std::max(width, text::display_width(entry.term));
  const std::string rest(width + 2, ' ');
  for (const Definition& entry : definitions.entries) {
    page.paragraph(entry.meaning, padded(entry.term, width + 2, false), rest);
  }
}

// Steps stand line under line; what comes before the first heading, and remarks, stand apart.
struct Place {
  bool before_headings = true;
  bool after_remark = false;
};

void block(Page& page, const Block& block, Place& place) {
  const bool is_remark = std::holds_alternative<Remark>(block);
  if (place.before_headings || is_remark != place.after_remark) page.gap();
  place.after_remark = is_remark;
  if (const auto* heading = std::get_if<Heading>(&block)) {
    std::string text = heading->level == 1 ? upper_case(heading->text) : heading->text;
    if (!heading->aside.empty()) text += " (" + heading->aside + ")";
    page.gap();
    place.before_headings = false;
    page.paragraph(text);
    if (heading->level > 1) page.line(std::string(std::min(text::display_width(text), page_width), '-'));
  } else if (const auto* paragraph = std::get_if<Paragraph>(&block)) {
    page.paragraph(run_of(*paragraph));
  } else if (const auto* grid = std::get_if<Table>(&block)) {
    page.gap();
    table(page, *grid);
    page.gap();
  } else if (const auto* list = std::get_if<List>(&block)) {
    for (const Paragraph& item : list->items) page.paragraph(run_of(item), "- ", "  ");
  } else if (const auto* entries = std::get_if<Definitions>(&block)) {
    definitions(page, *entries);
  } else if (const auto* remark = std::get_if<Remark>(&block)) {
    page.paragraph(run_of(remark->text), remark->caution ? "CAUTION: " : "NOTE: ", "  ");
  }
}

class TextBackend final : public Backend {
 public:
  std::string_view name() const override { return "text"; }
  std::string_view summary() const override { return "instructions as plain text, 80 columns wide"; }
  std::vector<Output> write(const knit::Facts&, const Document& document, const OutputOptions& options) const override {
    Page page;
    title(page, document.title);
    page.gap();
    Place place;
    for (const Block& one : document.blocks) block(page, one, place);
    if (!document.charts.empty()) {
      page.gap();
      page.line("CHARTS");
      for (const Chart& chart : document.charts) {
        page.gap();
        for (const std::string& line : chart_lines(chart, page_width)) page.line(line);
      }
    }
    return {{output_path(options, document, "txt"), page.take()}};
  }
};

}  // namespace

const Backend& text_backend() {
  static const TextBackend backend;
  return backend;
}

}  // namespace stk::outputs
