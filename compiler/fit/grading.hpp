// Whether sizes grow as feet do. Sizes are compared by their measures, not by their place in the table, so that a table
// may run through women and then through men: of two sizes the larger is the one whose foot is larger.
#pragma once

#include <cstddef>
#include <utility>
#include <vector>

#include "compiler/fit/exact.hpp"
#include "compiler/knit/facts.hpp"

namespace stk::fit {

// Sizes in the order of the body measure of one finished measure, or, where it has none, of the foot's length; those of
// the same measure in the order of the table. Without either, empty.
std::vector<std::size_t> order_of(const knit::Facts& facts, const knit::MeasureFacts& measure);

// Pairs, smaller size first, of which the larger comes out smaller. For a measure without a body measure of its own
// only pairs count in which no row of the sizes table is smaller in the larger size.
std::vector<std::pair<std::size_t, std::size_t>> backwards(const knit::Facts& facts, const knit::MeasureFacts& measure);

// Neighbours in that order whose ease differs by more than this (judgement) where no ease is declared.
inline constexpr Rational even_ease = Rational::of(1, 10);
std::vector<std::pair<std::size_t, std::size_t>> uneven(const knit::Facts& facts, const knit::MeasureFacts& measure);

}  // namespace stk::fit
