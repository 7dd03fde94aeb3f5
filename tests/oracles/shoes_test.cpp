// The library's shoe sizes against the program shoe-size-converter 1.0.1 (npm, MIT licence; its results recorded in
// data/shoe_size_converter.csv), against a published check (US men 10, UK 9, EU 42.6, 271 mm), and against Debian's
// program `units`, whose convention is another one.
#include <array>
#include <catch2/catch.hpp>
#include <cstdio>
#include <fstream>
#include <map>
#include <sstream>
#include <string>
#include <utility>
#include <vector>

#include "compiler/values/rational.hpp"
#include "compiler/values/rounding.hpp"
#include "tests/oracles/worked_out.hpp"

using namespace stk;
using oracles::worked_out;
using values::Rational;

namespace {

Rational one(const std::string& expression) {
  return worked_out("shoes", {expression}).front();
}

Rational in_steps(const Rational& value, const char* step) {
  return values::round(value, values::RoundTowards::nearest, *values::from_digits(step), Rational(0))->value;
}

struct Line {
  std::string from, size, to, who, result;
};

std::vector<Line> recorded() {
  std::ifstream file(STK_SOURCE_DIR "/tests/oracles/data/shoe_size_converter.csv");
  std::vector<Line> lines;
  bool head = true;
  for (std::string text; std::getline(file, text);) {
    if (text.empty() || text[0] == '#') continue;
    if (std::exchange(head, false)) continue;
    std::stringstream row(text);
    Line line;
    for (std::string* cell : {&line.from, &line.size, &line.to, &line.who, &line.result}) std::getline(row, *cell, ',');
    lines.push_back(line);
  }
  return lines;
}

// "us", "women" -> "us_women_a"; Europe has one scale for all.
std::string scale(const std::string& system, const std::string& who) {
  if (system == "eu" || (system == "uk" && who == "adult")) return system;
  return system + "_" + (who == "women" ? "women_a" : who);
}

// What a command prints, without the line end.
std::string output_of(const std::string& command) {
  std::string text;
  FILE* const pipe = popen(command.c_str(), "r");
  REQUIRE(pipe);
  std::array<char, 256> buffer{};
  while (std::fgets(buffer.data(), static_cast<int>(buffer.size()), pipe)) text += buffer.data();
  REQUIRE(pclose(pipe) == 0);
  while (!text.empty() && text.back() == '\n') text.pop_back();
  return text;
}

}  // namespace

TEST_CASE("every size that the other program gives is ours, in both directions") {
  const std::vector<Line> lines = recorded();
  REQUIRE(lines.size() == 355);
  std::vector<std::string> expressions;
  for (const Line& line : lines)
    expressions.push_back(line.from == "mondopoint" ? scale(line.to, line.who) + "_of_foot(" + line.size + " mm)"
                                                    : "foot_of_" + scale(line.from, line.who) + "(" + line.size + ")");
  const std::vector<Rational> ours = worked_out("shoes", expressions);
  for (std::size_t i = 0; i < lines.size(); ++i) {
    INFO(expressions[i] << ", recorded " << lines[i].result);
    CHECK(values::exact(in_steps(ours[i], lines[i].to == "mondopoint" ? "5" : "1/2")) ==
          values::exact(*values::from_digits(lines[i].result)));
  }
}

TEST_CASE("the published check: US men 10, UK 9, EU 42.6 and 271 mm are one size") {
  CHECK(values::nearest(one("foot_of_us_men(10)")) == Rational(271));
  CHECK(one("foot_of_us_men(10)") == one("foot_of_uk(9)"));
  CHECK(values::decimal(one("eu_of_foot(foot_of_uk(9))"), 1) == "42.6");
  CHECK(values::nearest(one("foot_of_eu(42.6)")) == Rational(271));
  CHECK(one("mondopoint_size(271 mm)") == Rational(270));
  CHECK(one("us_women_a_of_foot(foot_of_us_men(10))") == Rational(11));
  CHECK(values::exact(one("us_women_b_of_foot(foot_of_us_men(10))")) == "23/2");
}

TEST_CASE("each scale leads back to where it came from") {
  std::vector<std::string> there;
  std::vector<int> sizes;
  for (const char* name : {"mondopoint", "uk", "uk_child", "us_men", "us_women_a", "us_women_b", "us_child", "sock"})
    for (int size = 1; size <= 13; ++size) {
      there.push_back(std::string(name) + "_of_foot(foot_of_" + name + "(" + std::to_string(size) + "))");
      sizes.push_back(size);
    }
  for (int size = 15; size <= 50; ++size) {
    there.push_back("eu_of_foot(foot_of_eu(" + std::to_string(size) + "))");
    sizes.push_back(size);
  }
  const std::vector<Rational> back = worked_out("shoes", there);
  for (std::size_t i = 0; i < back.size(); ++i) {
    INFO(there[i]);
    CHECK(back[i] == Rational(sizes[i]));
  }
}

TEST_CASE("where children's European sizes end and adults' begin, no size is passed over and none comes twice") {
  CHECK(values::decimal(one("foot_of_eu(32)"), 1) == "197.5");  // the child's rule; the adult's would say 200
  CHECK(values::decimal(one("foot_of_eu(32.5)"), 1) == "203.3");
  for (const char* foot : {"197.6", "198.5", "200"}) {
    INFO(foot);
    CHECK(one("eu_of_foot(" + std::string(foot) + " mm)") == Rational(32));
  }
  Rational before(0);
  for (int foot = 190; foot <= 210; ++foot) {
    const Rational size = one("eu_of_foot(" + std::to_string(foot) + " mm)");
    CHECK(size >= before);
    before = size;
  }
}

TEST_CASE("sock sizes hold the centimetre below and above") {
  CHECK(one("sock_size(22.1 cm)") == Rational(23));
  CHECK(one("sock_size(23.9 cm)") == Rational(23));
  CHECK(one("sock_size(24 cm)") == Rational(25));  // what lies just between goes up
}

// `units` takes a size for the length of the shoe's last: 8¼ in and a third of an inch for each size. Against our foot
// length that is an allowance of 0.917 in, or 2¾ sizes where ISO/TS 19407 takes two: three quarters of a size.
TEST_CASE("the program units measures the last, three quarters of a size away") {
  const std::string theirs = output_of("units --compact --terse --output-format '%.6f' 'shoesize_men(10)' mm");
  const double last = std::stod(theirs);
  CHECK(last == Approx(294.216667).margin(0.001));
  const Rational ours = one("foot_of_us_men(10)");
  const double foot = static_cast<double>(ours.numerator()) / static_cast<double>(ours.denominator());
  CHECK((last - foot) / 8.466667 == Approx(2.75).margin(0.01));
  // A Paris point is two thirds of a centimetre there as here.
  CHECK(std::stod(output_of("units --compact --terse --output-format '%.6f' europeshoesize mm")) ==
        Approx(6.666667).margin(0.0001));
  CHECK(values::exact(*values::subtract(one("foot_of_eu(41)"), one("foot_of_eu(40)"))) == "20/3");
}
