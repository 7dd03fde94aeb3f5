// A yarn as an edition states it: its count or label, how it is bought, the margin.
#pragma once

#include "compiler/knit/setup.hpp"

namespace stk::knit {

// What is no count, no mass or no number of balls is reported and left out.
SetupYarn set_up_yarn(const syntax::Yarn& yarn, const grade::Frame& frame, grade::Evaluator& evaluator,
                      findings::Findings& findings);

}  // namespace stk::knit
