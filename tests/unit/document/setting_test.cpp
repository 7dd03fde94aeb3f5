#include "compiler/document/setting.hpp"

#include <catch2/catch.hpp>

using namespace stk::document;

namespace {

Repetition of(const std::string& row) {
  return repetition(std::vector<int>(row.begin(), row.end()));
}

}  // namespace

TEST_CASE("the smallest tile is found, with what stands before and after it") {
  const Repetition even = of("||.||.||.");
  CHECK(even.lead == 0);
  CHECK(even.period == 3);
  CHECK(even.count == 3);

  const Repetition ended = of("|.|.|.|");
  CHECK(ended.period == 2);
  CHECK(ended.count == 3);
  CHECK(ended.tail(7) == 1);

  const Repetition edges = of("ab||||||ba");
  CHECK(edges.lead == 2);
  CHECK(edges.period == 1);
  CHECK(edges.count == 6);
  CHECK(edges.tail(10) == 2);

  CHECK(of("abc").count == 1);
  CHECK(of("").count == 0);
}

TEST_CASE("one tile serves rows with another number of repeats, and no others") {
  const std::string wide = "|.|.|.|.|";
  const std::vector<int> model(wide.begin(), wide.end());
  const Repetition r = repetition(model);
  const auto like = [&](const std::string& row) {
    const auto found = repetition_like(std::vector<int>(row.begin(), row.end()), model, r);
    return found ? static_cast<int>(found->count) : 0;
  };
  CHECK(like("|.|.|.|.|") == 4);
  CHECK(like("|.|") == 1);
  CHECK(like("|.|.") == 0);
  CHECK(like(".|.|.") == 0);
  CHECK(like("|") == 0);
}

TEST_CASE("every row of up to 12 needles is its lead, tiles and tail again") {
  for (unsigned bits = 0; bits < 4096; ++bits) {
    for (unsigned size = 1; size <= 12; ++size) {
      std::vector<int> row;
      for (unsigned i = 0; i < size; ++i) row.push_back(static_cast<int>((bits >> i) & 1U));
      const Repetition r = repetition(row);
      REQUIRE(r.lead + r.period * r.count <= size);
      const auto again = repetition_like(row, row, r);
      REQUIRE(again.has_value());
      REQUIRE(again->count == r.count);
    }
  }
}
