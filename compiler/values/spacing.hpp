// Even spacing: so many events over so many places, as increases are spread along a row. The gaps are the two whole numbers
// about t/n, ⌊t/n⌋ and ⌈t/n⌉, and their order is the evenest there is: any two stretches of one length differ by at most one
// event (the Euclidean rhythms of Toussaint 2005).
#pragma once

#include <cstdint>
#include <vector>

#include "compiler/values/outcome.hpp"

namespace stk::values {

inline constexpr std::int64_t max_places = 1'000'000;

struct Spacing {
  std::int64_t small_gap = 0;     // ⌊t/n⌋ places
  std::int64_t large_gap = 0;     // ⌈t/n⌉; the same as small_gap when it comes out even
  std::int64_t small_count = 0;   // how many of each; all are small when it comes out even
  std::int64_t large_count = 0;
  std::vector<std::int64_t> gaps; // in order; they add up to t
};

// 140 rows, 36 events: 4 gaps of 3 and 32 of 4. Needs 1 <= events; places may be fewer than events (gaps of 0 and 1).
// Reason::division_by_zero when there is no event, too_large beyond max_places, out_of_range below zero.
Outcome<Spacing> space_evenly(std::int64_t places, std::int64_t events);

// The same as places marked or not, beginning with an event: 8 places, 3 events: x..x..x.
Outcome<std::vector<bool>> rhythm(std::int64_t places, std::int64_t events);

}  // namespace stk::values
