// Names declared, used, misspelt, hidden and never used.
#include <catch2/catch.hpp>

#include "tests/unit/names/checked.hpp"

using namespace stk;
using names::Checked;
using names::codes;

TEST_CASE("lets at the head of a pattern stand in any order") {
  CHECK(codes("let half = body / 2\nlet body = 48 sts\n") == "");
}

TEST_CASE("an unknown name is told once, with the nearest one and its edit") {
  Checked checked;
  checked.check("let body = 48 sts\nlet half = boddy / 2\nlet third = boddy / 3\n");
  CHECK(checked.codes() == "N01:3");
  CHECK(checked.only().helps.at(0) == "the nearest is `body`");
  CHECK(checked.mended() == "let body = 48 sts\nlet half = body / 2\nlet third = boddy / 3\n");
}

TEST_CASE("an edit is certain only for one name one letter away") {
  Checked checked;
  checked.check("let leg_a = 4 rows\nlet leg_b = 4 rows\nlet both = leg_c + 2 rows\n");
  CHECK(checked.codes() == "N01:4");
  CHECK(checked.only().edits.at(0).confidence == findings::Confidence::likely);
}

TEST_CASE("a broken line brings no second finding about its names") {
  Checked checked;
  checked.check("let body = 48 *\nlet half = body / 2\n");
  CHECK(checked.findings.all().size() == 1);  // the syntax mistake
}

TEST_CASE("two of one name are told with both places") {
  Checked checked;
  checked.check("let cuff = 20 rows\nlet cuff = 24 rows\n");
  CHECK(checked.codes() == "N02:3");
  CHECK(checked.sources[checked.only().labels.at(0).span.file].position(checked.only().labels.at(0).span.begin).line ==
        2);
}

TEST_CASE("a let, a section, a piece and a technique may share a name") {
  CHECK(codes("let sole = 10 sts\ntechnique sole() {\n  knit 2 rows\n}\npiece sole {\n  section sole \"Sole\"\n"
              "  work sole()\n  expect sole\n}\n") == "");
}

TEST_CASE("what nothing asks for is a warning once there is a piece") {
  const std::string lets = "let cuff = 20 rows\nlet spare = 3 rows\n";
  CHECK(codes(lets) == "");
  CHECK(codes(lets + "piece sock {\n  knit cuff\n}\n") == "N03:3");
  CHECK(codes(lets + "piece sock {\n  let more = cuff\n  knit 2 rows\n}\n") == "N03:3 N03:5");
  CHECK(codes("setting fit = 90%, from 80% to 100%, \"how close\"\npiece sock {\n  knit 2 rows\n}\n") == "N03:2");
  CHECK(codes("technique two() {\n  knit 2 rows\n}\npiece sock {\n  knit 2 rows\n}\n") == "N03:2");
  CHECK(codes("use heels\npiece sock {\n  knit 2 rows\n}\n") == "N03:2");
}

TEST_CASE("what a used library does not give to this pattern is no finding") {
  CHECK(codes("use heels\npiece sock {\n  work short_row_heel(right half, down_to: 8)\n}\n") == "");
}

TEST_CASE("a circle of lets is told once with its chain") {
  Checked checked;
  checked.check("let a = b + 1\nlet b = c + 1\nlet c = a + 1\nlet d = a\n");
  CHECK(checked.codes() == "N04:2");
  CHECK(checked.only().notes.at(0) == "a needs b needs c needs a");
  CHECK(codes("let a = a + 1\n") == "N04:2");
  CHECK(codes("let f(n) = f(n - 1)\nlet h = f(3)\n") == "N04:2");
}

TEST_CASE("inside a piece names are known from their line on") {
  CHECK(codes("piece sock {\n  knit plain\n  let plain = 4 rows\n  knit plain\n}\n") == "N16:3");
  CHECK(codes("piece sock {\n  knit plain\n  let plain = 4 rows\n}\n") == "N16:3");
  CHECK(codes("piece sock {\n  if 1 < 2 {\n    let inner = 4 rows\n    knit inner\n  }\n  knit inner\n}\n") == "N01:7");
  CHECK(codes("piece sock {\n  repeat 3 times as i {\n    knit i\n  }\n}\n") == "");
}

TEST_CASE("a let that hides a name is a warning, a parameter is not") {
  CHECK(codes("let n = 4 rows\npiece sock {\n  let n = 6 rows\n  knit n\n}\n") == "N03:2 N14:4");
  CHECK(codes("piece sock {\n  let n = 4 rows\n  if 1 < 2 {\n    let n = 6 rows\n    knit n\n  }\n  knit n\n}\n") ==
        "N14:5");
  CHECK(codes("piece sock {\n  let all = 4 rows\n  knit all\n}\n") == "N14:3");
  CHECK(codes("let widen = 4 sts\ntechnique toe(widen: sts) {\n  increase widen on left\n}\npiece sock {\n"
              "  work toe(widen: widen)\n}\n") == "");
}

TEST_CASE("capital letters in a name are mended wherever it is used") {
  Checked checked;
  checked.check("let Body = 48 sts\nlet half = Body / 2\n");
  CHECK(checked.codes() == "N15:2");
  CHECK(checked.mended() == "let body = 48 sts\nlet half = body / 2\n");
}

TEST_CASE("needles that are always there need no declaration") {
  CHECK(codes("piece sock {\n  hold all except 2 on right\n  bring empties into work\n  release held\n}\n") == "");
}

TEST_CASE("functions of the language and their arguments") {
  CHECK(codes("let a = max(1, 2, 3)\nlet b = abs(a)\nlet c = if odd(b) then 1 else 0\nlet d = evenly(7, among: 2, "
              "turn: 1)\n") == "");
  CHECK(codes("let a = abs(1, 2)\n") == "N10:2");
  CHECK(codes("let a = evenly(7, amongst: 2, turn: 1)\n") == "N07:2");
  CHECK(codes("let a = stiches(5 cm)\n") == "N01:2");
  CHECK(codes("let f(a, b) = a - b\nlet c = f(3)\n") == "N10:3");
  CHECK(codes("let f = 3\nlet c = f(3)\n") == "N10:3");
  CHECK(codes("let f(a) = 3\npiece sock {\n  knit f(3)\n}\n") == "N03:2");  // a is never used
}

TEST_CASE("sizes and editions in only for and except") {
  const std::string sizes = "sizes {\n  child_m women_m\n  foot_length 18.5 24.5 cm\n}\n";
  CHECK(codes(sizes + "piece sock {\n  only for child_m {\n    knit 2 rows\n  }\n}\n") == "");
  CHECK(codes(sizes + "piece sock {\n  only for child_s {\n    knit 2 rows\n  }\n}\n") == "N05:7");
  CHECK(codes(sizes + "let cuff = 20 except (childm: 16) rows\n") == "N05:6");
  CHECK(codes(sizes + "let cuff = 20 except (child_m: 16, child_m: 18) rows\n") == "G02:6");
}

TEST_CASE("yarns, charts, machines and counts are looked up") {
  const std::string edition =
      "edition mid {\n  machine mid_gauge\n  yarn main \"wool\", Nm 6.0/2\n  gauge 24 sts, 34 rows to 10 cm\n}\n";
  CHECK(codes(edition) == "");
  CHECK(codes(edition + "piece sock {\n  thread man\n}\n") == "N11:8");
  CHECK(codes(edition + "piece sock {\n  knit chart dots, centred\n}\n") == "N13:8");
  CHECK(codes("edition mid {\n  machine mid_guage\n}\n") == "N12:3");
  CHECK(codes("edition mid {\n  machine mid_gauge\n  yarn main \"wool\", Mn 6.0/2\n}\n") == "N27:4");
  CHECK(codes(edition + "let a = rows(2 cm, hem)\n") == "N22:7");
  CHECK(codes(edition + "edition mid {\n  machine mid_gauge\n}\n") == "N02:7");
}

TEST_CASE("a size and an edition cannot share a name") {
  CHECK(codes("edition mid {\n  machine mid_gauge\n}\nsizes {\n  mid large\n  foot 20 25 cm\n}\n") == "N02:6");
}
