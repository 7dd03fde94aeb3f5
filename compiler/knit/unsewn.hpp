// A sock knitted flat that nobody sews: forgotten in the finishing, and every count is right.
#pragma once

#include "compiler/findings/findings.hpp"
#include "compiler/knit/knitter.hpp"
#include "compiler/names/program.hpp"

namespace stk::knit {

// Looks at patterns that say how wide they are when finished: a strap or a patch may well keep its side edges. Pieces
// knitted in rounds have none.
void check_sewn(const names::Program& program, const Knitter& knitter, const std::vector<PieceFacts>& pieces,
                findings::Findings& findings, std::uint16_t edition);

}  // namespace stk::knit
