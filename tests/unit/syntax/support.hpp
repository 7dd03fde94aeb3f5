// What the tests of this folder share: parsing from memory, and findings as short lines.
#pragma once

#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

#include "compiler/syntax/dump.hpp"
#include "compiler/syntax/parse.hpp"
#include "compiler/syntax/tree.hpp"

namespace stk::test {

struct Parsed {
  text::Source source;
  findings::Findings findings;
  syntax::File file;

  explicit Parsed(std::string text) : source({}, "test.stk", std::move(text)) {
    file = syntax::parse(source, findings);
  }
};

// "3:12 S01" for each finding, in the order of the source.
inline std::vector<std::string> codes(const Parsed& parsed) {
  std::vector<std::string> made;
  for (const findings::Finding& f : findings::merged(parsed.findings.all())) {
    const text::Position at = parsed.source.position(f.primary.begin);
    made.push_back(std::to_string(at.line) + ":" + std::to_string(at.column) + " " +
                   std::string(findings::entry(f.code).name));
  }
  return made;
}

inline std::string read(const std::filesystem::path& path) {
  std::ifstream in(path, std::ios::binary);
  std::stringstream all;
  all << in.rdbuf();
  return all.str();
}

// Every .stk file of the repository but what snapshots break on purpose.
inline std::vector<std::filesystem::path> sources() {
  std::vector<std::filesystem::path> made;
  for (const char* folder : {"stdlib", "examples", "tests/sources"}) {
    const std::filesystem::path root = std::filesystem::path(STK_SOURCE_DIR) / folder;
    if (!std::filesystem::exists(root)) continue;
    for (const auto& entry : std::filesystem::recursive_directory_iterator(root)) {
      if (entry.path().extension() == ".stk") made.push_back(entry.path());
    }
  }
  std::sort(made.begin(), made.end());
  return made;
}

}  // namespace stk::test
