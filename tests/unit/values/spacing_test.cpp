// Even spacing: the gaps, their order and their limits.
#include "compiler/values/spacing.hpp"

#include <catch2/catch.hpp>
#include <numeric>

using namespace stk::values;

TEST_CASE("gaps are the two whole numbers about the quotient") {
  for (std::int64_t places = 0; places <= 60; ++places) {
    for (std::int64_t events = 1; events <= 40; ++events) {
      const Spacing spacing = *space_evenly(places, events);
      INFO(places << " places, " << events << " events");
      REQUIRE(spacing.gaps.size() == static_cast<std::size_t>(events));
      REQUIRE(std::accumulate(spacing.gaps.begin(), spacing.gaps.end(), std::int64_t{0}) == places);
      std::int64_t small = 0, large = 0;
      for (const std::int64_t gap : spacing.gaps) {
        if (gap == spacing.small_gap)
          ++small;
        else if (gap == spacing.large_gap)
          ++large;
        else
          FAIL("a gap of " << gap);
      }
      REQUIRE(small == spacing.small_count);
      REQUIRE(large == spacing.large_count);
      REQUIRE(spacing.large_gap - spacing.small_gap <= 1);
    }
  }
}

TEST_CASE("what comes out even has one kind of gap") {
  const Spacing spacing = *space_evenly(12, 4);
  CHECK(spacing.small_gap == 3);
  CHECK(spacing.large_gap == 3);
  CHECK(spacing.large_count == 0);
}

TEST_CASE("spacing says what it cannot do") {
  CHECK(space_evenly(12, 0).reason() == Reason::division_by_zero);
  CHECK(space_evenly(-1, 3).reason() == Reason::out_of_range);
  CHECK(space_evenly(12, -3).reason() == Reason::out_of_range);
  CHECK(space_evenly(max_places, max_places).has_value());
  CHECK(space_evenly(max_places + 1, 3).reason() == Reason::too_large);
  CHECK(space_evenly(3, max_places + 1).reason() == Reason::too_large);
  CHECK(rhythm(3, 4).reason() == Reason::out_of_range);
}
