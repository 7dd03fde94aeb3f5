// The plain row before a chart. Where a machine selects its needles from a card or a screen, the pass before the first
// pattern row selects them (common practice), so the pattern must be set before that row and not after it.
#pragma once

#include <map>
#include <vector>

#include "compiler/knit/facts.hpp"

namespace stk::document {

// Steps of plain rows that a chart follows at once, on the same needles, with the sizes in which it does. Steps inside the
// turns of a repeat are left out: what is told once for all turns is not true of one row.
std::map<const knit::Step*, knit::SizeSet> rows_before_charts(const std::vector<knit::Step>& steps, knit::SizeSet sizes);

}  // namespace stk::document
