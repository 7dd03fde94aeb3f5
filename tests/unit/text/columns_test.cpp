// Cells of the screen. Widths are those of UAX #11 (East Asian Width), clusters those of UAX #29, both through utf8proc;
// the strings are common examples of each.
#include "compiler/text/columns.hpp"

#include <catch2/catch.hpp>
#include <string>

using stk::text::clusters;
using stk::text::display_width;
using stk::text::printable;
using stk::text::wrapped;
using Lines = std::vector<std::string>;

TEST_CASE("widths of characters") {
  CHECK(display_width("") == 0);
  CHECK(display_width("knit") == 4);
  CHECK(display_width("1½ in") == 5);
  CHECK(display_width("e\u0301") == 1);                    // combining acute accent
  CHECK(display_width("日本") == 4);
  CHECK(display_width("\U0001F9E6") == 2);                 // socks
  CHECK(display_width("\U0001F468\u200D\U0001F469\u200D\U0001F467") == 2);   // a family in one cluster
  CHECK(display_width("\U0001F1F3\U0001F1F4") == 2);       // a flag
  CHECK(clusters("\U0001F1F3\U0001F1F4").size() == 1);
}

TEST_CASE("a tab goes to the next fourth column") {
  CHECK(printable("\tx") == "    x");
  CHECK(printable("ab\tx") == "ab  x");
  CHECK(printable("abcd\tx") == "abcd    x");
  CHECK(clusters("ab\tx")[3].column == 4);
}

TEST_CASE("nothing in a source can move the cursor or turn the direction of writing") {
  CHECK(printable("a\x1B[31mb") == "a\uFFFD[31mb");
  CHECK(printable("a\u202Eb") == "a\uFFFDb");
  CHECK(printable("a\u2066b") == "a\uFFFDb");
  CHECK(printable("a\xFF" "b") == "a\uFFFDb");
  CHECK(printable("a\u009Bb") == "a\uFFFDb");
  CHECK(display_width("a\x1B") == 2);
}

TEST_CASE("text is wrapped at blanks") {
  CHECK(wrapped("", 10) == Lines{""});
  CHECK(wrapped("one two three", 7) == Lines{"one two", "three"});
  CHECK(wrapped("one two three", 9, "- ", "  ") == Lines{"- one two", "  three"});
  CHECK(wrapped("unbreakable as it is", 5) == Lines{"unbreakable", "as it", "is"});
  CHECK(wrapped("日本 日本 日本", 9) == Lines{"日本 日本", "日本"});
  CHECK(wrapped("one\ntwo", 80) == Lines{"one", "two"});
}
