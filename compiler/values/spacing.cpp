// Even spacing by whole-number division: event i stands at ⌈i·t/n⌉, so that the gaps come in the evenest order.
#include "compiler/values/spacing.hpp"

namespace stk::values {

Outcome<Spacing> space_evenly(std::int64_t places, std::int64_t events) {
  if (events == 0) return Reason::division_by_zero;
  if (events < 0 || places < 0) return Reason::out_of_range;
  if (events > max_places || places > max_places) return Reason::too_large;

  Spacing spacing;
  spacing.small_gap = places / events;
  spacing.large_count = places % events;
  spacing.small_count = events - spacing.large_count;
  spacing.large_gap = spacing.small_gap + (spacing.large_count > 0 ? 1 : 0);
  spacing.gaps.reserve(static_cast<std::size_t>(events));
  // Rounding the places up begins with the larger gaps: x..x..x. and not x.x..x..
  const auto place = [&](std::int64_t i) { return (i * places + events - 1) / events; };
  for (std::int64_t i = 0; i < events; ++i) spacing.gaps.push_back(place(i + 1) - place(i));
  return spacing;
}

Outcome<std::vector<bool>> rhythm(std::int64_t places, std::int64_t events) {
  if (events > places) return Reason::out_of_range;  // two events cannot stand in one place
  const Outcome<Spacing> spacing = space_evenly(places, events);
  if (!spacing) return spacing.reason();
  std::vector<bool> marked;
  marked.reserve(static_cast<std::size_t>(places));
  for (const std::int64_t gap : spacing->gaps) {
    marked.push_back(true);
    marked.insert(marked.end(), static_cast<std::size_t>(gap - 1), false);
  }
  return marked;
}

}  // namespace stk::values
