// The library's feet against the 2012 anthropometric survey of US Army personnel, NATICK/TR-15/007 (percentiles worked
// out from its public records: data/foot_survey_summary.csv), and against lengths of children's feet published in
// Children 2022, 9(5), 750, table 1.
#include <catch2/catch.hpp>
#include <fstream>
#include <map>
#include <sstream>

#include "compiler/names/load.hpp"
#include "compiler/text/memory_files.hpp"
#include "compiler/values/rational.hpp"
#include "stdlib/library.hpp"
#include "tests/oracles/data_table.hpp"
#include "tests/oracles/worked_out.hpp"

using namespace stk;
using values::Rational;

namespace {

constexpr const char* all_sizes =
    "infant_s infant_m infant_l toddler_m child_s child_m child_l women_xs women_s women_m women_l women_xl men_xs men_s "
    "men_m men_l men_xl";

// The library's table as a pattern would take it: row, size, value in mm.
std::map<std::string, std::map<std::string, Rational>> library_feet() {
  text::MemoryFiles files(stdlib::files());
  text::Sources sources;
  findings::Findings findings;
  const auto main =
      sources.add("sock.stk", "stockinger 1\nsizes {\n  " + std::string(all_sizes) +
                                  "\n  from feet foot_length, foot_around, ankle_around, heel_around, calf_around, ankle_height, "
                               "knee_height\n}\n");
  const names::Program program = names::load(main.id(), files, sources, findings);
  REQUIRE(findings.all().empty());
  std::map<std::string, std::map<std::string, Rational>> feet;
  for (const names::Measure& measure : program.sizes.measures) {
    REQUIRE(measure.unit);
    REQUIRE(measure.unit->text == "cm");
    for (std::size_t i = 0; i < program.sizes.size(); ++i) {
      REQUIRE(measure.cells[i]);
      if (measure.cells[i]->dash) continue;   // no source was found
      feet[measure.name][program.sizes.columns[i].name] =
          *values::multiply(*values::from_digits(measure.cells[i]->digits), 10);
    }
  }
  return feet;
}

// measure and sex -> column -> value as it stands there.
auto table_of(const std::string& name) {
  return oracles::data_table(name, [](const std::string& cell) { return values::Rational(*values::from_digits(cell)); });
}

std::map<std::string, std::map<std::string, Rational>> survey() {   // mm
  auto table = table_of("foot_survey_summary.csv");
  REQUIRE(table.size() == 14);
  return table;
}

const std::map<std::string, std::string> in_survey{{"foot_length", "footlength"},
                                                   {"foot_around", "balloffootcircumference"},
                                                   {"ankle_around", "anklecircumference"},
                                                   {"heel_around", "heelanklecircumference"},
                                                   {"calf_around", "calfcircumference"},
                                                   {"ankle_height", "lateralmalleolusheight"}};

}  // namespace

TEST_CASE("adults' feet are the survey's percentiles to the millimetre") {
  const auto feet = library_feet();
  const auto published = survey();
  int compared = 0;
  for (const auto& [row, measure] : in_survey) {
    for (const std::string sex : {"women", "men"}) {
      for (const auto& [size, percentile] : {std::pair("xs", "p1"), std::pair("s", "p5"), std::pair("m", "p50"),
                                             std::pair("l", "p95"), std::pair("xl", "p99")}) {
        const Rational expected = values::nearest(published.at(measure + " " + sex).at(percentile));
        INFO(row << " " << sex << "_" << size);
        CHECK(values::exact(feet.at(row).at(sex + "_" + size)) == values::exact(expected));
        ++compared;
      }
    }
  }
  CHECK(compared == 60);
}

TEST_CASE("children's girths are estimated as SOURCES.md says, from proportions that the survey bears out") {
  const auto published = survey();
  const auto mean = [&](const char* measure, const char* sex) {
    return published.at(std::string(measure) + " " + sex).at("mean");
  };
  const auto close = [](const Rational& a, const char* b) {
    return values::absolute(*values::subtract(a, *values::from_digits(b))) < *values::from_digits("0.02");
  };
  // Ratios of means lie near the means of the ratios, which need each person's record: 0.93, 0.91 and 0.946, 1.364
  // and 1.361.
  for (const char* sex : {"men", "women"}) {
    CHECK(close(*values::divide(mean("balloffootcircumference", sex), mean("footlength", sex)), "0.93"));
    CHECK(close(*values::divide(mean("heelanklecircumference", sex), mean("balloffootcircumference", sex)), "1.3625"));
    CHECK(close(*values::divide(mean("anklecircumference", sex), mean("balloffootcircumference", sex)), "0.928"));
  }
  const auto feet = library_feet();
  for (const std::string size : {"infant_s", "infant_m", "infant_l", "toddler_m", "child_s", "child_m", "child_l"}) {
    INFO(size);
    const Rational length = feet.at("foot_length").at(size);
    const bool round_foot = size[0] != 'c';
    const Rational ball = *values::multiply(length, *values::from_digits(round_foot ? "1" : "0.93"));
    const auto millimetres = [](const Rational& value) { return values::exact(values::nearest(value)); };
    CHECK(values::exact(feet.at("foot_around").at(size)) == millimetres(ball));
    CHECK(values::exact(feet.at("ankle_around").at(size)) ==
          millimetres(*values::multiply(ball, *values::from_digits("0.928"))));
    CHECK(values::exact(feet.at("heel_around").at(size)) ==
          millimetres(*values::multiply(ball, *values::from_digits("1.3625"))));
  }
}

TEST_CASE("children's lengths lie where the published ones say") {
  const auto feet = library_feet();
  const auto length = [&](const char* size) { return feet.at("foot_length").at(size); };
  // Age 3: boys 156 ± 8, girls 153 ± 9 mm. A small child's size must reach that foot, a toddler's must lie below it.
  CHECK(length("child_s") >= Rational(156));
  CHECK(length("child_s") <= Rational(156 + 8));
  CHECK(length("toddler_m") < Rational(153));
  // A newborn's foot is about 76 mm (one record); girls of 17 years 234 ± 13 mm.
  CHECK(length("infant_s") > Rational(76));
  CHECK(length("child_l") < Rational(234 - 13));
}

TEST_CASE("every measure grows from size to size within its group") {
  for (const auto& [row, values_of] : library_feet()) {
    for (const char* group : {"infant_s infant_m infant_l toddler_m child_s child_m child_l women_m",
                              "women_xs women_s women_m women_l women_xl", "men_xs men_s men_m men_l men_xl"}) {
      std::stringstream sizes(group);
      std::string before, size;
      for (sizes >> before; sizes >> size; before = size) {
        if (!values_of.contains(before) || !values_of.contains(size)) continue;
        INFO(row << ": " << before << ", " << size);
        CHECK(values_of.at(before) < values_of.at(size));
      }
    }
  }
}

// 507 other adults, whom the survey did not measure. They are no soldiers: the ankle has no muscle and must agree, the
// soldiers' calves are thicker, but by less than one standard deviation.
TEST_CASE("ankles and calves agree with another open set as far as they should") {
  const auto army = survey();
  const auto others = table_of("body_girths.csv");
  REQUIRE(others.size() == 6);
  for (const std::string sex : {"women", "men"}) {
    const auto ours = [&](const std::string& measure) { return army.at(measure + "circumference " + sex).at("mean"); };
    const auto theirs = [&](const std::string& measure, const char* what) {
      return *values::multiply(others.at(measure + " " + sex).at(what), Rational(10));
    };
    INFO(sex);
    CHECK(values::absolute(*values::subtract(ours("ankle"), theirs("ankle", "mean"))) < Rational(5));   // mm
    const Rational thicker = *values::subtract(ours("calf"), theirs("calf", "mean"));
    CHECK(thicker > Rational(15));
    CHECK(thicker < theirs("calf", "sd"));
  }
}

TEST_CASE("what is published by age is what the table says") {
  text::MemoryFiles files(stdlib::files());
  text::Sources sources;
  findings::Findings findings;
  const auto main = sources.add("sock.stk", "stockinger 1\nsizes {\n girls_3 boys_3 girls_3_to_5 boys_3_to_5 girls_17 "
                                            "boys_18\n from feet_by_age foot_length\n}\n");
  const names::Program program = names::load(main.id(), files, sources, findings);
  REQUIRE(findings.all().empty());
  std::string row;   // Children 2022, 9(5), 750, table 1, its rows of 1,408 boys and 1,421 girls and of 36 boys and 52 girls
  for (const syntax::SizeValue* cell : program.sizes.measures.at(0).cells) row += cell->digits + " ";
  CHECK(row == "15.3 15.6 15.6 16.2 23.4 25.8 ");
}

// Ratios of means lie near the means of the ratios that SOURCES.md gives, which need each person's record.
TEST_CASE("the usual proportions are those of the survey, between men's and women's") {
  const auto army = survey();
  const auto means = [&](const char* over, const char* under) {
    Rational sum(0);
    for (const std::string sex : {" men", " women"})
      sum = *values::add(sum, *values::divide(army.at(over + sex).at("mean"), army.at(under + sex).at("mean")));
    return *values::divide(sum, Rational(2));
  };
  const std::vector<Rational> ours = oracles::worked_out(
      "feet", {"usual_foot_around(1 mm)", "usual_ankle_around(1 mm)", "usual_heel_around(1 mm)", "usual_calf_around(1 mm)"});
  const std::vector<Rational> theirs{means("balloffootcircumference", "footlength"),
                                     means("anklecircumference", "balloffootcircumference"),
                                     means("heelanklecircumference", "balloffootcircumference"),
                                     means("calfcircumference", "anklecircumference")};
  for (std::size_t i = 0; i < ours.size(); ++i) {
    INFO(values::decimal(ours[i], 4) << " and " << values::decimal(theirs[i], 4));
    CHECK(values::absolute(*values::subtract(ours[i], theirs[i])) < *values::from_digits("0.005"));
  }
}
