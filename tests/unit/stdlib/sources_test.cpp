// Nothing in the library is a number without an origin: every figure of its tables, every formula and every technique has a line in
// stdlib/SOURCES.md, with the same value and a mark, and no line tells of a figure that is gone.
#include <catch2/catch.hpp>
#include <fstream>
#include <map>
#include <set>
#include <sstream>

#include "compiler/syntax/parse.hpp"
#include "compiler/text/source.hpp"
#include "stdlib/library.hpp"

using namespace stk;

namespace {

struct Line {
  std::string value, mark, origin;
};

std::string trimmed(std::string text) {
  text.erase(0, text.find_first_not_of(' '));
  text.erase(text.find_last_not_of(' ') + 1);
  return text;
}

// The rows of SOURCES.md's tables whose first cell has a point in it: `feet.foot_length.women_m`.
std::map<std::string, Line> source_lines() {
  std::ifstream file(STK_SOURCE_DIR "/stdlib/SOURCES.md");
  std::map<std::string, Line> lines;
  for (std::string line; std::getline(file, line);) {
    if (line.empty() || line[0] != '|') continue;
    std::vector<std::string> cells;
    std::stringstream row(line.substr(1));
    for (std::string cell; std::getline(row, cell, '|');) cells.push_back(trimmed(cell));
    if (cells.size() != 4 || cells[0].find('.') == std::string::npos) continue;
    INFO(cells[0]);
    CHECK(lines.emplace(cells[0], Line{cells[1], cells[2], cells[3]}).second);
  }
  return lines;
}

std::string spelled(const syntax::Expr& expr) {
  if (const auto* number = std::get_if<syntax::Number>(&expr.node)) return number->digits;
  if (const auto* with = std::get_if<syntax::WithUnit>(&expr.node))
    return spelled(*with->operand) + " " + with->unit.text;
  return "?";
}

// Every figure of one file, as SOURCES.md names it, with its value as spelled; techniques without one.
void figures(const std::string& library, const syntax::File& file, std::map<std::string, std::string>& found) {
  for (const syntax::Item& item : file.items) {
    if (const auto* measures = std::get_if<syntax::Measures>(&item.node)) {
      for (const syntax::TableRow& row : measures->rows) {
        CHECK(row.source);  // and a word beside the row itself
        for (std::size_t i = 0; i < row.cells.size(); ++i) {
          const auto* cell = std::get_if<syntax::SizeValue>(&row.cells[i]);
          REQUIRE(cell);
          if (cell->dash) continue;  // no source was found, and none is claimed
          found[library + "." + row.name.text + "." + measures->columns.at(i).text] =
              cell->digits + " " + row.unit->text;
        }
      }
    } else if (const auto* machine = std::get_if<syntax::MachineClass>(&item.node)) {
      for (const syntax::MachineField& field : machine->fields) {
        std::string value;
        for (const syntax::ExprPtr& part : field.values) value += (value.empty() ? "" : ", ") + spelled(*part);
        found[library + "." + machine->name.text + "." + field.name.text] = value;
      }
    } else if (const auto* let = std::get_if<syntax::Let>(&item.node)) {
      found[library + "." + let->name.text] = "";
    } else if (const auto* technique = std::get_if<syntax::Technique>(&item.node)) {
      found[library + "." + technique->name.text] = "";
    }
  }
}

}  // namespace

TEST_CASE("every figure of the library has its source") {
  text::Sources sources;
  findings::Findings findings;
  std::map<std::string, std::string> found;
  for (const text::EmbeddedFile& file : stdlib::files()) {
    const text::Source& source = sources.add(std::string(file.name), std::string(file.text));
    figures(std::string(file.name), syntax::parse(source, findings), found);
  }
  CHECK(findings.all().empty());
  CHECK(found.size() >= 60);

  const std::map<std::string, Line> lines = source_lines();
  const std::set<std::string> marks{"seen", "2nd", "calc", "estimated", "memory", "practice"};
  for (const auto& [figure, value] : found) {
    INFO(figure << " is " << value);
    const auto line = lines.find(figure);
    REQUIRE(line != lines.end());
    if (!value.empty()) CHECK(line->second.value == value);
    CHECK(marks.contains(line->second.mark));
    CHECK_FALSE(line->second.origin.empty());
  }
  for (const auto& [figure, line] : lines) {
    INFO("SOURCES.md tells of " << figure);
    CHECK(found.contains(figure));
  }
}
