// Dimensions multiplied, and named in the trade's words.
#include "compiler/values/dimension.hpp"

#include <array>
#include <string_view>

namespace stk::values {

namespace {

constexpr int highest_exponent = 100;

struct Part {
  std::int8_t Dimension::*exponent;
  std::string_view plural;  // "stitches"
  std::string_view unit;    // as shown after a number
};
constexpr std::array<Part, 5> parts{{{&Dimension::sts, "stitches", "sts"},
                                     {&Dimension::rows, "rows", "rows"},
                                     {&Dimension::rounds, "rounds", "rounds"},
                                     {&Dimension::mass, "mass", "g"},
                                     {&Dimension::length, "length", "cm"}}};

std::optional<Dimension> combined(Dimension a, Dimension b, int sign) {
  Dimension result;
  for (const Part& part : parts) {
    const int exponent = a.*part.exponent + sign * (b.*part.exponent);
    if (exponent < -highest_exponent || exponent > highest_exponent) return std::nullopt;
    result.*part.exponent = static_cast<std::int8_t>(exponent);
  }
  return result;
}

// "stitches × rows per length": what stands above the line, then what stands below it.
std::string product(Dimension d, std::string_view Part::*word, std::string_view times, std::string_view per) {
  std::string above, below;
  for (const Part& part : parts) {
    const int exponent = d.*part.exponent;
    if (exponent == 0) continue;
    std::string& side = exponent > 0 ? above : below;
    if (!side.empty()) side += times;
    side += part.*word;
    const int power = exponent > 0 ? exponent : -exponent;
    if (power == 2) side += "²";
    if (power == 3) side += "³";
    if (power > 3) side += "^" + std::to_string(power);
  }
  if (above.empty()) above = "1";
  return below.empty() ? above : above + std::string(per) + below;
}

}  // namespace

std::optional<Dimension> multiply(Dimension a, Dimension b) {
  return combined(a, b, 1);
}
std::optional<Dimension> divide(Dimension a, Dimension b) {
  return combined(a, b, -1);
}

std::string describe(Dimension d) {
  using namespace dimensions;
  if (d == plain) return "a plain number";
  if (d == length) return "a length";
  if (d == mass) return "a weight";
  if (d == sts) return "stitches";
  if (d == rows) return "rows";
  if (d == rounds) return "rounds";
  if (d == sts_per_length) return "stitches per length (a gauge)";
  if (d == rows_per_length) return "rows per length (a gauge)";
  if (d == rounds_per_length) return "rounds per length (a gauge)";
  if (d == mass_per_length) return "weight per length (a yarn count)";
  if (d == Dimension{.length = 2}) return "an area";
  if (d == Dimension{.length = 1, .sts = -1}) return "length per stitch";
  if (d == Dimension{.length = 1, .rows = -1}) return "length per row";
  return product(d, &Part::plural, " × ", " per ");
}

std::string unit_word(Dimension d) {
  if (d == dimensions::plain) return "";
  if (d == dimensions::mass_per_length) return "tex";
  return product(d, &Part::unit, "·", " per ");
}

}  // namespace stk::values
