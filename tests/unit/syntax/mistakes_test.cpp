// Mistakes: one finding each, in the right place, saying what was expected; mends marked certain take the finding away.
#include <algorithm>
#include <catch2/catch.hpp>

#include "tests/unit/syntax/support.hpp"

using namespace stk;

namespace {

struct Case {
  const char* what;
  std::string text;                   // behind the first line
  std::vector<std::string> expected;  // "line:column code"
};

const std::vector<Case> cases = {
    {"three mistakes",
     "let a = stitches(b * 90%\nlet c = 3 sts\npiece p {\n  kint 3 rows\n  knit 3 rows over\n}\n",
     {"2:25 S01", "5:3 S02", "6:19 S01"}},
    {"an operator at the end of a line", "let a = b /\n\npiece p {\n}\n", {"2:12 S01"}},
    {"a comma at the end of a line", "piece p {\n  cast on 3,\n  knit 3 rows\n}\n", {"3:13 S01"}},
    {"nothing behind =", "let a =\nlet b = 3\n", {"2:8 S01"}},
    {"a misspelt side", "piece p {\n  cast on 3, carriage rigth\n}\n", {"3:23 S01"}},
    {"a misspelt clause", "piece p {\n  bind off all, lose\n}\n", {"3:17 S01"}},
    {"the unit before its number", "piece p {\n  knit rows 3\n}\n", {"3:8 S01"}},
    {"a missing comma", "let a = f(b c)\n", {"2:13 S01"}},
    {"a missing brace before a part",
     "piece p {\n  repeat 3 times {\n    knit 1 row\n  }\n\nfinish {\n}\n",
     {"5:4 S03"}},
    {"a missing brace inside",
     "piece p {\n  repeat 3 times {\n    knit 1 row\n\n  knit 4 rows\n}\nfinish {\n}\n",
     {"6:14 S03"}},
    {"two missing braces", "piece p {\n  repeat 3 times {\n    knit 1 row\n", {"4:15 S03"}},
    {"a missing brace and another mistake",
     "piece p {\n  knit 3 rwos\n\nfinish {\n  weav in ends\n}\n",
     {"3:10 S01", "3:14 S03", "6:3 S02"}},
    {"a missing opening brace", "piece p\n  knit 3 rows\n}\nfinish {\n}\n", {"2:8 S04"}},
    {"a missing opening brace of a repeat", "piece p {\n  repeat 3 times\n    knit 1 row\n  }\n}\n", {"3:17 S04"}},
    {"a brace too many", "piece p {\n}\n}\nlet a = 3\n", {"4:1 S05"}},
    {"a brace too early", "piece p {\n  knit 1 row\n}\n  knit 2 rows\n  knit 3 rows\n}\n", {"5:3 S17"}},
    {"a broken head keeps its block", "piece p, mak 2 {\n  knit 3 rwos\n}\n", {"2:10 S01", "3:10 S01"}},
    {"an unclosed text", "piece p {\n  section leg \"Leg\n  knit 3 rows\n}\n", {"3:15 S06"}},
    {"an unclosed text before a brace", "piece p {\n  say \"Narrow {\n    knit 1 row\n  }\n}\n", {"3:7 S06"}},
    {"an unclosed text in a head", "pattern \"Sock {\n  by \"me\"\n}\n", {"2:9 S06"}},
    {"a broken value in a text", "piece p {\n  note \"a {b +} c {d}\"\n}\n", {"3:15 S01"}},
    {"a multiplication sign", "let a = 2 × 3\n", {"2:11 S07"}},
    {"dashes", "let a = 2 – 3 — 4 − 5\n", {"2:11 S07", "2:15 S07", "2:19 S07"}},
    {"typographic quotes", "pattern “Sock” {\n  by 'me'\n}\n", {"2:9 S07", "3:6 S07"}},
    {"full-width digits", "let a = １２ sts\n", {"2:9 S07"}},
    {"a full-width bracket", "let a = f（3)\n", {"2:10 S07"}},
    {"an accent in a name", "let größe = 3\n", {"2:5 S08"}},
    {"a decimal comma", "piece p {\n  cut main, tail 2,5 cm\n}\n", {"3:18 S09"}},
    {"commas without a blank part values in brackets", "let a = min(1,2)\n", {}},
    {"a merge", "<<<<<<< ours\nlet a = 3\n=======\nlet a = 4\n>>>>>>> theirs\n", {"2:1 S10"}},
    {"a merge in a table",
     "sizes {\n  small large\n<<<<<<< ours\n  foot 1 2\n=======\n  foot 1 3\n>>>>>>> theirs\n}\n",
     {"4:1 S10"}},
    {"two merges", "<<<<<<< a\n=======\n>>>>>>> b\n<<<<<<< a\n=======\n>>>>>>> b\n", {"2:1 S10", "5:1 S10"}},
    {"64 digits and 65", "let a = " + std::string(64, '1') + "\nlet b = " + std::string(65, '1') + "\n", {"3:9 S12"}},
    {"a line of an edition in a piece", "piece p {\n  gauge 24 sts, 30 rows to 10 cm\n}\n", {"3:3 S02"}},
    {"a step among the parts", "knit 3 rows\nlet a = 3\n", {"2:1 S17"}},
    {"a technique without work", "piece p {\n  heel(right half)\n}\n", {"3:3 S02"}},
    {"a value without let", "piece p {\n  a = 3\n}\n", {"3:3 S02"}},
    {"a reserved word as a name", "let over = 3\n", {"2:5 S18"}},
    {"a unit as a name", "let rows = 3\n", {"2:5 S18"}},
    {"an open bracket over lines", "let a = f(b,\n  c\nlet d = 3\n", {"3:4 S01"}},
    {"needs outside of a technique", "piece p {\n  needs 3 sts\n}\n", {"3:3 S02"}},
    {"a ragged line in a table", "sizes {\n  small large\n  foot < 3\n}\n", {"4:8 S01"}},
    {"tabs are blanks", "piece p {\n\tknit 3 rows\n}\n", {}},
    {"ends of lines from elsewhere", "piece p {\r\n  knit 3 rows\r\n}\r\n", {}},
};

std::vector<std::string> codes_of(const std::string& text) {
  return test::codes(test::Parsed(text));
}

}  // namespace

TEST_CASE("each mistake gives one finding, in its place") {
  for (const Case& one : cases) {
    INFO(one.what);
    CHECK(codes_of("stockinger 1\n" + one.text) == one.expected);
  }
}

TEST_CASE("the first line") {
  CHECK(codes_of("") == std::vector<std::string>{"1:1 S16"});
  CHECK(codes_of("\n# nothing\n") == std::vector<std::string>{"1:1 S16"});
  CHECK(codes_of("let a = 3\n") == std::vector<std::string>{"1:1 S13"});
  CHECK(codes_of("let a = 3\nstockinger 1\n") == std::vector<std::string>{"1:1 S13"});
  CHECK(codes_of("stockinger 2\n") == std::vector<std::string>{"1:12 S14"});
  CHECK(codes_of("# a comment may stand before\n\nstockinger 1\n").empty());
  CHECK(codes_of("\xEF\xBB\xBFstockinger 1\n").empty());
  CHECK(codes_of("stockinger 1").empty());
}

TEST_CASE("what is no text is not read") {
  for (const std::string& bytes : {std::string("stockinger 1\n\0", 14), std::string("stockinger 1\n\xFF\xFE"),
                                   std::string("\xFF\xFEs\0t\0", 6), std::string("stockinger 1\n\x01")}) {
    const test::Parsed parsed(bytes);
    REQUIRE(parsed.findings.all().size() == 1);
    CHECK(parsed.findings.all().front().code == findings::Code::S15);
    CHECK(parsed.file.items.empty());
  }
}

TEST_CASE("a forgotten brace names its opening, and more than one are one finding") {
  const test::Parsed one(
      "stockinger 1\npiece p {\n  repeat 3 times {\n    knit 1 row\n\n  knit 4 rows\n}\nfinish {\n}\n");
  REQUIRE(one.findings.all().size() == 1);
  REQUIRE(one.findings.all().front().labels.size() == 1);
  CHECK(one.findings.all().front().labels.front().text == "to close `repeat 3 times {`");

  const test::Parsed aligned(
      "stockinger 1\npiece p {\n  repeat 3 times {\n    if a {\n      knit 1 row\n    knit 2 rows\n  }\n  knit 3 "
      "rows\n}\nfinish {\n}\n");
  REQUIRE(aligned.findings.all().size() == 1);
  CHECK(aligned.findings.all().front().labels.front().text == "to close `if a {`");

  const test::Parsed two("stockinger 1\npiece p {\n  repeat 3 times {\n    knit 1 row\n");
  REQUIRE(two.findings.all().size() == 1);
  CHECK(two.findings.all().front().labels.size() == 2);
}

TEST_CASE("an unclosed bracket shows its opening") {
  const test::Parsed parsed("stockinger 1\nlet a = f(b * (c + 2)\n");
  REQUIRE(parsed.findings.all().size() == 1);
  const findings::Finding& finding = parsed.findings.all().front();
  CHECK(finding.title == "`)` or a comma was expected here");
  REQUIRE(finding.labels.size() == 1);
  CHECK(finding.labels.front().text == "to close this bracket");
  CHECK(parsed.source.position(finding.labels.front().span.begin).column == 10);
}

TEST_CASE("what was meant is suggested") {
  const std::pair<const char*, const char*> table[] = {
      {"kint 3 rows", "knit"},
      {"knit 3 rows ovr all", "over"},
      {"cast on 3, carriage rihgt", "right"},
      {"bind off all, matress", "mattress"},
      {"let a = b rounded to evn", "even"},
      {"increase 1 on lefft", "left"},
  };
  for (const auto& [spelled, meant] : table) {
    INFO(spelled);
    const test::Parsed parsed("stockinger 1\npiece p {\n  " + std::string(spelled) + "\n}\n");
    REQUIRE(parsed.findings.all().size() == 1);
    REQUIRE(parsed.findings.all().front().edits.size() == 1);
    CHECK(parsed.findings.all().front().edits.front().replacement == meant);
  }
}

TEST_CASE("a mend that is certain takes its finding away") {
  std::size_t mended = 0;
  for (const Case& one : cases) {
    const std::string text = "stockinger 1\n" + one.text;
    const test::Parsed parsed(text);
    std::vector<findings::Edit> edits;
    for (const findings::Finding& f : parsed.findings.all()) {
      for (const findings::Edit& edit : f.edits) {
        if (edit.confidence == findings::Confidence::certain) edits.push_back(edit);
      }
    }
    if (edits.empty()) continue;
    std::sort(edits.begin(), edits.end(), [](const auto& a, const auto& b) { return a.span.begin > b.span.begin; });
    std::string after = text;
    for (const findings::Edit& edit : edits)
      after.replace(edit.span.begin, edit.span.end - edit.span.begin, edit.replacement);
    INFO(after);
    std::size_t certain = 0;
    for (const findings::Finding& f : parsed.findings.all()) {
      certain += std::any_of(f.edits.begin(), f.edits.end(),
                             [](const auto& e) { return e.confidence == findings::Confidence::certain; });
    }
    CHECK(codes_of(after).size() == parsed.findings.all().size() - certain);
    ++mended;
  }
  CHECK(mended >= 10);
}

TEST_CASE("what is broken leaves the rest of the tree whole") {
  const test::Parsed parsed("stockinger 1\nlet a = 3 +\nlet b = 4\nedition mid {\n  gague 3\n  machine mid_gauge\n}\n");
  CHECK(syntax::dump(parsed.file) == "version 1\nlet a = ?\nlet b = 4\nedition mid\n  machine mid_gauge\n");
  CHECK(parsed.file.items[0].broken);
  CHECK_FALSE(parsed.file.items[1].broken);
  CHECK(parsed.file.items[2].broken);
}

TEST_CASE("the pages of the S codes show what they say") {
  for (int number = 1; number <= 19; ++number) {
    const std::string name = (number < 10 ? "S0" : "S") + std::to_string(number);
    INFO(name);
    const auto code = findings::find_code(name);
    REQUIRE(code);
    const std::string page(findings::explanation(*code));
    std::vector<std::string> blocks;
    for (std::size_t at = page.find("```stk\n"); at != std::string::npos; at = page.find("```stk\n", at)) {
      at += 7;
      const std::size_t end = page.find("```", at);
      blocks.push_back(page.substr(at, end - at));
      at = end + 3;
    }
    if (name == "S15") {  // bytes that are no text cannot stand on a page: see "what is no text is not read"
      REQUIRE(blocks.size() == 1);
      CHECK(codes_of(blocks[0]).empty());
      continue;
    }
    REQUIRE(blocks.size() == 2);
    const auto found = codes_of(blocks[0]);
    REQUIRE(found.size() == (name == "S19" ? 201 : 1));
    CHECK(found.back().substr(found.back().find(' ') + 1) == name);
    CHECK(codes_of(blocks[1]).empty());
  }
}
