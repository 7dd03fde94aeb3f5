// The house's one direction: every #include of ours is an edge that the table in DEVELOPERS.md allows.
#include <algorithm>
#include <catch2/catch.hpp>
#include <filesystem>
#include <map>
#include <set>
#include <sstream>
#include <string>

#include "tests/support/blocks.hpp"
#include "tests/support/checking.hpp"

namespace fs = std::filesystem;
using namespace stk::test;

namespace {

const fs::path root = STK_SOURCE_DIR;

// What a folder may include: whole folders ("text") or single headers of one ("knit/facts.hpp").
using Table = std::map<std::string, std::set<std::string>>;

Table allowed() {
  for (const Block& block : fenced_blocks(read_file((root / "DEVELOPERS.md").string()))) {
    if (block.info != "includes") continue;
    Table table;
    std::istringstream lines(block.text);
    for (std::string line, folder, word; std::getline(lines, line);) {
      std::istringstream words(line);
      words >> folder;
      table[folder];
      while (words >> word) {
        if (word != "-") table[folder].insert(word.back() == ',' ? word.substr(0, word.size() - 1) : word);
      }
    }
    return table;
  }
  FAIL("DEVELOPERS.md has no block `includes`");
  return {};
}

// compiler/knit/run.cpp is of the folder knit, runtime/machine.hpp of runtime.
std::string folder_of(const fs::path& file) {
  const std::string parent = file.parent_path().string();
  return parent.rfind("compiler/", 0) == 0 ? parent.substr(9) : parent;
}

struct Include {
  std::string file;    // that includes
  std::string header;  // as written
  bool ours = false;   // in quotes
};

std::vector<Include> includes() {
  std::vector<Include> all;
  for (const char* top : {"compiler", "runtime", "grammar", "stdlib"}) {
    for (const auto& entry : fs::recursive_directory_iterator(root / top)) {
      const std::string ending = entry.path().extension().string();
      if (ending != ".hpp" && ending != ".cpp" && ending != ".def") continue;
      std::istringstream lines(read_file(entry.path().string()));
      for (std::string line; std::getline(lines, line);) {
        if (line.rfind("#include", 0) != 0) continue;
        const bool ours = line.find('"') != std::string::npos;
        const std::size_t begin = line.find_first_of("<\"") + 1, end = line.find_first_of(">\"", begin);
        all.push_back({entry.path().lexically_relative(root).string(), line.substr(begin, end - begin), ours});
      }
    }
  }
  return all;
}

// Who may include a library that is slow to compile or that only one place needs to know.
bool may_use(const std::string& header, const std::string& file) {
  const std::string folder = folder_of(file);
  if (header.rfind("tao/", 0) == 0) return folder == "grammar" || file == "compiler/syntax/parse.cpp";
  if (header.rfind("CLI/", 0) == 0) return file == "compiler/driver/options.cpp";
  if (header.rfind("boost/", 0) == 0) return folder == "values";
  // Text measures with it, and the names of output files are put into small letters without accents.
  if (header.rfind("utf8proc", 0) == 0) return folder == "text" || file == "compiler/outputs/characters.cpp";
  if (header.rfind("nlohmann/", 0) == 0) return fs::path(file).extension() == ".cpp";
  if (header.rfind("catch2/", 0) == 0) return false;
  if (header.rfind("fmt/", 0) == 0) return folder != "runtime" && folder != "grammar";
  return true;
}

// The grammar's plain lists (words.hpp, kinds.def) may be read by all of syntax/; its rules only where they are
// compiled.
bool brings_pegtl(const std::string& header, const std::vector<Include>& all) {
  return std::any_of(all.begin(), all.end(), [&](const Include& include) {
    if (include.file != header) return false;
    return include.header.rfind("tao/", 0) == 0 || (include.ours && brings_pegtl(include.header, all));
  });
}

}  // namespace

TEST_CASE("includes follow the house's one direction") {
  const Table table = allowed();
  const std::vector<Include> all = includes();
  CHECK(all.size() > 100);  // the search found the sources at all
  for (const Include& include : all) {
    INFO(include.file << " includes " << include.header);
    CHECK(may_use(include.header, include.file));
    if (!include.ours) continue;
    const std::string from = folder_of(include.file), to = folder_of(include.header);
    REQUIRE(table.count(from) == 1);
    if (from == to) continue;
    const std::string header = to + "/" + fs::path(include.header).filename().string();
    CHECK((table.at(from).count(to) == 1 || table.at(from).count(header) == 1));
    if (to == "grammar" && brings_pegtl(include.header, all)) CHECK(include.file == "compiler/syntax/parse.cpp");
  }
}

TEST_CASE("the table itself has no circle") {
  // A folder that stands below another may include only folders that stand above it: the table is in the order of data.
  std::set<std::string> above;
  for (const Block& block : fenced_blocks(read_file((root / "DEVELOPERS.md").string()))) {
    if (block.info != "includes") continue;
    std::istringstream lines(block.text);
    for (std::string line, folder, word; std::getline(lines, line);) {
      std::istringstream words(line);
      words >> folder;
      while (words >> word) {
        if (word == "-") continue;
        if (word.back() == ',') word.pop_back();
        INFO(folder << " includes " << word);
        CHECK(above.count(word.substr(0, word.find('/'))) == 1);
      }
      above.insert(folder);
    }
  }
}
