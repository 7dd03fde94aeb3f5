// What is text and what is not. The cases of UTF-8 are those of table 3-7 of the Unicode Standard (chapter 3.9) and its
// examples of ill-formed sequences in the same chapter.
#include "compiler/text/encoding.hpp"

#include <catch2/catch.hpp>
#include <string>

#include "compiler/text/limits.hpp"

using stk::text::first_bad_utf8;
using stk::text::text_problem;
using namespace std::string_literals;

TEST_CASE("well-formed UTF-8 of every length") {
  for (const std::string& good : {"\x7F"s, "\xC2\x80"s, "\xDF\xBF"s, "\xE0\xA0\x80"s, "\xEC\xBF\xBF"s, "\xED\x9F\xBF"s,
                                  "\xEE\x80\x80"s, "\xEF\xBF\xBF"s, "\xF0\x90\x80\x80"s, "\xF4\x8F\xBF\xBF"s, ""s}) {
    CHECK_FALSE(first_bad_utf8("ab" + good + "c"));
  }
}

TEST_CASE("ill-formed UTF-8 is found at its first byte") {
  for (const std::string& bad : {"\x80"s, "\xBF"s, "\xC0\xAF"s, "\xC1\xBF"s, "\xE0\x9F\x80"s, "\xED\xA0\x80"s,
                                 "\xF0\x8F\x80\x80"s, "\xF4\x90\x80\x80"s, "\xF5\x80\x80\x80"s, "\xFF"s, "\xE2\x82"s,
                                 "\xF0\x9F\xA7"s, "\xC3"s}) {
    REQUIRE(first_bad_utf8("ab" + bad + "c"));
    CHECK(*first_bad_utf8("ab" + bad + "c") == 2);
    CHECK(*first_bad_utf8("ab" + bad) == 2);
  }
}

TEST_CASE("a source, an empty file and a byte order mark are no problem") {
  CHECK_FALSE(text_problem("stockinger 1\n"));
  CHECK_FALSE(text_problem(""));
  CHECK_FALSE(text_problem("\xEF\xBB\xBFstockinger 1\n"));
  CHECK(stk::text::without_byte_order_mark("\xEF\xBB\xBFx") == "x");
  CHECK(stk::text::without_byte_order_mark("x") == "x");
}

TEST_CASE("other encodings are named") {
  const std::string latin1 = "stockinger 1\n# Gr\xFC\xDF" "e\n";
  REQUIRE(text_problem(latin1));
  CHECK(*text_problem(latin1) ==
        "it is not in UTF-8: line 2 has a byte (hexadecimal FC) of another encoding; save it as UTF-8");
  std::string little, big;
  for (const char c : "stockinger 1\n"s) {
    little += {c, '\0'};
    big += {'\0', c};
  }
  for (const std::string& utf16 : {little, big, "\xFF\xFE" + little, "\xFE\xFF" + big}) {
    REQUIRE(text_problem(utf16));
    CHECK(*text_problem(utf16) == "it is in UTF-16; save it as UTF-8");
  }
}

TEST_CASE("what is no text is said to be none") {
  const std::string program = "\x7F" "ELF\x02\x01\x01\0\0\0\0\0\0\0\0\0\x03\0>\0\x01\0\0\0"s;
  const std::string picture = "\x89PNG\r\n\x1A\n\0\0\0\rIHDR"s;
  for (const std::string& binary : {program, picture, "stockinger 1\n\0"s}) {
    REQUIRE(text_problem(binary));
    CHECK(*text_problem(binary) == "it is not a text file; a source is plain text in UTF-8");
  }
}

TEST_CASE("the limit of a source's length, on both sides") {
  CHECK_FALSE(text_problem(std::string(stk::text::limits::source_bytes, 'x')));
  REQUIRE(text_problem(std::string(stk::text::limits::source_bytes + 1, 'x')));
  CHECK(*text_problem(std::string(50'000'000, 'x')) == "it has 47.7 MiB; a source may have 4 MiB at most");
}
