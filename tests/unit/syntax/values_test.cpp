// Values and needles: how each spelling is understood.
#include <catch2/catch.hpp>

#include "tests/unit/syntax/support.hpp"

using namespace stk;

namespace {

std::string value(const std::string& spelled) {
  const test::Parsed parsed("stockinger 1\nlet x = " + spelled + "\n");
  if (!parsed.findings.all().empty()) return "finding: " + parsed.findings.all().front().title;
  return syntax::dump(*std::get<syntax::Let>(parsed.file.items.front().node).value);
}

}  // namespace

TEST_CASE("spellings of values") {
  const std::pair<const char*, const char*> table[] = {
      // numbers and grades
      {"12", "12"},
      {"2.5 cm", "(unit 2.5 cm)"},
      {"1/2 in", "(unit 1/2 in)"},
      {"1 / 2 in", "(/ 1 (unit 2 in))"},
      {"1½ in", "(unit 1½ in)"},
      {"½", "½"},
      {"90%", "(unit 90 %)"},
      {"-16%", "(- (unit 16 %))"},
      {"12 (14, 15, -) cm", "(unit (grade 12 14 15 -) cm)"},
      {"12(14, -2)", "(grade 12 14 -2)"},
      {"5 except (infant_m: 3, men_l: -) sts", "(unit (but 5 infant_m:3 men_l:-) sts)"},
      // names, calls, units
      {"sock.gusset.left", "sock.gusset.left"},
      {"body sts", "(unit body sts)"},
      {"(body * 2 / 3) sts", "(unit (/ (* body 2) 3) sts)"},
      {"rows(2 * hem_depth, hem)", "(rows() (* 2 hem_depth) hem)"},
      {"heel(right half, down_to: 8)", "(heel() right_half down_to: 8)"},
      {"f(over: 2,\n  to: 3)", "(f() over: 2 to: 3)"},
      {"f()", "(f())"},
      {"half", "half"},
      {"row + left + main + all", "(+ (+ (+ row left) main) all)"},
      // the ladder
      {"a - 2 * b rounded to even", "(rounded (- a (* 2 b)) nearest even)"},
      {"a rounded up to multiple of 4 plus 1", "(rounded a up multiple 4 plus 1)"},
      {"a rounded down", "(rounded a down whole)"},
      {"a rounded to parity of half", "(rounded a nearest parity half)"},
      {"a - b - c", "(- (- a b) c)"},
      {"a / b * c mod d", "(mod (* (/ a b) c) d)"},
      {"a - (half - to_heel) as rows", "(- a (as (- half to_heel) rows))"},
      {"a-2", "(- a 2)"},
      {"a or b and not c is d", "(or a (and b (not (is c d))))"},
      {"n >= 2 sts and n < k", "(and (>= n (unit 2 sts)) (< n k))"},
      {"a is not b", "(is_not a b)"},
      {"if odd(n) then 1 st else 0 sts", "(if (odd() n) (unit 1 st) (unit 0 sts))"},
      {"a +\n  b", "(+ a b)"},
      // needles
      {"all except part", "(except all part)"},
      {"all except 2 on right and held", "(union (except all (on 2 right)) held)"},
      {"last of each 2 of (all except 2 on right)", "(of (last 1 of_each 2) (except all (on 2 right)))"},
      {"first 2 of each groups", "(first 2 of_each groups)"},
      {"middle 6", "(middle 6)"},
      {"middle of each 4", "(middle 1 of_each 4)"},
      {"middle 2 of each 4", "(middle 2 of_each 4)"},
      {"1 on far side of part", "(of (on 1 far_side) part)"},
      {"2 * n on carriage side", "(on (* 2 n) carriage_side)"},
      {"every other", "every_other"},
      {"every 3rd of main bed", "(of (every 3) main_bed)"},
      {"L12 to R5", "L12..R5"},
      {"R7", "R7"},
      {"middle + 1", "(+ middle 1)"},
      // texts
      {"\"Toe, from {begin} to {begin + 2 * widen} sts\"", "\"Toe, from {begin} to {(+ begin (* 2 widen))} sts\""},
      {R"("a \" mark and a \{ brace")", "\"a \" mark and a { brace\""},
      {"\"\"", "\"\""},
      // blanks and comments mean nothing
      {"a   +\t b # a comment", "(+ a b)"},
      {"f(a, # first\n  b)", "(f() a b)"},
  };
  for (const auto& [spelled, meant] : table) {
    INFO(spelled);
    CHECK(value(spelled) == meant);
  }
}

TEST_CASE("spellings that are refused, and how") {
  const std::pair<const char*, const char*> table[] = {
      {"body (3)", "a comma or the end of the line was expected here"},
      {"(2) (3)", "the end of the line was expected here"},
      {"2 (3) (4)", "the end of the line was expected here"},
      {"a b", "the end of the line was expected here"},
      {"a < b < c", "the end of the line was expected here"},
      {"", "a value was expected here"},
      {"a rounded", "how it is rounded (up, down, to even, to multiple of 4) was expected here"},
      {"a rounded to", "even, odd, `multiple of` or `parity of` was expected here"},
      {"a +", "an amount was expected here"},
      {"2 of", "needles was expected here"},
  };
  for (const auto& [spelled, why] : table) {
    INFO(spelled);
    const std::string got = value(spelled);
    CHECK(got.substr(0, 9) == "finding: ");
    if (std::string(why).find("comma") == std::string::npos) CHECK(got == "finding: " + std::string(why));
  }
}

TEST_CASE("a span covers its words and no blanks") {
  const test::Parsed parsed("stockinger 1\nlet x = (a + 2 cm)   # comment\n");
  const auto& let = std::get<syntax::Let>(parsed.file.items.front().node);
  CHECK(parsed.source.text(let.value->span) == "(a + 2 cm)");
  CHECK(parsed.source.text(let.name.span) == "x");
  CHECK(parsed.source.text(parsed.file.items.front().span) == "let x = (a + 2 cm)");
}
