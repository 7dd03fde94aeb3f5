// One person's measures: which size they are made from, what they replace, and what is refused.
#include <map>
#include <string>

#include "compiler/values/format.hpp"
#include "tests/unit/service/knitted.hpp"

using namespace stk;

namespace {

const std::string sock = R"(stockinger 1
pattern "Tube" { by "Tidewrack Hosiery" }
sizes {
               small   middle   large
  printed     "Small" "Middle" "Large"
  shoe         36      39       42
  foot_length  23      25       27    cm
  foot_around  21      23       25    cm
  leg_length   12      14       16    cm
  cuff         -       4        5     cm
  heel_around  = foot_around * 136%
}
edition mid {
  machine mid_gauge
  yarn main "sport wool", 330 tex
  gauge 24 sts, 34 rows to 10 cm
}
let body = stitches(foot_around * 90%) rounded to even
let leg  = rows(leg_length) rounded to even
let top  = 10 (20, 30) rows
piece tube {
  cast on body, e-wrap, carriage right
  knit 4 rows
  hang comb
  knit leg + top - 4 rows
  bind off all, by latch
}
finish {
  weave in ends
}
)";

service::Checked made(const std::map<std::string, std::string>& measures, std::optional<std::string> size = {},
                      const std::string& source = sock) {
  text::MemoryFiles files(stdlib::files());
  service::Options options;
  options.measures = measures;
  options.size = std::move(size);
  return service::Session(files).check("tube.stk", source, options);
}

std::string variable(const service::Checked& checked, const std::string& name) {
  for (const knit::VariableFacts& v : checked.facts->editions.at(0).variables)
    if (v.name == name) return v.values.at(checked.facts->to_measure->size);
  return "none";
}

std::string refused(const std::map<std::string, std::string>& measures, std::optional<std::string> size = {}) {
  const service::Checked checked = made(measures, std::move(size));
  CHECK_FALSE(checked.usable());
  return checked.refusals.empty() ? "" : checked.refusals.front().reason + " | " + checked.refusals.front().help;
}

}  // namespace

TEST_CASE("the nearest size is the base, and its other numbers hold on") {
  const service::Checked checked = made({{"foot_length", "25.4cm"}, {"foot_around", "22 cm"}});
  REQUIRE(checked.usable());
  CHECK(checked.findings.empty());
  const knit::ToMeasureFacts& facts = *checked.facts->to_measure;
  CHECK(facts.size == 1);
  CHECK(facts.base == "Middle");
  CHECK_FALSE(facts.chosen);
  CHECK(facts.given == std::vector<std::string>{"foot_length", "foot_around"});
  CHECK(facts.taken == std::vector<std::string>{"shoe", "leg_length", "cuff"});
  CHECK(facts.worked_out == std::vector<std::string>{"heel_around"});
  CHECK(checked.names.printed[1] == "Made to measure");
  CHECK(variable(checked, "body") == "48 sts");  // 22 cm * 90 % * 2.4 = 47.52
  CHECK(variable(checked, "leg") == "48 rows");  // 14 cm of Middle
  CHECK(variable(checked, "top") == "20 rows");
  const auto& rows = checked.facts->body_measures;
  CHECK(values::quantity_text(*rows.back()[1]) == "29.9 cm");  // 22 * 136 %
  CHECK(values::quantity_text(*rows.back()[0]) == "28.6 cm");  // the other sizes stay as they are
}

TEST_CASE("a measure that is worked out may be given too") {
  const service::Checked given = made({{"heel_around", "30cm"}});
  REQUIRE(given.usable());
  CHECK(given.facts->to_measure->base == "Middle");  // 28.56, 31.28 and 34 cm: 5.0 % from Small, 4.1 % from Middle
}

TEST_CASE("the size to begin from may be named") {
  const service::Checked checked = made({{"foot_around", "21cm"}}, "large");
  REQUIRE(checked.usable());
  CHECK(checked.facts->to_measure->base == "Large");
  CHECK(checked.facts->to_measure->chosen);
  CHECK(variable(checked, "leg") == "54 rows");
  CHECK(variable(checked, "body") == "46 sts");
}

TEST_CASE("sizes without a value for what is given are passed over") {
  CHECK(made({{"cuff", "2cm"}}).facts->to_measure->base == "Middle");
}

TEST_CASE("what cannot be made is refused in words") {
  CHECK(refused({{"foot_lenght", "24cm"}}) ==
        "the sizes of this pattern have no measure `foot_lenght` | `foot_length` is near");
  CHECK(refused({{"width", "24cm"}}).find("they have shoe, foot_length") != std::string::npos);
  CHECK(refused({{"foot_length", "24sts"}}) ==
        "`foot_length` is a length, and 24sts is stitches | write it like `--measure foot_length=23cm`");
  CHECK(refused({{"foot_length", "24"}}).find("24 is a plain number") != std::string::npos);
  CHECK(refused({{"foot_length", "24,5cm"}}).find("`24,5cm` cannot be read") != std::string::npos);
  CHECK(refused({{"foot_length", "3m"}}) ==
        "300 cm as `foot_length` is out of reach of this pattern | its sizes go from 23 cm to 27 cm; 11.5 cm to 40.5 "
        "cm can "
        "be made from them");
  CHECK(refused({{"foot_length", "-24cm"}}).find("out of reach") != std::string::npos);
  CHECK(refused({{"foot_length", "24cm"}}, "lage").find("no size `lage`") != std::string::npos);
}

TEST_CASE("a measure is out of reach on both sides of its bounds") {
  CHECK(made({{"foot_length", "11.5cm"}}).usable());
  CHECK_FALSE(made({{"foot_length", "11.4cm"}}).usable());
  CHECK(made({{"foot_length", "40.5cm"}}).usable());
  CHECK_FALSE(made({{"foot_length", "40.6cm"}}).usable());
}

TEST_CASE("what the measures break is found in that size") {
  std::string eased = sock;
  eased.insert(eased.find("let body"), "ease around -12% to -8%\nfinished around = width(body)\n");
  CHECK(made({{"foot_around", "22cm"}}, {}, eased).usable());
  eased.replace(eased.find("rounded to even"), 15, "rounded to multiple of 8");
  const service::Checked checked = made({{"foot_around", "21.9cm"}}, "small", eased);
  CHECK_FALSE(checked.usable());
}

TEST_CASE("mistakes of the pattern come before what is wrong with the measures") {
  std::string broken = sock;
  broken.insert(broken.find("let body"), "let wrong = nowhere\n");
  const service::Checked checked = made({{"width", "24cm"}}, {}, broken);
  CHECK(checked.has_errors());
  CHECK(checked.refusals.empty());
}
