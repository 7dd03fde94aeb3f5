// CommonMark with pipe tables; charts are linked as images, with their words as the alternative text. Every character
// of a designer's text that could mean something to Markdown is escaped.
#include <fmt/core.h>

#include <set>

#include "compiler/outputs/chart_svg.hpp"
#include "compiler/outputs/chart_text.hpp"
#include "compiler/outputs/formats.hpp"
#include "compiler/outputs/paths.hpp"
#include "compiler/text/columns.hpp"

namespace stk::outputs {

namespace {

using namespace document;

// Marks that mean something anywhere in a line. What means something only at its beginning is taken care of by first().
std::string escaped(std::string_view raw) {
  constexpr std::string_view special = "\\`*_[]<>&|~#";
  std::string text;
  for (const char c : text::printable(raw)) {
    if (c == '\n' || c == '\r') {
      text += ' ';
      continue;
    }
    if (special.find(c) != std::string_view::npos) text += '\\';
    text += c;
  }
  const std::size_t begin = text.find_first_not_of(' ');
  if (begin == std::string::npos) return {};
  return text.substr(begin, text.find_last_not_of(' ') - begin + 1);
}

// As the beginning of a block: "1. " and "- " would begin a list, "+" and "=" one or a heading.
std::string first(std::string text) {
  if (text.empty()) return text;
  if (std::string_view("-+=:").find(text[0]) != std::string_view::npos) return "\\" + text;
  std::size_t digits = 0;
  while (digits < text.size() && text[digits] >= '0' && text[digits] <= '9') ++digits;
  if (digits > 0 && digits < text.size() && (text[digits] == '.' || text[digits] == ')')) text.insert(digits, "\\");
  return text;
}

std::string run_of(const Paragraph& paragraph) {
  std::string text = paragraph.lead.empty() ? "" : "**" + escaped(paragraph.lead) + ":**";
  for (const Sentence& sentence : paragraph.sentences) {
    if (!text.empty()) text += ' ';
    text += escaped(sentence.text);
  }
  return first(std::move(text));
}

std::string table_row(const std::vector<std::string>& cells) {
  std::string row = "|";
  for (const std::string& cell : cells) row += " " + escaped(cell) + " |";
  return row + "\n";
}

std::string table_text(const Table& table) {
  std::string text = table.caption.empty() ? "" : first(escaped(table.caption)) + ":\n\n";
  text += table_row(table.columns) + "|";
  for (std::size_t column = 0; column < table.columns.size(); ++column) text += column == 0 ? " :--- |" : " ---: |";
  text += "\n";
  for (const auto& row : table.rows) text += table_row(row);
  return text;
}

// In a link's destination in angle brackets only these must not stand.
std::string destination(const std::string& path) {
  std::string text = "<";
  for (const char c : path) {
    if (c == '<' || c == '>' || c == '\\') text += '\\';
    text += c;
  }
  return text + ">";
}

class Writer {
 public:
  Writer(const Document& document, const OutputOptions& options)
      : document_(document), options_(options), path_(output_path(options, document, "md")) {}

  Output write() {
    title();
    for (const Block& one : document_.blocks) block(one);
    return {path_, bytes_};
  }

 private:
  void add(const std::string& text) { bytes_ += (bytes_.empty() ? "" : "\n") + text + "\n"; }

  void title() {
    const Title& t = document_.title;
    add("# " + escaped(t.name));
    std::vector<std::string> parts;
    if (!t.by.empty()) parts.push_back(t.by);
    if (!t.version.empty()) parts.push_back("version " + t.version);
    if (!t.edition.empty()) parts.push_back("edition " + t.edition);
    if (!t.size.empty()) parts.push_back("size " + t.size);
    std::string line;
    for (const std::string& part : parts) line += (line.empty() ? "" : ", ") + part;
    if (!line.empty()) add(first(escaped(line)));
  }

  void block(const Block& one) {
    if (const auto* heading = std::get_if<Heading>(&one)) {
      std::string text = std::string(static_cast<std::size_t>(heading->level) + 1, '#') + " " + escaped(heading->text);
      if (!heading->aside.empty()) text += " (" + escaped(heading->aside) + ")";
      add(text);
    } else if (const auto* paragraph = std::get_if<Paragraph>(&one)) {
      add(run_of(*paragraph));
    } else if (const auto* table = std::get_if<Table>(&one)) {
      std::string text = table_text(*table);
      text.pop_back();
      add(text);
    } else if (const auto* list = std::get_if<List>(&one)) {
      std::string text;
      for (const Paragraph& item : list->items) text += (text.empty() ? "- " : "\n- ") + run_of(item);
      add(text);
    } else if (const auto* words = std::get_if<Definitions>(&one)) {
      std::string text;
      for (const Definition& entry : words->entries) {
        text += fmt::format("{}- **{}**: {}", text.empty() ? "" : "\n", escaped(entry.term), escaped(entry.meaning));
      }
      add(text);
    } else if (const auto* remark = std::get_if<Remark>(&one)) {
      add(fmt::format("> **{}** {}", remark->caution ? "Caution:" : "Note:", run_of(remark->text)));
    } else if (const auto* reference = std::get_if<ChartReference>(&one)) {
      chart(*reference);
    }
  }

  void chart(const ChartReference& reference) {
    if (reference.chart >= document_.charts.size() || !shown_.insert(reference.chart).second) return;
    const Chart& one = document_.charts[reference.chart];
    const std::string target = relative_path(path_, chart_path(options_, document_, one.number, "svg"));
    add(fmt::format("![{} {}]({})", escaped(chart_title(one) + "."), escaped(one.alternative), destination(target)));
  }

  const Document& document_;
  const OutputOptions& options_;
  std::string path_, bytes_;
  std::set<std::size_t> shown_;  // a chart stands where it is needed first
};

class MarkdownBackend final : public Backend {
 public:
  std::string_view name() const override { return "markdown"; }
  std::string_view summary() const override {
    return "the pattern as a CommonMark document, its charts as SVG beside it";
  }
  std::vector<Output> write(const knit::Facts&, const Document& document, const OutputOptions& options) const override {
    std::vector<Output> outputs{Writer(document, options).write()};
    for (const Chart& chart : document.charts) {
      outputs.push_back({chart_path(options, document, chart.number, "svg"), chart_svg(chart)});
    }
    return outputs;
  }
};

}  // namespace

const Backend& markdown_backend() {
  static const MarkdownBackend backend;
  return backend;
}

}  // namespace stk::outputs
