// Exact fractions: spelled, worked out, compared, shown, and what lies beyond their range.
#include "compiler/values/rational.hpp"

#include <catch2/catch.hpp>
#include <limits>

#include "compiler/text/limits.hpp"

using namespace stk::values;

namespace {

Rational frac(std::int64_t n, std::int64_t d) {
  return *Rational::fraction(n, d);
}
const Rational widest = *from_digits("170141183460469231731687303715884105727");  // 2^127 - 1

}  // namespace

TEST_CASE("a fraction is kept in lowest terms with its sign above") {
  CHECK(exact(frac(6, 4)) == "3/2");
  CHECK(exact(frac(6, -4)) == "-3/2");
  CHECK(exact(frac(0, -7)) == "0");
  CHECK(Rational::fraction(1, 0).reason() == Reason::division_by_zero);
}

TEST_CASE("numbers are read as they are spelled") {
  const auto spelled = [](const char* text) { return exact(*from_digits(text)); };
  CHECK(spelled("12") == "12");
  CHECK(spelled("007") == "7");
  CHECK(spelled("2.50") == "5/2");
  CHECK(spelled("0.1") == "1/10");
  CHECK(spelled("1/2") == "1/2");
  CHECK(spelled("½") == "1/2");
  CHECK(spelled("1½") == "3/2");
  CHECK(spelled("12¾") == "51/4");
  CHECK(spelled("⅔") == "2/3");
  CHECK(spelled("010") == "10");  // never octal
}

TEST_CASE("what is no number is said to be none") {
  for (const char* text :
       {"", ".", "1.", ".5", "1.5½", "1/2/3", "1/", "-1", "+1", " 1", "1 ", "1e5", "0x1F", "½½", "½1", "١"}) {
    INFO(text);
    const auto read = from_digits(text);
    REQUIRE_FALSE(read);
    CHECK(read.reason() == Reason::not_a_number);
  }
  CHECK(from_digits("1/0").reason() == Reason::division_by_zero);
}

TEST_CASE("digits are limited on both sides") {
  const std::string most(stk::text::limits::digits, '0');
  CHECK(from_digits(most).has_value());
  CHECK(from_digits(most + "0").reason() == Reason::too_many_digits);
  CHECK(from_digits("0." + std::string(stk::text::limits::digits, '0')).reason() == Reason::too_many_digits);
  CHECK(from_digits(std::string(stk::text::limits::digits, '9')).reason() == Reason::out_of_range);
  CHECK(from_digits("0." + std::string(62, '0') + "1").reason() == Reason::out_of_range);
  CHECK(from_digits("170141183460469231731687303715884105728").reason() == Reason::out_of_range);
  CHECK(exact(widest) == "170141183460469231731687303715884105727");
}

TEST_CASE("sums and products are exact") {
  CHECK(*add(frac(1, 3), frac(1, 6)) == frac(1, 2));
  CHECK(*subtract(frac(1, 3), frac(1, 2)) == frac(-1, 6));
  CHECK(*multiply(frac(2, 3), frac(9, 4)) == frac(3, 2));
  CHECK(*divide(frac(1, 2), frac(-1, 4)) == Rational(-2));
  CHECK(divide(1, 0).reason() == Reason::division_by_zero);
  // 8.5 rows to the inch over 23 cm: 8.5 * 230 / 25.4 rows, not a binary neighbour of it.
  CHECK(exact(*divide(*multiply(frac(17, 2), 230), frac(127, 5))) == "9775/127");
}

TEST_CASE("the remainder takes the sign of the divisor") {
  CHECK(*modulo(7, 3) == Rational(1));
  CHECK(*modulo(-7, 3) == Rational(2));
  CHECK(*modulo(7, -3) == Rational(-2));
  CHECK(*modulo(frac(7, 2), 2) == frac(3, 2));
  CHECK(modulo(7, 0).reason() == Reason::division_by_zero);
}

TEST_CASE("out of range is said and never wrapped") {
  CHECK(add(widest, 1).reason() == Reason::out_of_range);
  CHECK(add(-widest, -1).reason() == Reason::out_of_range);  // the one value that has no minus
  CHECK(subtract(-widest, 1).reason() == Reason::out_of_range);
  CHECK(multiply(widest, 2).reason() == Reason::out_of_range);
  CHECK(multiply(widest, widest).reason() == Reason::out_of_range);
  CHECK(divide(frac(1, 3), widest).reason() == Reason::out_of_range);
  CHECK(add(*divide(1, widest), frac(1, 2)).reason() == Reason::out_of_range);
  CHECK(*add(widest, -widest) == Rational(0));
  CHECK(*divide(widest, widest) == Rational(1));
  CHECK(-(-widest) == widest);
}

TEST_CASE("comparison works at full width") {
  CHECK(frac(1, 3) < frac(1, 2));
  CHECK(frac(-1, 2) < frac(-1, 3));
  CHECK(*divide(widest, 4) < *divide(widest, 2));
  const Rational below = *divide(*subtract(widest, 1), widest);
  CHECK(below < Rational(1));
  CHECK(below != Rational(1));
  CHECK(-widest < widest);
}

TEST_CASE("floor, ceil and nearest go the same way below zero") {
  struct Row {
    Rational value;
    int floor, ceil, nearest;
    bool tie;
  };
  for (const Row& row :
       {Row{frac(5, 2), 2, 3, 3, true}, Row{frac(-5, 2), -3, -2, -2, true}, Row{frac(7, 3), 2, 3, 2, false},
        Row{frac(-7, 3), -3, -2, -2, false}, Row{frac(-8, 3), -3, -2, -3, false}, Row{4, 4, 4, 4, false},
        Row{-4, -4, -4, -4, false}, Row{frac(1, 2), 0, 1, 1, true}, Row{frac(-1, 2), -1, 0, 0, true}}) {
    INFO(exact(row.value));
    CHECK(floor(row.value) == Rational(row.floor));
    CHECK(ceil(row.value) == Rational(row.ceil));
    CHECK(nearest(row.value) == Rational(row.nearest));
    CHECK(is_tie(row.value) == row.tie);
  }
  CHECK(exact(nearest(*divide(widest, 2))) == "85070591730234615865843651857942052864");
}

TEST_CASE("a whole number of 64 bits can be had as one") {
  CHECK(Rational(-7).as_int64() == -7);
  CHECK(frac(7, 2).as_int64() == std::nullopt);
  CHECK(from_digits("9223372036854775807")->as_int64() == std::numeric_limits<std::int64_t>::max());
  CHECK(from_digits("9223372036854775808")->as_int64() == std::nullopt);
  CHECK((-*from_digits("9223372036854775808")).as_int64() == std::numeric_limits<std::int64_t>::min());
}

TEST_CASE("decimals have exactly the places asked for, ties up") {
  CHECK(decimal(frac(1, 3), 2) == "0.33");
  CHECK(decimal(frac(2, 3), 2) == "0.67");
  CHECK(decimal(frac(1, 8), 2) == "0.13");
  CHECK(decimal(frac(-1, 8), 2) == "-0.12");
  CHECK(decimal(frac(-1, 1000), 2) == "0.00");
  CHECK(decimal(12, 0) == "12");
  CHECK(decimal(frac(5, 2), 0) == "3");
  CHECK(decimal(frac(-1, 20), 1) == "0.0");
  CHECK(decimal(-12, 1) == "-12.0");
}
