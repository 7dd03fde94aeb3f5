#include "compiler/document/graded.hpp"

#include <catch2/catch.hpp>

#include "tests/unit/document/told.hpp"

using namespace stk::document;
using stk::test::plain;

TEST_CASE("a graded number has the first size first and the others in parentheses") {
  CHECK(plain(graded({"48", "52", "56", "60"}, 15, 15)) == "48 (52, 56, 60)");
  CHECK(plain(graded({"48", "48", "48", "48"}, 15, 15)) == "48");
  CHECK(plain(graded({"48", std::nullopt, "48", "48"}, 15, 15)) == "48 (-, 48, 48)");
}

TEST_CASE("a text for some sizes keeps every size in its place") {
  CHECK(plain(graded({"1", "2", "3", "4"}, 15, 0b1100)) == "- (-, 3, 4)");
  CHECK(plain(graded({"1", "2", "3", "3"}, 15, 0b1100)) == "3");
}

TEST_CASE("the text of one size has its number alone") {
  CHECK(plain(graded({"48", "52", "56", "60"}, 0b0100, 0b0100)) == "56");
  CHECK(plain(graded({"48", "52", std::nullopt, "60"}, 0b0100, 0b0100)) == "-");
}

TEST_CASE("a line may end inside a run but not after its first number") {
  CHECK(graded({"48", "52"}, 3, 3) == "48\u00A0(52)");
}

TEST_CASE("counted nouns") {
  CHECK(plain(counted({"1", "1"}, "row", 3, 3)) == "1 row");
  CHECK(plain(counted({"1", "2"}, "row", 3, 3)) == "1 (2) rows");
  CHECK(plain(counted({"3", "3"}, "st", 3, 3)) == "3 sts");
}

TEST_CASE("titles that differ in their numbers are one text with graded numbers") {
  const std::vector<std::string> titles{"Toe, from 10 to 18 sts", "Toe, from 12 to 18 sts"};
  CHECK(plain(merged(titles, 3, 3).value()) == "Toe, from 10 (12) to 18 sts");
  CHECK(plain(merged({"To 10, then on", "To 12, then on"}, 3, 3).value()) == "To 10 (12), then on");
  CHECK(merged({"Toe", "Toe"}, 3, 3) == "Toe");
  CHECK(merged({"Toe"}, 3, 3) == "Toe");
  CHECK_FALSE(merged({"Toe", "A rounded toe"}, 3, 3).has_value());
}
