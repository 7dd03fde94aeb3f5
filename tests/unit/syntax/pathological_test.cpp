// Shapes that break parsers: deep, long, unclosed. None may crash or take more than time in proportion to its length,
// which is tested by counting the tokens that were looked for in a text and in one four times as long.
#include <algorithm>
#include <catch2/catch.hpp>
#include <chrono>
#include <functional>

#include "tests/unit/syntax/support.hpp"
#include "tests/unit/syntax/tree_checks.hpp"

using namespace stk;

namespace {

std::string times(std::string_view text, std::size_t n) {
  std::string made;
  made.reserve(text.size() * n);
  for (std::size_t i = 0; i < n; ++i) made += text;
  return made;
}

double seconds(const std::string& text) {
  const auto before = std::chrono::steady_clock::now();
  const test::Parsed parsed(text);
  CHECK(parsed.source.text().size() == text.size());
  return std::chrono::duration<double>(std::chrono::steady_clock::now() - before).count();
}

struct Shape {
  const char* name;
  std::function<std::string(std::size_t)> text;  // about n bytes
};
const std::vector<Shape> shapes = {
    {"open brackets", [](std::size_t n) { return "let x = " + times("(", n); }},
    {"open calls", [](std::size_t n) { return "let x = " + times("f(", n / 2); }},
    {"middle in brackets", [](std::size_t n) { return "let x = " + times("middle (", n / 8); }},
    {"first of each", [](std::size_t n) { return "let x = " + times("first ", n / 6) + "b"; }},
    {"a long sum", [](std::size_t n) { return "let x = " + times("1 + ", n / 4) + "1"; }},
    {"many minus signs", [](std::size_t n) { return "let x = " + times("-", n) + "1"; }},
    {"not not not", [](std::size_t n) { return "let x = " + times("not ", n / 4) + "a"; }},
    {"conditions in conditions", [](std::size_t n) { return "let x = " + times("if a then b else ", n / 17) + "1"; }},
    {"needles of needles", [](std::size_t n) { return "let x = " + times("a of ", n / 5) + "b"; }},
    {"as rows as rows", [](std::size_t n) { return "let x = a" + times(" as rows", n / 8); }},
    {"grades in grades", [](std::size_t n) { return "let x = " + times("1 (", n / 3); }},
    {"a long name with dots", [](std::size_t n) { return "let x = a" + times(".a", n / 2); }},
    {"blocks in blocks", [](std::size_t n) { return "piece a {\n" + times("repeat 2 times {\n", n / 17); }},
    {"else if", [](std::size_t n) { return "piece a {\n" + times("if a { } else ", n / 14) + "{ }\n}"; }},
    {"opening braces", [](std::size_t n) { return times("{", n); }},
    {"closing braces", [](std::size_t n) { return times("}", n); }},
    {"braces by turns", [](std::size_t n) { return times("x } { ", n / 6); }},
    {"pieces without end", [](std::size_t n) { return times("piece a {\n", n / 10); }},
    {"heads without a brace", [](std::size_t n) { return "piece a {\n" + times("repeat 3 times\n", n / 15); }},
    {"broken lines", [](std::size_t n) { return times("foo bar\n", n / 8); }},
    {"broken steps", [](std::size_t n) { return "piece a {\n" + times("knit rows 3\n", n / 12) + "}"; }},
    {"steps outside", [](std::size_t n) { return times("knit 3 rows\nfoo\n", n / 16); }},
    {"open brackets on every line", [](std::size_t n) { return times("let x = (\n", n / 10); }},
    {"a list of arguments", [](std::size_t n) { return "let x = f(" + times("a,\n", n / 3); }},
    {"marks of a merge", [](std::size_t n) { return times("=======\n", n / 8); }},
    {"beginnings of a merge", [](std::size_t n) { return times("<<<<<<<\n", n / 8); }},
    {"quotation marks", [](std::size_t n) { return "let x = " + times("\"", n); }},
    {"unclosed texts", [](std::size_t n) { return times("section \"a\n", n / 11); }},
    {"values in a text", [](std::size_t n) { return "let x = \"" + times("{a}", n / 3) + "\""; }},
    {"braces in a text", [](std::size_t n) { return "let x = \"" + times("{", n) + "\""; }},
    {"a long text", [](std::size_t n) { return "pattern \"" + times("a", n); }},
    {"a long name", [](std::size_t n) { return "let " + times("a", n); }},
    {"a long number", [](std::size_t n) { return "let x = " + times("1", n); }},
    {"a long word", [](std::size_t n) { return times("a", n); }},
    {"blanks", [](std::size_t n) { return times(" ", n); }},
    {"comments", [](std::size_t n) { return times("# a\n", n / 4); }},
    {"clauses", [](std::size_t n) { return "piece a {\ncast on a" + times(", loose", n / 7) + "\n}"; }},
    {"a chart's key", [](std::size_t n) { return "chart a {\n" + times(". a ", n / 4) + "\n}"; }},
    {"an open chart row", [](std::size_t n) { return "chart a {\n[" + times(". ", n / 2) + "\n}"; }},
};

}  // namespace

TEST_CASE("no shape crashes the parser or takes more than time in proportion") {
  for (const Shape& shape : shapes) {
    DYNAMIC_SECTION(shape.name) {
      const std::string once = "stockinger 1\n" + shape.text(20'000);
      const std::string fourfold = "stockinger 1\n" + shape.text(80'000);
      CHECK(test::tree_problem(syntax::parse_tree(once)) == "");
      // Four times the text looks for four times the tokens; sixteen times if it were the square.
      const std::uint64_t small = syntax::parse_tree(once).attempts;
      const std::uint64_t large = syntax::parse_tree(fourfold).attempts;
      CHECK(large < 5 * small + 20'000);
      // A bound for what is not counted (bytes looked at, the tree, the findings), for busy machines and sanitizers.
      CHECK(seconds(fourfold) < 20);
    }
  }
}

TEST_CASE("ten thousand nested blocks are one finding") {
  const std::string text =
      "stockinger 1\npiece a {\n" + times("repeat 2 times {\n", 10'000) + times("}\n", 10'000) + "}\n";
  const test::Parsed parsed(text);
  REQUIRE(parsed.findings.all().size() == 1);
  CHECK(parsed.findings.all().front().code == findings::Code::S11);
}

TEST_CASE("nesting is allowed to its limit, in blocks and in brackets") {
  const auto blocks = [](std::size_t n) {  // the piece is one of them
    return test::codes(
        test::Parsed("stockinger 1\npiece a {\n" + times("repeat 2 times {\n", n - 1) + times("}\n", n)));
  };
  CHECK(blocks(256).empty());
  CHECK(blocks(257).size() == 1);
  const auto brackets = [](std::size_t n) {
    return test::codes(test::Parsed("stockinger 1\nlet a = " + times("(", n) + "1" + times(")", n) + "\n"));
  };
  CHECK(brackets(255).empty());
  CHECK(brackets(257).size() == 1);
}

TEST_CASE("a line of 50 MB is passed over") {
  std::string text = "stockinger 1\n" + times("a", 50'000'000) + "\nlet x = 3\n";
  const syntax::Tree tree = syntax::parse_tree(text);
  CHECK(test::tree_problem(tree) == "");
  CHECK(tree.notes.size() == 1);
}
