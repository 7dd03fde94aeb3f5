// One person's measures in place of a size's, before anything is graded.
//
// The size that comes nearest is the base: every number that does not follow from the measures stays that of this size.
// Nearest is the size with the smallest sum of |given - its own| / its own, to a ten-thousandth, over the measures
// given that are of the foot (`foot_…`), over all of them if none is; at a tie the one that stands first.
#pragma once

#include <vector>

#include "compiler/names/program.hpp"
#include "compiler/service/session.hpp"

namespace stk::service {

// Sets `program.sizes.made` and the measures given, or says what cannot be done and leaves the program as it was.
std::vector<Refusal> make_to_measure(names::Program& program, const Options& options);

}  // namespace stk::service
