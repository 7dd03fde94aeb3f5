// One mistake, one finding.
#include <catch2/catch.hpp>

#include "compiler/findings/findings.hpp"

using namespace stk::findings;
using stk::text::FileId;
using stk::text::Span;

namespace {

Span span(std::uint32_t begin, std::uint32_t end, std::uint16_t file = 0) { return {begin, end, FileId{file}}; }

Finding finding(Span primary, std::vector<Lanes> lanes = {}, std::string title = "") {
  Finding result;
  result.primary = primary;
  result.lanes = std::move(lanes);
  result.title = std::move(title);
  return result;
}

}  // namespace

TEST_CASE("what one report holds") {
  Findings findings;
  {
    const Reported reported = findings.report<Code::S01>(span(2, 4), "an amount")
                                  .label("{} sts", 40)
                                  .label(span(0, 1), "from {}", "here")
                                  .note("a {}", "fact")
                                  .help("do {}", "this")
                                  .edit(span(2, 4), "x", Confidence::certain)
                                  .at(1, 0b01)
                                  .at(1, 0b10)
                                  .row(142)
                                  .needle("L12");
    (void)reported;
  }
  REQUIRE(findings.all().size() == 1);
  const Finding& one = findings.all()[0];
  CHECK(one.title == "an amount was expected here");
  CHECK(one.severity == Severity::error);
  CHECK(one.primary_label == "40 sts");
  CHECK(one.labels[0].text == "from here");
  CHECK(one.notes == std::vector<std::string>{"a fact"});
  CHECK(one.helps == std::vector<std::string>{"do this"});
  CHECK(one.edits[0].replacement == "x");
  CHECK(one.lanes == std::vector<Lanes>{{1, 0b11}});
  CHECK(one.row == 142u);
  CHECK(one.needle == "L12");
  CHECK(findings.has_errors());
}

TEST_CASE("findings of one code at one place become one, with the sizes of all and the text of the first") {
  Finding first = finding(span(5, 9), {{0, 0b0010}}, "first");
  first.row = 10;
  Finding second = finding(span(5, 9), {{0, 0b0100}}, "second");
  second.row = 20;
  const Finding third = finding(span(5, 9), {{1, 0b0001}}, "third");
  const std::vector<Finding> all = merged({first, second, third});
  REQUIRE(all.size() == 1);
  CHECK(all[0].title == "first");
  CHECK(all[0].row == 10u);
  CHECK(all[0].lanes == std::vector<Lanes>{{0, 0b0110}, {1, 0b0001}});
}

TEST_CASE("another place, another end or another file is another finding") {
  CHECK(merged({finding(span(5, 9)), finding(span(6, 9)), finding(span(5, 8)), finding(span(5, 9, 1))}).size() == 4);
}

TEST_CASE("lanes are in the order of the editions, whichever came first") {
  const auto all = merged({finding(span(5, 9), {{1, 1}}), finding(span(5, 9), {{0, 1}})});
  REQUIRE(all.size() == 1);
  CHECK(all[0].lanes == std::vector<Lanes>{{0, 1}, {1, 1}});
}

TEST_CASE("what is no matter of sizes stays so") {
  const auto all = merged({finding(span(5, 9), {{0, 1}}), finding(span(5, 9))});
  REQUIRE(all.size() == 1);
  CHECK(all[0].lanes.empty());
}

TEST_CASE("only a finding of the mirrored piece alone is marked as one") {
  Finding plain = finding(span(1, 2)), mirrored = finding(span(1, 2));
  mirrored.mirrored = true;
  CHECK_FALSE(merged({plain, mirrored})[0].mirrored);
  CHECK_FALSE(merged({mirrored, plain})[0].mirrored);
  CHECK(merged({mirrored, mirrored})[0].mirrored);
}

TEST_CASE("the order is by file and place; at one place that of the phases") {
  const auto all = merged({finding(span(9, 10), {}, "d"), finding(span(2, 3, 1), {}, "e"), finding(span(4, 8), {}, "b"),
                           finding(span(4, 6), {}, "c"), finding(span(0, 1), {}, "a")});
  std::string order;
  for (const Finding& one : all) order += one.title;
  CHECK(order == "abcde");
}
