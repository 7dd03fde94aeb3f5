// Expressions over all sizes at once: literals that take a neighbour's unit and names that do not, values that some sizes
// lack, and one finding for each mistake however many sizes have it.
#include <catch2/catch.hpp>
#include <string>

#include "compiler/grade/evaluate.hpp"
#include "compiler/names/load.hpp"
#include "compiler/names/resolve.hpp"
#include "compiler/text/memory_files.hpp"
#include "compiler/values/format.hpp"
#include "stdlib/library.hpp"

using namespace stk;
using findings::Code;

namespace {

// Lets of a pattern in three sizes, worked out.
struct Worked {
  text::Sources sources;
  findings::Findings findings;
  names::Program program;

  explicit Worked(const std::string& lets, const std::map<std::string, std::string>& set = {}) : settings(set) {
    const std::string text =
        "stockinger 1\npattern \"Lets\" {\n by \"Tidewrack Hosiery\"\n}\n"
        "sizes {\n small middle large\n foot 10 20 30 cm\n}\n"
        "edition mid {\n machine mid_gauge\n yarn main \"sport wool\", 330 tex\n gauge 24 sts, 34 rows to 10 cm\n"
        " gauge hem 24 sts, 38 rows to 10 cm, at MT - 2\n}\n" + lets;
    text::MemoryFiles files(stdlib::files());
    program = names::load(sources.add("lets.stk", text).id(), files, sources, findings);
    names::resolve(program, findings);
    REQUIRE_FALSE(findings.has_errors());
  }
  // "24 sts, 48 sts, 72 sts"
  std::string operator()(const std::string& name) {
    grade::Evaluator evaluator(program, 0, settings, findings);
    const auto value = evaluator.pattern_value(program.main().id, name);
    REQUIRE(value.has_value());
    std::string text;
    for (std::size_t i = 0; i < value->size(); ++i) text += (i ? ", " : "") + grade::text_of((*value)[i]);
    return text;
  }
  std::size_t count(Code code) const {
    std::size_t n = 0;
    for (const findings::Finding& finding : findings.all()) n += finding.code == code;
    return n;
  }
  std::map<std::string, std::string> settings;
};

std::string value_of(const std::string& expression) { return Worked("let x = " + expression + "\n")("x"); }

}  // namespace

TEST_CASE("one value for every size") {
  CHECK(value_of("12 (14, 15) sts") == "12 sts, 14 sts, 15 sts");
  CHECK(value_of("5 except (middle: 3) sts") == "5 sts, 3 sts, 5 sts");
  CHECK(value_of("4 (-, 6) sts") == "4 sts, -, 6 sts");
  CHECK(value_of("(4 (-, 6) sts) + 2") == "6 sts, -, 8 sts");   // what has no value stays without
  CHECK(value_of("foot * 2") == "20 cm, 40 cm, 60 cm");
}

TEST_CASE("by the gauge and back") {
  // 22 sts to 10 cm over 48 cm is 105.6 (a worked gauge of hand knitting); here 24 sts and 34 rows to 10 cm.
  CHECK(value_of("stitches(foot)") == "24 sts, 48 sts, 72 sts");
  CHECK(value_of("rows(foot)") == "34 rows, 68 rows, 102 rows");
  CHECK(value_of("rows(foot, hem)") == "38 rows, 76 rows, 114 rows");
  CHECK(value_of("rounds(foot)") == "34 rounds, 68 rounds, 102 rounds");
  CHECK(value_of("width(24 sts)") == "10 cm, 10 cm, 10 cm");
  CHECK(value_of("height(17 rows)") == "5 cm, 5 cm, 5 cm");
}

TEST_CASE("a bare literal takes its neighbour's unit, a name never does") {
  CHECK(value_of("stitches(foot) + 1") == "25 sts, 49 sts, 73 sts");
  CHECK(value_of("if stitches(foot) > 30 then 1 st else 2 sts") == "2 sts, 1 st, 1 st");
  Worked named("let one = 1\nlet x = stitches(foot) + one\n");
  CHECK(named("x") == "?, ?, ?");
  CHECK(named.count(Code::V01) == 1);   // one mistake in three sizes is one finding
}

TEST_CASE("rounding is the loosest of the arithmetic") {
  CHECK(value_of("stitches(foot * 90%) rounded to multiple of 4") == "20 sts, 44 sts, 64 sts");
  CHECK(value_of("stitches(foot) - 1 rounded up to even") == "24 sts, 48 sts, 72 sts");
  CHECK(value_of("7 (8, 9) sts / 2 rounded down") == "3 sts, 4 sts, 4 sts");
  CHECK(value_of("33.6875 sts rounded down to multiple of 4") == "32 sts, 32 sts, 32 sts");   // 5½ sts/in over 6⅛ in, a handbook's example
}

TEST_CASE("mixtures and fractions are said") {
  Worked mixed("let x = stitches(foot) + rows(foot)\n");
  CHECK(mixed("x") == "?, ?, ?");
  CHECK(mixed.count(Code::V01) == 1);
  Worked unit("let x = stitches(foot) cm\n");
  CHECK(unit("x") == "?, ?, ?");
  CHECK(unit.count(Code::V04) == 1);
  Worked zero("let none = 0 (1, 2) sts\nlet x = 10 / (none as count)\n");
  CHECK(zero("x") == "?, 10, 5");   // the other sizes go on
  CHECK(zero.count(Code::V02) == 1);
}

TEST_CASE("a condition is worked out for its own sizes only") {
  Worked safe("let none = 0 (1, 2) sts\nlet x = if none is 0 then 7 else 10 / (none as count)\n");
  CHECK(safe("x") == "7, 10, 5");
  CHECK_FALSE(safe.findings.has_errors());
}

TEST_CASE("below zero is an error where it is worked out") {
  Worked below("let toe = 40 rows\nlet x = rows(foot) - toe\n");
  CHECK(below("x") == "?, 28 rows, 62 rows");
  CHECK(below.count(Code::V07) == 1);
}

TEST_CASE("formulas and settings") {
  CHECK(Worked("let doubled(n) = 2 * n\nlet x = doubled(3 sts)\n")("x") == "6 sts, 6 sts, 6 sts");
  const std::string setting = "setting part = 33%, from 20% to 56% step 1%, \"How far the heel narrows\"\nlet x = 100 * part\n";
  CHECK(Worked(setting)("x") == "33, 33, 33");
  CHECK(Worked(setting, {{"part", "40%"}})("x") == "40, 40, 40");
  Worked outside(setting, {{"part", "60%"}});
  CHECK(outside("x") == "?, ?, ?");
  CHECK(outside.count(Code::V14) == 1);
  Worked between(setting, {{"part", "40.5%"}});
  CHECK(between("x") == "?, ?, ?");
  Worked unreadable(setting, {{"part", "a third"}});
  CHECK(unreadable("x") == "?, ?, ?");
  CHECK(unreadable.count(Code::V15) == 1);
}

TEST_CASE("shares of a total add up and differ by at most one") {
  // 140 rows over 36 turns: 4 of 3 and 32 of 4 (Budd 2010, after Brunette 1991).
  int threes = 0, fours = 0;
  for (int turn = 1; turn <= 36; ++turn) {
    const std::string share = value_of("evenly(140 rows, among: 36, turn: " + std::to_string(turn) + ")");
    threes += share == "3 rows, 3 rows, 3 rows";
    fours += share == "4 rows, 4 rows, 4 rows";
  }
  CHECK(threes == 4);
  CHECK(fours == 32);
}
