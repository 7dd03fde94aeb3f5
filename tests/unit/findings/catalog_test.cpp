// The table of findings as a whole: codes, families, wording.
#include "compiler/findings/catalog.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cctype>
#include <set>
#include <string>

using namespace stk::findings;

namespace {

bool starts(std::string_view text, std::string_view with) { return text.substr(0, with.size()) == with; }

// Whole words only: "last" has "ast" in it.
bool has_word(std::string_view text, std::string_view word) {
  const auto letter = [&](std::size_t i) { return i < text.size() && std::isalpha(static_cast<unsigned char>(text[i])); };
  for (std::size_t at = text.find(word); at != std::string_view::npos; at = text.find(word, at + 1)) {
    if ((at == 0 || !letter(at - 1)) && !letter(at + word.size())) return true;
  }
  return false;
}

}  // namespace

TEST_CASE("codes are a family's letter and two digits, in order within their family, and never twice") {
  std::set<std::string_view> names, slugs;
  std::string_view before;
  for (const CatalogEntry& one : catalog()) {
    INFO(one.name);
    REQUIRE(one.name.size() == 3);
    CHECK(std::string_view("SNVGCYBETPF").find(one.name[0]) != std::string_view::npos);
    CHECK(std::isdigit(static_cast<unsigned char>(one.name[1])));
    CHECK(std::isdigit(static_cast<unsigned char>(one.name[2])));
    CHECK(names.insert(one.name).second);
    CHECK(slugs.insert(one.slug).second);
    if (!before.empty() && before[0] == one.name[0]) CHECK(before < one.name);
    before = one.name;
    CHECK(&entry(one.code) == &one);
  }
  for (const RetiredCode& retired : retired_codes()) {
    CHECK(names.insert(retired.name).second);
    CHECK_FALSE(retired.why.empty());
  }
}

TEST_CASE("titles are facts in the trade's words") {
  for (const CatalogEntry& one : catalog()) {
    INFO(one.name << ": " << one.title);
    CHECK_FALSE(one.title.empty());
    CHECK(one.title.back() != '.');
    CHECK(one.title.find('?') == std::string_view::npos);
    CHECK(one.title.find('!') == std::string_view::npos);
    CHECK(one.title.find('\n') == std::string_view::npos);
    // Lower case but for the marks of the trade: RC, MT, COR, COL, L and R of needles.
    const bool trade_mark = starts(one.title, "RC") || starts(one.title, "MT") || starts(one.title, "COR") ||
                            starts(one.title, "COL");
    CHECK((trade_mark || !std::isupper(static_cast<unsigned char>(one.title.front()))));
    std::string small(one.title);
    std::transform(small.begin(), small.end(), small.begin(), [](unsigned char c) { return std::tolower(c); });
    for (const char* forbidden : {"illegal", "invalid", "token", "ast", "parser", "parse", "identifier", "syntax",
                                  "semantic", "lexer", "expression", "null", "undefined", "exception", "oops", "sorry",
                                  "please", "you", "your"}) {
      INFO(forbidden);
      CHECK_FALSE(has_word(small, forbidden));
    }
  }
}

TEST_CASE("every code has a page that begins with it, and no page is without a code") {
  for (const CatalogEntry& one : catalog()) {
    INFO(one.name);
    CHECK(starts(explanation(one.code), "# " + std::string(one.name) + ": "));
    CHECK(explanation(one.code).find("\n## Example\n") != std::string_view::npos);
    CHECK(explanation(one.code).find("\n## Mend\n") != std::string_view::npos);
  }
  for (const stk::text::EmbeddedFile& page : explain_pages()) {
    INFO(page.name);
    CHECK(find_code(page.name));
  }
}

TEST_CASE("a code is found by its name in any case, and by its slug") {
  CHECK(find_code("S01") == Code::S01);
  CHECK(find_code("s01") == Code::S01);
  CHECK(find_code(entry(Code::S01).slug) == Code::S01);
  CHECK_FALSE(find_code("S"));
  CHECK_FALSE(find_code(""));
  CHECK_FALSE(find_code("Z99"));
}
