// Numbers with dimensions: units, sums that must agree, products that make gauges, and the words for all of them.
#include "compiler/values/quantity.hpp"

#include <catch2/catch.hpp>
#include <set>
#include <string>

using namespace stk::values;

namespace {

Quantity q(const char* digits, const char* unit) {
  return *in_unit(*from_digits(digits), *find_unit(unit));
}
Quantity plain(const char* digits) {
  return {*from_digits(digits), {}};
}

}  // namespace

TEST_CASE("every unit has a source, a positive factor and a spelling of its own") {
  std::set<std::string_view> spellings;
  for (const Unit& unit : units()) {
    INFO(unit.spelling);
    CHECK(spellings.insert(unit.spelling).second);
    CHECK_FALSE(unit.source.empty());
    CHECK(unit.factor > Rational(0));
    CHECK(*Rational::fraction(unit.factor.numerator(), unit.factor.denominator()) == unit.factor);  // lowest terms
  }
  CHECK(find_unit("ell") == nullptr);
}

TEST_CASE("units are read into base units and back") {
  CHECK(q("1", "in").value == *from_digits("25.4"));
  CHECK(q("½", "in").value == *from_digits("12.7"));
  CHECK(*amount_in(q("1", "in"), *find_unit("cm")) == *from_digits("2.54"));
  CHECK(amount_in(q("1", "in"), *find_unit("sts")).reason() == Reason::different_dimensions);
  CHECK(q("90", "%") == plain("9/10"));
  CHECK(q("3", "needles") == q("3", "sts"));  // one dimension, two spellings
}

TEST_CASE("a gauge turns a length into stitches") {
  const Quantity gauge = *divide(q("24", "sts"), q("10", "cm"));
  CHECK(gauge.dimension == dimensions::sts_per_length);
  const Quantity body = *multiply(*multiply(q("22.5", "cm"), q("90", "%")), gauge);
  CHECK(body == Quantity{*from_digits("48.6"), dimensions::sts});
  CHECK(*divide(q("48", "sts"), gauge) == q("20", "cm"));
}

TEST_CASE("a sum or comparison of two dimensions is refused") {
  CHECK(add(q("3", "sts"), q("4", "rows")).reason() == Reason::different_dimensions);
  CHECK(subtract(q("3", "rows"), q("4", "rounds")).reason() == Reason::different_dimensions);
  CHECK(compare(q("3", "cm"), plain("3")).reason() == Reason::different_dimensions);
  CHECK(modulo(q("13", "sts"), q("2", "cm")).reason() == Reason::different_dimensions);
  CHECK(*add(q("1", "in"), q("1", "cm")) == q("35.4", "mm"));
  CHECK(*compare(q("1", "in"), q("2.5", "cm")) == std::strong_ordering::greater);
  CHECK(*modulo(q("13", "sts"), q("3", "sts")) == q("1", "st"));
}

TEST_CASE("trouble is passed on from the arithmetic") {
  CHECK(divide(q("3", "sts"), q("0", "cm")).reason() == Reason::division_by_zero);
  const Quantity huge{*from_digits("170141183460469231731687303715884105727"), dimensions::rows};
  CHECK(add(huge, huge).reason() == Reason::out_of_range);
  Quantity power = q("1", "m");
  for (int i = 0; i < 8; ++i) {
    const auto next = multiply(power, power);  // lengths to the 2, 4, 8 … 64, then beyond
    if (!next) {
      CHECK(next.reason() == Reason::out_of_range);
      return;
    }
    power = *next;
  }
  FAIL("an exponent grew without end");
}

TEST_CASE("dimensions are named in the trade's words") {
  using namespace dimensions;
  CHECK(describe(sts) == "stitches");
  CHECK(describe(rows) == "rows");
  CHECK(describe(length) == "a length");
  CHECK(describe(sts_per_length) == "stitches per length (a gauge)");
  CHECK(describe({}) == "a plain number");
  CHECK(describe(mass_per_length) == "weight per length (a yarn count)");
  CHECK(describe(*multiply(sts, rows)) == "stitches × rows");
  CHECK(describe(*divide(*multiply(sts, sts), length)) == "stitches² per length");
  CHECK(describe(*divide({}, *multiply(*multiply(length, length), *multiply(length, length)))) == "1 per length^4");
  CHECK(unit_word(sts_per_length) == "sts per cm");
}
