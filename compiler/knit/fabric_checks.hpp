// Whether a gauge can be that of a plain washed fabric, whether yarn and gauge make a sock's fabric of one another, and
// whether the yarn that is stated is enough.
#pragma once

#include <vector>

#include "compiler/knit/setup.hpp"

namespace stk::knit {

// Of the main gauge only: a rib, a hem of tucks has its own ways.
void check_fabric(const EditionSetup& setup, const grade::Evaluator& evaluator, findings::Findings& findings);

// `known`: the sizes that were knitted to their end.
void check_stock(const names::Program& program, const EditionSetup& setup, const std::vector<YarnFacts>& yarns,
                 grade::SizeSet known, findings::Findings& findings);

}  // namespace stk::knit
