// A pair of which one sock is made: `make 2` forgotten, and all that is printed is of one.
#pragma once

#include "compiler/findings/findings.hpp"
#include "compiler/knit/knitter.hpp"
#include "compiler/names/program.hpp"

namespace stk::knit {

// Looks at patterns that say both how wide and how long a sock for some foot is when finished, and have one piece for it:
// of two pieces each may be one of the pair, or both may make one sock. `make 1` says that one is meant.
void check_one_sock(const names::Program& program, findings::Findings& findings, std::uint16_t edition);

// A piece of which nothing says how many are knitted, sewn to one that is knitted twice: the second has no partner.
void check_partners(const names::Program& program, const Knitter& knitter, const std::vector<PieceFacts>& pieces,
                    findings::Findings& findings, std::uint16_t edition);

}  // namespace stk::knit
