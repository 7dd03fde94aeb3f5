// A pair that is no pair: the heel of a flat sock lies on one half, the seam runs beside it, and both socks are made alike.
#pragma once

#include "compiler/findings/findings.hpp"
#include "compiler/knit/knitter.hpp"
#include "compiler/names/program.hpp"

namespace stk::knit {

// Looks at pieces made more than once whose short rows, and lines of waste for a heel, all lie to one side of the middle,
// or whose heel flap hangs from one half of the needles.
void check_pairs(const names::Program& program, const Knitter& knitter, const std::vector<PieceFacts>& pieces,
                 findings::Findings& findings, std::uint16_t edition);

}  // namespace stk::knit
