// Every source of the repository is read without a finding, and its tree fits its text.
#include <algorithm>
#include <catch2/catch.hpp>

#include "tests/unit/syntax/support.hpp"
#include "tests/unit/syntax/tree_checks.hpp"

using namespace stk;

TEST_CASE("every source of the repository is read without a finding") {
  const auto all = test::sources();
  CHECK(all.size() >= 12);
  for (const auto& path : all) {
    DYNAMIC_SECTION(path.string()) {
      const test::Parsed parsed(test::read(path));
      CHECK(test::codes(parsed) == std::vector<std::string>{});
      const syntax::Tree tree = syntax::parse_tree(parsed.source.text());
      CHECK(test::tree_problem(tree) == "");
    }
  }
}

TEST_CASE("comments lie between the tokens, all of them") {
  for (const auto& path : test::sources()) {
    DYNAMIC_SECTION(path.string()) {
      const std::string text = test::read(path);
      const syntax::Tree tree = syntax::parse_tree(text);
      // Outside of tokens there are only blanks and comments: taken out, nothing is left.
      std::string between;
      std::uint32_t at = 0;
      for (const syntax::Token& token : tree.tokens) {
        between += text.substr(at, token.begin - at) + '\n';
        at = token.end;
      }
      between += text.substr(at);
      std::string left;
      bool comment = false;
      for (const char c : between) {
        if (c == '#') comment = true;
        if (c == '\n') comment = false;
        if (!comment && c != ' ' && c != '\n' && c != '\t') left += c;
      }
      CHECK(left == "");
    }
  }
}
