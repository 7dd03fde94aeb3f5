// What the documents show is true: every source in README.md, grammar/REFERENCE.md and the explanation pages compiles,
// or gives the finding that it is there to show.
#include <algorithm>
#include <catch2/catch.hpp>
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "compiler/findings/catalog.hpp"
#include "tests/support/blocks.hpp"
#include "tests/support/checking.hpp"
#include "tests/support/snapshot.hpp"

using namespace stk::test;
using stk::findings::CatalogEntry;
using stk::findings::Severity;

namespace {

stk::service::Checked checked(const std::string& text) {
  const Snapshot split = read_snapshot(text);  // a block may hold several files and set values
  return check(main_file, split.text, split.neighbours, split.options);
}

// The codes of everything found, notes too.
std::vector<std::string> all_codes(const stk::service::Checked& result) {
  std::vector<std::string> codes;
  for (const auto& finding : result.findings) codes.emplace_back(stk::findings::entry(finding.code).name);
  std::sort(codes.begin(), codes.end());
  codes.erase(std::unique(codes.begin(), codes.end()), codes.end());
  return codes;
}

void check_document(const std::string& name) {
  const std::vector<Block> blocks = fenced_blocks(read_file(std::string(STK_SOURCE_DIR) + "/" + name));
  CHECK(std::any_of(blocks.begin(), blocks.end(), is_ours));
  for (const Block& block : blocks) {
    if (!is_ours(block)) continue;
    DYNAMIC_SECTION(name << ":" << block.line) {
      const Listing shown = listing(block);
      INFO(name << ":" << block.line << "\n" << shown.text);
      REQUIRE(shown.mistake == "");
      const stk::service::Checked result = checked(shown.text);
      std::vector<std::string> found = codes(result);
      std::erase_if(found, [&](const std::string& code) {
        return std::count(shown.tolerated.begin(), shown.tolerated.end(), code) > 0;
      });
      std::sort(found.begin(), found.end());
      found.erase(std::unique(found.begin(), found.end()), found.end());
      INFO(findings_text(result));
      if (shown.finding) {
        CHECK(all_codes(result) == std::vector<std::string>{*shown.finding});
      } else {
        CHECK(found.empty());
      }
    }
  }
}

const Block* under(const std::vector<Block>& blocks, const std::string& heading) {
  for (const Block& block : blocks) {
    if (is_ours(block) && block.heading == heading) return &block;
  }
  return nullptr;
}

}  // namespace

// Pages whose example cannot stand on a page, with the reason; their codes are tested elsewhere. The list must shrink.
const std::map<std::string_view, std::string_view> without_example{
    {"C14", "`fill empties` takes those that are empty, `move` those that it emptied, and nothing else fills: tests/unit/runtime"},
    {"E07", "no step draws waste from an edge by itself, and every hang of the language moves the comb: tests/unit/runtime"},
    {"E18", "no step of the finishing draws waste by itself; hang, graft and bind off do, as they secure: tests/unit/runtime"},
    {"F22", "a size is left only where a finding was reported: this one tells of a step that left one without"},
    {"S15", "bytes that are no text: tests/unit/syntax"},
    {"N21", "a chain of 33 files: tests/unit/names"},
    {"N25", "a chain of 65 techniques: tests/unit/names"},
};

TEST_CASE("every source in the reference compiles") {
  check_document("grammar/REFERENCE.md");
}
TEST_CASE("every source in the README compiles") {
  check_document("README.md");
}

TEST_CASE("each explanation page's example gives its code and no other, and its mend is clean") {
  for (const CatalogEntry& entry : stk::findings::catalog()) {
    DYNAMIC_SECTION(entry.name) {
      const std::vector<Block> blocks = fenced_blocks(stk::findings::explanation(entry.code));
      const Block* const example = under(blocks, "Example");
      const Block* const mend = under(blocks, "Mend");
      if (without_example.count(entry.name) > 0) {
        CHECK(example == nullptr);
        continue;
      }
      REQUIRE(example != nullptr);
      REQUIRE(mend != nullptr);
      const stk::service::Checked wrong = checked(example->text), right = checked(mend->text);
      INFO("example\n" << findings_text(wrong) << "mend\n" << findings_text(right));
      std::vector<std::string> found = all_codes(wrong);
      if (entry.name == "S19") std::erase(found, "S01");   // the many mistakes that it counts
      CHECK(found == std::vector<std::string>{std::string(entry.name)});
      const std::vector<std::string> left = all_codes(right);
      CHECK(std::count(left.begin(), left.end(), entry.name) == 0);
      CHECK_FALSE(right.has_errors());
    }
  }
}
