// Whether work is the same, asked of the record, size by size: what was done, on which needles, from and to which state of
// the machine. Texts are never compared. A new field of the record that a reader is told belongs into this comparison.
#pragma once

#include <optional>
#include <vector>

#include "compiler/knit/facts.hpp"

namespace stk::document {

// Whether two sequences of steps are the same work in every size of the scope. Row counters must agree from the first row
// knitted on, or from where the counter is set: those numbers are printed.
bool same_work(const std::vector<knit::Step>& a, const std::vector<knit::Step>& b, knit::SizeSet scope);

// The same for turns of repeats, whose row counters are not printed: only how far they go counts.
bool same_turn(const std::vector<knit::Step>& a, const std::vector<knit::Step>& b, knit::SizeSet scope);

// The same work on the other side of the bed: needles, sides and the carriage changed about. None where a chart or a tile of
// needles is worked, which reads from one end.
std::optional<std::vector<knit::Step>> with_sides_changed(const std::vector<knit::Step>& steps);

// Whether `b` is `a` with left and right changed: seams of two sides, loops picked up along two edges. Counts must agree.
bool same_on_other_side(const knit::Step& a, const knit::Step& b, knit::SizeSet scope);

}  // namespace stk::document
