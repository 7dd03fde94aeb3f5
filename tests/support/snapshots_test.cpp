// Every source of tests/snapshots through the whole pipeline, its findings and outputs compared with the files beside
// it. STK_BLESS=1 writes those files anew (and still fails where markers do not agree); STK_FILTER takes only tests
// whose path has this text in it.
#include <algorithm>
#include <catch2/catch.hpp>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <map>
#include <regex>
#include <set>
#include <string>

#include "compiler/findings/catalog.hpp"
#include "compiler/findings/render.hpp"
#include "compiler/text/memory_files.hpp"
#include "tests/support/blocks.hpp"
#include "tests/support/checking.hpp"
#include "tests/support/line_diff.hpp"
#include "tests/support/snapshot.hpp"

namespace fs = std::filesystem;
using namespace stk::test;

namespace {

constexpr std::uintmax_t most_bytes = 20 * 1024;
const fs::path root = fs::path(STK_SOURCE_DIR) / "tests/snapshots";
const std::set<std::string> kinds{".findings", ".json", ".text", ".md", ".svg", ".report"};

std::string environment(const char* name) {
  const char* const value = std::getenv(name);
  return value != nullptr ? value : "";
}

bool blessing() {
  return !environment("STK_BLESS").empty();
}

std::vector<fs::path> sources() {
  std::vector<fs::path> paths;
  for (const auto& entry : fs::recursive_directory_iterator(root)) {
    if (entry.path().extension() == ".stk") paths.push_back(entry.path());
  }
  std::sort(paths.begin(), paths.end());
  return paths;
}

std::string named(const fs::path& path) {
  return path.lexically_relative(root).string();
}

// What may change without being a change of what is tested.
std::string masked(const std::string& text) {
  static const std::regex place("(<library>/[a-z_0-9]+\\.stk):[0-9]+");
  static const std::regex excerpt("(<library>/[a-z_0-9]+\\.stk:LINE\n) *[0-9]+ \\|");
  return std::regex_replace(std::regex_replace(text, place, "$1:LINE"), excerpt, "$1 LINE |");
}

// Files of one kind become one text; their names stand before them if there are several.
std::string joined(const std::map<std::string, std::string>& files) {
  if (files.size() == 1) return files.begin()->second;
  std::string text;
  for (const auto& [path, bytes] : files) text += "==> " + path + " <==\n" + bytes;
  return text;
}

// What the test gives, by the ending of the file that it is compared with.
std::map<std::string, std::string> results(const Snapshot& test, const stk::service::Checked& checked) {
  std::map<std::string, std::string> all;
  if (test.fit) {
    all[".findings"] = findings_text(checked);
    stk::text::MemoryFiles none;
    const auto fitted = stk::service::Session(none).fit(checked, test.options, {test.json, false});
    if (const auto* const output = std::get_if<stk::service::FitOutput>(&fitted)) all[".report"] = output->report;
    return all;
  }
  if (test.json) {
    all[".json"] = stk::findings::render_json({{&checked.findings, &checked.sources, &checked.names}});
  } else {
    all[".findings"] = findings_text(checked);
  }
  if (!test.build || !checked.usable()) return all;
  stk::text::MemoryFiles none;
  auto built = stk::service::Session(none).build(checked, test.formats, test.options);
  if (const auto* const refusal = std::get_if<stk::service::Refusal>(&built)) {
    FAIL_CHECK("nothing was built: " << refusal->reason);
    return all;
  }
  std::map<std::string, std::map<std::string, std::string>> by_kind;
  for (const auto& [path, bytes] : std::get<std::vector<stk::outputs::Output>>(built)) {
    const std::string ending = fs::path(path).extension().string();
    by_kind[ending == ".txt" ? ".text" : ending][path] = bytes;
  }
  for (const auto& [kind, files] : by_kind) all[kind] = joined(files);
  return all;
}

// The expected text, or nothing if there is no file: then the result must be empty.
std::string expected_text(const fs::path& path) {
  return fs::exists(path) ? read_file(path.string()) : "";
}

void compare(const fs::path& source, const std::string& kind, const std::string& actual) {
  const fs::path path = fs::path(source).replace_extension(kind);
  const std::string expected = expected_text(path);
  if (expected == actual) return;
  const std::string diff = line_diff(expected, actual, named(path), "this run");
  if (!blessing()) {
    std::cout << diff;  // the test library would wrap its lines
    FAIL_CHECK(named(path) << " is not what this run gives");
    return;
  }
  std::cout << diff << "blessed " << named(path) << "\n";
  if (actual.empty()) {
    fs::remove(path);
  } else {
    fs::create_directories(path.parent_path());
    std::ofstream(path, std::ios::binary) << actual;
  }
}

std::string listed(const std::vector<Place>& places) {
  std::string text;
  for (const Place& place : places)
    text += "  " + place.file + ":" + std::to_string(place.line) + " " + place.code + "\n";
  return text.empty() ? "  none\n" : text;
}

void check_markers(const Snapshot& test, const stk::service::Checked& checked) {
  std::vector<Place> found = places(checked);
  for (Place& place : found) {
    if (place.file.rfind("<library>", 0) == 0) place = {"<library>", 0, place.code};
  }
  std::sort(found.begin(), found.end());
  if (found == test.marked) return;
  std::cout << "marked:\n" << listed(test.marked) << "found:\n" << listed(found) << findings_text(checked);
  FAIL_CHECK("the markers do not agree with what was found");
}

}  // namespace

TEST_CASE("snapshots") {
  if (blessing() && !environment("CI").empty()) FAIL("blessing is refused where CI is set");
  const std::string filter = environment("STK_FILTER");
  for (const fs::path& source : sources()) {
    if (named(source).find(filter) == std::string::npos) continue;
    DYNAMIC_SECTION(named(source)) {
      const Snapshot test = read_snapshot(read_file(source.string()));
      if (!test.mistake.empty()) FAIL("the test itself: " << test.mistake);
      const stk::service::Checked checked = check(main_file, test.text, test.neighbours, test.options);
      for (const stk::service::Refusal& refusal : checked.refusals) FAIL_CHECK(refusal.reason);
      check_markers(test, checked);
      const std::map<std::string, std::string> all = results(test, checked);
      for (const std::string& kind : kinds) {
        const auto result = all.find(kind);
        compare(source, kind, result != all.end() ? masked(result->second) : "");
      }
      for (const auto& [kind, text] : all) {
        INFO(kind);
        CHECK(kinds.count(kind) == 1);
      }
    }
  }
}

TEST_CASE("snapshots of the explanation pages' examples") {
  if (blessing() && !environment("CI").empty()) FAIL("blessing is refused where CI is set");
  for (const stk::findings::CatalogEntry& entry : stk::findings::catalog()) {
    const std::string name = "explain/" + std::string(entry.name);
    if (name.find(environment("STK_FILTER")) == std::string::npos) continue;
    for (const Block& block : fenced_blocks(stk::findings::explanation(entry.code))) {
      if (!is_ours(block) || block.heading != "Example") continue;
      DYNAMIC_SECTION(name) {
        const Snapshot test = read_snapshot(block.text);
        const stk::service::Checked checked = check(main_file, test.text, test.neighbours, test.options);
        compare(root / (name + ".stk"), ".findings", masked(findings_text(checked)));
      }
    }
  }
}

TEST_CASE("every file of the snapshots belongs to a test, and is small") {
  for (const auto& entry : fs::recursive_directory_iterator(root)) {
    if (entry.is_directory()) continue;
    const fs::path& path = entry.path();
    INFO(named(path));
    if (entry.path().filename() != "S19.findings") CHECK(entry.file_size() <= most_bytes)  /* lists 200 mistakes */;
    if (path.extension() == ".stk") continue;
    CHECK(kinds.count(path.extension().string()) == 1);
    const bool of_a_page = path.parent_path() == root / "explain" && stk::findings::find_code(path.stem().string());
    CHECK((of_a_page || fs::exists(fs::path(path).replace_extension(".stk"))));
  }
}
