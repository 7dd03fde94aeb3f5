// Conversions against Debian's `units` (GNU Units 2.22, whose definitions are kept by other people) and against
// constants as their standards publish them.
#include <array>
#include <catch2/catch.hpp>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <string>

#include "compiler/values/yarn_count.hpp"

using namespace stk::values;

namespace {

// What `units` gives for so much of one unit in another, with 15 digits. A missing program fails the test.
double by_units(const std::string& have, const std::string& want) {
  const std::string command = "LC_ALL=C units -t -d 15 '" + have + "' '" + want + "' 2>/dev/null";
  std::array<char, 128> line{};
  FILE* pipe = popen(command.c_str(), "r");
  const bool read = pipe && std::fgets(line.data(), static_cast<int>(line.size()), pipe) != nullptr;
  const int status = pipe ? pclose(pipe) : -1;
  if (!read || status != 0) {
    FAIL("the program `units` is missing or does not know " << have << ": install the package units");
  }
  return std::strtod(line.data(), nullptr);
}

double ours(const Rational& value) {
  return std::strtod(decimal(value, 18).c_str(), nullptr);
}

void agree(const Rational& value, double reference) {
  INFO(exact(value) << " = " << decimal(value, 12) << ", units says " << reference);
  CHECK(std::abs(ours(value) - reference) <= 1e-13 * std::abs(reference));
}

Rational in_base(const char* amount, const char* unit) {
  return in_unit(*from_digits(amount), *find_unit(unit))->value;
}

}  // namespace

TEST_CASE("lengths and masses agree with units") {
  for (const char* unit : {"mm", "cm", "m", "in", "ft", "yd"}) agree(find_unit(unit)->factor, by_units(unit, "mm"));
  for (const char* unit : {"g", "kg", "oz", "lb"}) agree(find_unit(unit)->factor, by_units(unit, "g"));
  agree(find_unit("tex")->factor, by_units("tex", "g/mm"));
}

TEST_CASE("foot lengths in inches agree with units") {
  // From a newborn's 3 to a large man's 12 inches, by eighths.
  for (int eighths = 24; eighths <= 96; eighths += 3) {
    const Rational millimetres = *multiply(*Rational::fraction(eighths, 8), find_unit("in")->factor);
    agree(millimetres, by_units(std::to_string(eighths) + "|8 in", "mm"));
  }
}

TEST_CASE("yarn counts agree with units") {
  struct Pair {
    CountSystem system;
    const char* units_name;
  };
  for (const Pair& pair : {Pair{CountSystem::metric, "metricyarncount"}, Pair{CountSystem::cotton, "cottonyarncount"},
                           Pair{CountSystem::worsted, "worstedyarncount"}, Pair{CountSystem::linen, "linenyarncount"},
                           Pair{CountSystem::run, "1600 yard/pound"}}) {
    for (const char* count : {"1", "9.5", "24", "30", "80"}) {
      const double reference = by_units(std::string("1/(") + count + " " + pair.units_name + ")", "tex");
      agree(*tex_of(pair.system, *from_digits(count)), reference);
    }
  }
  agree(*tex_of(CountSystem::denier, 70), by_units("70 denier", "tex"));
  agree(*tex_of(CountSystem::dtex, 78), by_units("78 dtex", "tex"));
}

TEST_CASE("a label's metres to grams agree with units as a count") {
  struct Label {
    const char *metres, *grams;
  };
  for (const Label& label : {Label{"420", "100"}, Label{"210", "50"}, Label{"85", "50"}, Label{"112.5", "75"}}) {
    const auto count = divide(*in_unit(*from_digits(label.grams), *find_unit("g")),
                              *in_unit(*from_digits(label.metres), *find_unit("m")));
    agree(*amount_in(*count, *find_unit("tex")), by_units(std::string(label.grams) + " g/(" + label.metres + " m)", "tex"));
  }
}

TEST_CASE("published constants hold digit for digit") {
  // International yard and pound agreement of 1959 (0.9144 m, 0.45359237 kg; NIST Special Publication 811, appendix B).
  CHECK(exact(in_base("1", "yd")) == "4572/5");
  CHECK(decimal(in_base("1", "yd"), 1) == "914.4");
  CHECK(decimal(in_base("1", "in"), 1) == "25.4");
  CHECK(decimal(in_base("1", "lb"), 5) == "453.59237");
  CHECK(decimal(in_base("1", "oz"), 9) == "28.349523125");
  // ISO 1144: tex is a gram to the kilometre. A cone of Ne 30 is 19.68470825 tex (worked out from the two agreements
  // above).
  CHECK(decimal(*tex_of(CountSystem::cotton, 30), 8) == "19.68470825");
  CHECK(decimal(*tex_of(CountSystem::cotton, 1), 3) == "590.541");
  CHECK(decimal(*tex_of(CountSystem::worsted, 1), 3) == "885.812");
  CHECK(decimal(*tex_of(CountSystem::linen, 1), 3) == "1653.515");
  CHECK(decimal(*tex_of(CountSystem::run, 1), 3) == "310.034");
  // Common practice: Nm 80/2 is two ends of 12.5 tex.
  CHECK(decimal(*tex_of(CountSystem::metric, 80, 2), 1) == "25.0");
}
