// Rounding as it is said: every form, both sides of zero, ties told, and what cannot be rounded.
#include "compiler/values/rounding.hpp"

#include <catch2/catch.hpp>

using namespace stk::values;

namespace {

Quantity sts(const char* digits) {
  return {*from_digits(digits), dimensions::sts};
}
Quantity number(const char* digits) {
  return {*from_digits(digits), {}};
}
Quantity cm(const char* digits) {
  return *in_unit(*from_digits(digits), *find_unit("cm"));
}
Quantity minus(Quantity q) {
  return {-q.value, q.dimension};
}

std::string rounded(const Quantity& q, const Rounding& how) {
  const auto result = round(q, how);
  if (!result) return "none";
  return exact(result->quantity.value) + (result->tie ? " tie" : "");
}

}  // namespace

TEST_CASE("a count is rounded to whole, even and odd") {
  CHECK(rounded(sts("48.6"), {}) == "49");
  CHECK(rounded(sts("48.5"), {}) == "49 tie");
  CHECK(rounded(minus(sts("48.5")), {}) == "-48 tie");
  CHECK(rounded(sts("48.6"), {.to = RoundTo::even}) == "48");
  CHECK(rounded(sts("49"), {.to = RoundTo::even}) == "50 tie");
  CHECK(rounded(minus(sts("49")), {.to = RoundTo::even}) == "-48 tie");
  CHECK(rounded(sts("48"), {.to = RoundTo::odd}) == "49 tie");
  CHECK(rounded(minus(sts("2.5")), {.to = RoundTo::odd}) == "-3");
  CHECK(rounded(sts("49"), {.to = RoundTo::odd}) == "49");
}

TEST_CASE("up and down go towards the greater and the smaller number") {
  CHECK(rounded(sts("48.1"), {.towards = RoundTowards::up}) == "49");
  CHECK(rounded(minus(sts("48.1")), {.towards = RoundTowards::up}) == "-48");
  CHECK(rounded(minus(sts("48.1")), {.towards = RoundTowards::down}) == "-49");
  CHECK(rounded(sts("49"), {.towards = RoundTowards::down, .to = RoundTo::even}) == "48");
  CHECK(rounded(sts("48"), {.towards = RoundTowards::up, .to = RoundTo::even}) == "48");
}

TEST_CASE("multiples, with what is added to them") {
  const auto multiple = [](const char* n) { return Rounding{.to = RoundTo::multiple, .operand = number(n)}; };
  CHECK(rounded(sts("54"), multiple("4")) == "56 tie");
  CHECK(rounded(sts("53.9"), multiple("4")) == "52");
  Rounding plus_1 = multiple("4");
  plus_1.offset = number("1");
  CHECK(rounded(sts("48"), plus_1) == "49");
  CHECK(rounded(sts("51"), plus_1) == "53 tie");
  CHECK(rounded(minus(sts("1")), plus_1) == "1 tie");
  Rounding minus_1 = multiple("4");
  minus_1.offset = minus(number("1"));
  CHECK(rounded(sts("48"), minus_1) == "47");
  CHECK(rounded(sts("5"), multiple("5/2")) == "5");
}

TEST_CASE("parity of another count") {
  const auto parity = [](Quantity x) { return Rounding{.to = RoundTo::parity, .operand = x}; };
  CHECK(rounded(sts("20"), parity(sts("7"))) == "21 tie");
  CHECK(rounded(sts("20.4"), parity(sts("8"))) == "20");
  CHECK(rounded(sts("20.4"), parity({Rational(-7), dimensions::rows})) == "21");  // sts to the parity of rows
  CHECK(round(sts("20"), parity(sts("7.5"))).reason() == Reason::not_whole);
}

TEST_CASE("the worked example of a round foot: 5½ sts to the inch, 6⅛ inches") {
  // 33.6875 sts, 32 as a multiple of 4 downwards (a published hand-knitting workshop sheet; see trade figures).
  const auto counted = multiply(*from_digits("5½"), *from_digits("6⅛"));
  CHECK(decimal(*counted, 4) == "33.6875");
  CHECK(rounded({*counted, dimensions::sts},
                {.towards = RoundTowards::down, .to = RoundTo::multiple, .operand = number("4")}) == "32");
}

TEST_CASE("a length is rounded to a multiple of a length only") {
  CHECK(rounded(cm("63.2"), {.towards = RoundTowards::up, .to = RoundTo::multiple, .operand = cm("5")}) == "650");
  CHECK(round(cm("63.2"), {}).reason() == Reason::needs_a_multiple);
  CHECK(round(cm("63.2"), {.to = RoundTo::even}).reason() == Reason::needs_a_multiple);
  CHECK(round(cm("63.2"), {.to = RoundTo::multiple, .operand = number("5")}).reason() == Reason::different_dimensions);
}

TEST_CASE("what cannot be a multiple") {
  CHECK(round(sts("5"), {.to = RoundTo::multiple, .operand = number("0")}).reason() == Reason::multiple_not_positive);
  CHECK(round(sts("5"), {.to = RoundTo::multiple, .operand = minus(number("4"))}).reason() ==
        Reason::multiple_not_positive);
  CHECK(round(sts("5"), {.to = RoundTo::multiple, .operand = cm("4")}).reason() == Reason::different_dimensions);
  CHECK(round(number("5.5"), {})->quantity.value == Rational(6));
  CHECK(round(number("5.5"), {})->changed);
  CHECK_FALSE(round(number("5"), {})->changed);
}

TEST_CASE("rounding keeps its promise for every form and a range of values") {
  for (int numerator = -300; numerator <= 300; ++numerator) {
    const Rational value = *Rational::fraction(numerator, 12);
    for (int step = 1; step <= 6; ++step) {
      for (int offset = -step; offset <= step; ++offset) {
        const Rational up = round(value, RoundTowards::up, step, offset)->value;
        const Rational down = round(value, RoundTowards::down, step, offset)->value;
        const RoundedNumber near = *round(value, RoundTowards::nearest, step, offset);
        REQUIRE(down <= value);
        REQUIRE(value <= up);
        REQUIRE(*subtract(up, down) == (up == down ? Rational(0) : Rational(step)));
        REQUIRE(modulo(*subtract(up, offset), step)->is_zero());
        const Rational above = *subtract(up, value), below = *subtract(value, down);
        REQUIRE(near.value == (above <= below ? up : down));
        REQUIRE(near.tie == (above == below && up != down));
      }
    }
  }
}
