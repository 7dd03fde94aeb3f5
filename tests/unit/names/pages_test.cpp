// The explanation pages of the findings about names and sizes: each example gives just its finding, each mend is clean.
#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <map>
#include <set>
#include <sstream>

#include "tests/unit/names/checked.hpp"

using namespace stk;

namespace {

std::string contents(const std::filesystem::path& path) {
  std::ifstream file(path);
  std::stringstream text;
  text << file.rdbuf();
  return text.str();
}

std::vector<std::string> blocks(const std::string& page) {
  std::vector<std::string> found;
  for (std::size_t at = page.find("```stk\n"); at != std::string::npos; at = page.find("```stk\n", at)) {
    const std::size_t begin = at + 7, end = page.find("```", begin);
    found.push_back(page.substr(begin, end - begin));
    at = end;
  }
  return found;
}

// The codes that a block gives, each once; `#@ file: NAME` begins a neighbour's text.
std::set<std::string> codes_of(const std::string& block) {
  names::Checked checked;
  const std::string mark = "#@ file: ", head = "stockinger 1\n";
  std::string main = block.substr(0, block.find(mark));
  for (std::size_t at = block.find(mark); at != std::string::npos;) {
    const std::size_t line = block.find('\n', at), next = block.find(mark, line);
    const std::string name = block.substr(at + mark.size(), line - at - mark.size());
    checked.with(name, block.substr(line + 1, next == std::string::npos ? next : next - line - 1));
    at = next;
  }
  REQUIRE(main.substr(0, head.size()) == head);
  checked.check(main.substr(head.size()));
  std::set<std::string> codes;
  for (const findings::Finding& finding : checked.findings.all()) {
    codes.emplace(findings::entry(finding.code).name);
  }
  return codes;
}

}  // namespace

TEST_CASE("pages of names and sizes show what they say") {
  const std::set<std::string> without_example{"N21",
                                              "N25"};  // 33 files, 65 techniques: too long to print; see files_test
  int pages = 0;
  for (const auto& entry : std::filesystem::directory_iterator(STK_SOURCE_DIR "/compiler/findings/explain")) {
    const std::string code = entry.path().stem().string();
    if (code[0] != 'N' && code.substr(0, 2) != "G0") continue;
    INFO(code);
    const std::vector<std::string> found = blocks(contents(entry.path()));
    if (without_example.contains(code)) {
      CHECK(found.empty());
      continue;
    }
    ++pages;
    REQUIRE(found.size() == 2);
    CHECK(codes_of(found[0]) == std::set<std::string>{code});
    CHECK_FALSE(codes_of(found[1]).contains(code));
    CHECK(codes_of(found[1]).empty());
  }
  CHECK(pages >= 34);
}
