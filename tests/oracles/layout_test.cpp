// Outputs read by programs that know nothing of us: Markdown by cmark-gfm (the reference parser of CommonMark with pipe
// tables), SVG by xmllint and rsvg-convert. A missing program fails the test with its package's name.
#include <sys/wait.h>

#include <catch2/catch.hpp>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <string>
#include <vector>

#include "compiler/document/write.hpp"
#include "compiler/outputs/backend.hpp"
#include "tests/unit/sample_facts.hpp"

using namespace stk;
namespace fs = std::filesystem;

namespace {

struct Run {
  int status = -1;
  std::string output;
};

Run run(const std::string& command) {
  Run result;
  FILE* const pipe = popen((command + " 2>&1").c_str(), "r");
  REQUIRE(pipe != nullptr);
  char buffer[4096];
  for (std::size_t n; (n = fread(buffer, 1, sizeof buffer, pipe)) > 0;) result.output.append(buffer, n);
  const int status = pclose(pipe);
  result.status = WIFEXITED(status) ? WEXITSTATUS(status) : -1;
  return result;
}

void needs(const std::string& program, const std::string& package) {
  if (run("command -v " + program).status != 0) FAIL("the program " << program << " is missing: install " << package);
}

// A folder of its own for each test, removed at the end.
class Folder {
 public:
  Folder() {
    std::string name = (fs::temp_directory_path() / "stk-layout-XXXXXX").string();
    REQUIRE(mkdtemp(name.data()) != nullptr);
    path_ = name;
  }
  ~Folder() {
    std::error_code ignored;
    fs::remove_all(path_, ignored);
  }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;

  std::string write(const std::string& name, const std::string& bytes) const {
    std::ofstream(path_ / name, std::ios::binary) << bytes;
    return (path_ / name).string();
  }

 private:
  fs::path path_;
};

std::size_t count(const std::string& text, const std::string& part) {
  std::size_t n = 0;
  for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) ++n;
  return n;
}

document::Document hard_document() {  // every special character of Markdown, wherever a designer can write
  const std::string marks = R"(*a* _b_ `c` [d](e) <f> &amp; | \ ~~g~~ # h - 1. ![i](j) http://k.example)";
  knit::Facts facts = test::sample_facts();
  facts.pattern.title += marks;
  facts.pattern.summary = marks;
  facts.pattern.notes = {"- " + marks, "1. " + marks, "+ " + marks, "# " + marks, "> " + marks, "===", "---"};
  facts.pattern.cautions = {marks};
  facts.sizes[0].printed = marks;
  facts.editions[0].pieces[0].first[0].title = {marks};
  return document::write_document(facts, 0, 15);
}

std::string markdown_of(const document::Document& document) {
  return outputs::find_backend("markdown")->write({}, document, {})[0].bytes;
}

}  // namespace

TEST_CASE("cmark-gfm finds the headings, tables, lists and pictures of the document") {
  needs("cmark-gfm", "cmark-gfm");
  const Folder folder;
  const document::Document document = document::write_document(test::sample_facts(), 0, 15);
  const Run html = run("cmark-gfm -e table '" + folder.write("a.md", markdown_of(document)) + "'");
  REQUIRE(html.status == 0);
  std::size_t headings[4] = {}, tables = 0, rows = 0, cells = 0, items = 0, remarks = 0, pictures = 0;
  for (const document::Block& block : document.blocks) {
    if (const auto* heading = std::get_if<document::Heading>(&block)) {
      ++headings[heading->level + 1];
      CHECK(html.output.find(">" + heading->text + "<") != std::string::npos);
    }
    if (const auto* table = std::get_if<document::Table>(&block)) {
      ++tables;
      rows += table->rows.size() + 1;
      cells += table->rows.size() * table->columns.size();
    }
    if (const auto* list = std::get_if<document::List>(&block)) items += list->items.size();
    if (const auto* words = std::get_if<document::Definitions>(&block)) items += words->entries.size();
    remarks += std::holds_alternative<document::Remark>(block) ? 1U : 0U;
    pictures += std::holds_alternative<document::ChartReference>(block) ? 1U : 0U;
  }
  CHECK(count(html.output, "<h1>") == 1);
  CHECK(count(html.output, "<h2>") == headings[2]);
  CHECK(count(html.output, "<h3>") == headings[3]);
  CHECK(count(html.output, "<table>") == tables);
  CHECK(count(html.output, "<tr>") == rows);
  CHECK(count(html.output, "<td") == cells);
  CHECK(count(html.output, "<li>") == items);
  CHECK(count(html.output, "<blockquote>") == remarks);
  CHECK(count(html.output, "<img") == pictures);
}

TEST_CASE("cmark-gfm gives back a designer's text letter for letter") {
  needs("cmark-gfm", "cmark-gfm");
  const Folder folder;
  const std::string file = folder.write("a.md", markdown_of(hard_document()));
  const Run html = run("cmark-gfm --unsafe -e table -e strikethrough '" + file + "'");
  REQUIRE(html.status == 0);
  const std::string shown = "*a* _b_ `c` [d](e) &lt;f&gt; &amp;amp; | \\ ~~g~~ # h - 1. ![i](j) http://k.example";
  CHECK(html.output.find("<h1>Slack Water bed sock" + shown + "</h1>") != std::string::npos);
  CHECK(html.output.find("<h2>" + shown + "</h2>") != std::string::npos);
  CHECK(html.output.find("<p>" + shown + "</p>") != std::string::npos);
  for (const char* begin : {"- ", "1. ", "+ ", "# ", "&gt; "}) {
    INFO(begin);
    CHECK(html.output.find("<li>" + std::string(begin) + shown + "</li>") != std::string::npos);
  }
  CHECK(html.output.find("<li>===</li>") != std::string::npos);
  CHECK(html.output.find("<li>---</li>") != std::string::npos);
  CHECK(html.output.find(">" + shown + "</td>") != std::string::npos);
  for (const char* tag : {"<em>a", "<code>", "<a ", "<f>", "<del>", "<hr", "<ol", "<h4"}) {
    INFO(tag);
    CHECK(html.output.find(tag) == std::string::npos);
  }
}

TEST_CASE("every SVG is well-formed XML and is drawn") {
  needs("xmllint", "libxml2-utils");
  needs("rsvg-convert", "librsvg2-bin");
  const Folder folder;
  document::Document document = document::write_document(test::sample_facts(), 0, 15);
  document.charts[0].title += R"( < & > " ' ]]> )";
  std::size_t drawn = 0;
  for (const outputs::Output& file : outputs::find_backend("charts")->write({}, document, {})) {
    if (file.path.find(".svg") == std::string::npos) continue;
    const std::string path = folder.write("chart.svg", file.bytes);
    const Run parsed = run("xmllint --noout --nonet '" + path + "'");
    INFO(parsed.output);
    CHECK(parsed.status == 0);
    const Run rendered = run("rsvg-convert '" + path + "' -o '" + path + ".png'");
    INFO(rendered.output);
    CHECK(rendered.status == 0);
    CHECK(rendered.output.empty());
    CHECK(fs::file_size(path + ".png") > 2000);  // an empty page of this size is smaller
    ++drawn;
  }
  CHECK(drawn == document.charts.size());
}
