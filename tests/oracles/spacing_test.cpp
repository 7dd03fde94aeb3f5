// Even spacing against published results: the Euclidean rhythms of G. Toussaint, "The Euclidean algorithm generates
// traditional musical rhythms", BRIDGES 2005, and two worked examples of even increases from knitting handbooks.
#include "compiler/values/spacing.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <string>

using namespace stk::values;

namespace {

std::string drawn(std::int64_t events, std::int64_t places) {
  std::string text;
  for (const bool marked : *rhythm(places, events)) text += marked ? 'x' : '.';
  return text;
}

bool same_up_to_rotation(const std::string& a, const std::string& b) {
  return a.size() == b.size() && (a + a).find(b) != std::string::npos;
}

}  // namespace

TEST_CASE("Euclidean rhythms come out as Toussaint lists them") {
  struct Row {
    int events, places;
    const char* published;
  };
  const Row rows[] = {
      {3, 8, "x..x..x."},
      {5, 8, "x.xx.xx."},
      {7, 16, "x..x.x.x..x.x.x."},
      // From memory of the same paper:
      {2, 5, "x.x.."},
      {3, 4, "x.xx"},
      {3, 7, "x.x.x.."},
      {4, 9, "x.x.x.x.."},
      {5, 6, "x.xxxx"},
      {5, 7, "x.xx.xx"},
      {5, 12, "x..x.x..x.x."},
      {7, 12, "x.xx.x.xx.x."},
      {9, 16, "x.xx.x.x.xx.x.x."},
  };
  for (const Row& row : rows) {
    INFO("E(" << row.events << "," << row.places << ") = " << drawn(row.events, row.places));
    CHECK(same_up_to_rotation(drawn(row.events, row.places), row.published));
  }
  CHECK(drawn(3, 8) == "x..x..x.");
}

TEST_CASE("any two windows of one length differ by at most one event") {
  // The property that makes the order the evenest (the same paper; balanced words).
  for (int places = 1; places <= 40; ++places) {
    for (int events = 1; events <= places; ++events) {
      const std::string once = drawn(events, places), twice = once + once;
      REQUIRE(once.size() == static_cast<std::size_t>(places));
      REQUIRE(std::count(once.begin(), once.end(), 'x') == events);
      for (std::size_t window = 1; window <= once.size(); ++window) {
        std::int64_t least = places, most = 0;
        for (std::size_t from = 0; from < once.size(); ++from) {
          std::int64_t count = 0;
          for (std::size_t i = from; i < from + window; ++i) count += twice[i] == 'x';
          least = std::min(least, count);
          most = std::max(most, count);
        }
        INFO("E(" << events << "," << places << "), windows of " << window);
        REQUIRE(most - least <= 1);
      }
    }
  }
}

TEST_CASE("handbook examples of even increases") {
  // Published by Budd 2010 after Brunette 1991 (as read second-hand): 36 increases
  // over 140 rows are 4 gaps of 3 rows and 32 of 4; 14 over 124 sts are 2 gaps of 8 and 12 of 9.
  const Spacing rows = *space_evenly(140, 36);
  CHECK(rows.small_count == 4);
  CHECK(rows.small_gap == 3);
  CHECK(rows.large_count == 32);
  CHECK(rows.large_gap == 4);
  const Spacing sts = *space_evenly(124, 14);
  CHECK(sts.small_count == 2);
  CHECK(sts.small_gap == 8);
  CHECK(sts.large_count == 12);
  CHECK(sts.large_gap == 9);
}
