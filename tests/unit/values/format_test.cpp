// Numbers and measures as a reader sees them.
#include "compiler/values/format.hpp"

#include <catch2/catch.hpp>
#include <clocale>

using namespace stk::values;

namespace {

Quantity q(const char* digits, const char* unit) {
  return *in_unit(*from_digits(digits), *find_unit(unit));
}
Rational minus(const char* digits) {
  return -*from_digits(digits);
}

}  // namespace

TEST_CASE("numbers lose their trailing zeros and never their whole part") {
  CHECK(number_text(12) == "12");
  CHECK(number_text(100) == "100");
  CHECK(number_text(*from_digits("2.50")) == "2.5");
  CHECK(number_text(*from_digits("1/3")) == "0.33");
  CHECK(number_text(minus("1/1000")) == "0");
  CHECK(number_text(minus("2.5")) == "-2.5");
  CHECK(number_text(*from_digits("2.04"), 1) == "2");
  CHECK(number_text(10, 0) == "10");
}

TEST_CASE("lengths in centimetres and in quarters of an inch") {
  CHECK(centimetres(q("10.5", "cm").value) == "10.5");
  CHECK(centimetres(q("8", "in").value) == "20.3");
  CHECK(inches(q("4¼", "in").value) == "4¼");
  CHECK(inches(q("10", "cm").value) == "4");   // 3.937
  CHECK(inches(q("1.5", "cm").value) == "½");  // 0.59
  CHECK(inches(q("2", "mm").value) == "0");
  CHECK(inches(q("20.5", "cm").value) == "8");  // 8.07
  CHECK(inches(-q("2", "in").value) == "-2");
  CHECK(inches(q("1/8", "in").value) == "¼");  // a tie goes up
}

TEST_CASE("percentages have one place at most") {
  CHECK(percent(minus("1/6")) == "-16.7");
  CHECK(percent(*from_digits("0.95")) == "95");
}

TEST_CASE("quantities carry their unit") {
  CHECK(quantity_text(q("48", "sts")) == "48 sts");
  CHECK(quantity_text(q("1", "sts")) == "1 st");
  CHECK(quantity_text(q("1", "rows")) == "1 row");
  CHECK(quantity_text(q("48.6", "sts")) == "48.6 sts");
  CHECK(quantity_text(q("4", "in")) == "10.2 cm");
  CHECK(quantity_text(q("200", "tex")) == "200 tex");
  CHECK(quantity_text(q("1", "oz")) == "28.35 g");
  CHECK(quantity_text(q("150", "%")) == "1.5");
  CHECK(quantity_text(*divide(q("24", "sts"), q("10", "cm"))) == "2.4 sts per cm");
  CHECK(quantity_text(*multiply(q("2", "cm"), q("3", "cm"))) == "6 cm²");
  CHECK(amount_text(q("48", "sts")) == "48");
}

TEST_CASE("a locale with a decimal comma changes nothing") {
  // Where the machine has such a locale; without it the check says the same of the C locale.
  std::setlocale(LC_ALL, "de_DE.UTF-8");
  CHECK(number_text(*from_digits("1234.5")) == "1234.5");
  CHECK(centimetres(*from_digits("105")) == "10.5");
  std::setlocale(LC_ALL, "C");
}
