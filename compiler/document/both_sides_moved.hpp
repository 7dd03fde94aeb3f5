// Two moves that are one to the hands: the outer stitches of a part go outwards, first on one side, then on the other.
//
//   move 1 on left of panel left by 1       Move the last st on each side of the panel needles one needle outwards.
//   move 1 on right of panel right by 1
#pragma once

#include <optional>

#include "compiler/knit/facts.hpp"

namespace stk::document {

// Both as one step, where `b` is `a` on the other side in every size of the scope; else none.
std::optional<knit::Step> both_sides_moved(const knit::Step& a, const knit::Step& b, knit::SizeSet scope);

}  // namespace stk::document
