// Lines and columns: the one place that knows them.
#include "compiler/text/source.hpp"

#include <catch2/catch.hpp>
#include <string>

using stk::text::FileId;
using stk::text::Position;
using stk::text::Source;
using stk::text::Sources;
using stk::text::Span;

namespace {

Source source(std::string text) { return Source(FileId{3}, "a.stk", std::move(text)); }

bool at(Position position, std::uint32_t line, std::uint32_t column) {
  return position.line == line && position.column == column;
}

}  // namespace

TEST_CASE("an empty source has one line, which is empty") {
  const Source empty = source("");
  CHECK(empty.line_count() == 1);
  CHECK(empty.line(1).empty());
  CHECK(empty.line(0).empty());
  CHECK(empty.line(2).empty());
  CHECK(at(empty.position(0), 1, 1));
  CHECK(at(empty.position(99), 1, 1));
}

TEST_CASE("lines end at a line feed, with or without a carriage return") {
  const Source s = source("knit\r\nhold\n\nlast");
  REQUIRE(s.line_count() == 4);
  CHECK(s.line(1) == "knit");
  CHECK(s.line(2) == "hold");
  CHECK(s.line(3).empty());
  CHECK(s.line(4) == "last");
  CHECK(at(s.position(0), 1, 1));
  CHECK(at(s.position(6), 2, 1));
  CHECK(at(s.position(11), 3, 1));
  CHECK(at(s.position(16), 4, 5));   // the end of the text
}

TEST_CASE("a line end at the end of the text opens an empty line") {
  const Source s = source("knit\n");
  CHECK(s.line_count() == 2);
  CHECK(at(s.position(5), 2, 1));
}

TEST_CASE("a carriage return that ends no line stays part of it") {
  CHECK(source("a\rb").line(1) == "a\rb");
  CHECK(source("a\r").line(1) == "a\r");
}

TEST_CASE("columns count code points, and units of UTF-16 for editors") {
  // ½ has 2 bytes, 日 has 3, 🧦 (U+1F9E6) has 4 and is a pair in UTF-16.
  const Source s = source("x\n½日🧦z");
  CHECK(at(s.position(2), 2, 1));
  CHECK(at(s.position(4), 2, 2));
  CHECK(at(s.position(7), 2, 3));
  CHECK(at(s.position(11), 2, 4));
  CHECK(s.utf16_column(2) == 0);
  CHECK(s.utf16_column(4) == 1);
  CHECK(s.utf16_column(7) == 2);
  CHECK(s.utf16_column(11) == 4);
  CHECK(s.utf16_column(12) == 5);
}

TEST_CASE("the text of a span is cut to what is there") {
  const Source s = source("hold 4 sts");
  CHECK(s.text(Span{5, 6, s.id()}) == "4");
  CHECK(s.text(Span{5, 600, s.id()}) == "4 sts");
  CHECK(s.text(Span{500, 600, s.id()}).empty());
  CHECK(s.text(Span{6, 5, s.id()}).empty());
}

TEST_CASE("sources stay where they are while more are added") {
  Sources sources;
  const Source& first = sources.add("a.stk", "one");
  for (int i = 0; i < 300; ++i) sources.add("b.stk", "two");
  CHECK(&first == &sources[FileId{0}]);
  CHECK(first.text() == "one");
  CHECK(sources[FileId{300}].id() == FileId{300});
  CHECK(sources.size() == 301);
}

TEST_CASE("spans cover each other") {
  const Span both = stk::text::cover(Span{4, 9, FileId{1}}, Span{2, 5, FileId{1}});
  CHECK(both == Span{2, 9, FileId{1}});
  CHECK(both.contains(2));
  CHECK_FALSE(both.contains(9));
  CHECK(Span{3, 3, FileId{}}.empty());
}
