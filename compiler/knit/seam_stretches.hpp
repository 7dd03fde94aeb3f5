// Where the stretches of a seam meet: sections called alike are sewn to one another, and what lies between them to what
// lies between them on the other side.
#pragma once

#include <array>
#include <cstdint>
#include <vector>

#include "compiler/knit/bench.hpp"

namespace stk::knit {

// As runtime::Seam::stretches wants them; none, the seam as a whole, where a section would face nothing: names that agree
// by chance. `one_to_one`: both sides were named section by section; where no two are called alike, each meets its
// neighbour.
std::vector<std::array<std::uint32_t, 2>> seam_stretches(const Bench& bench, const std::vector<runtime::EdgeId>& a,
                                                         const std::vector<runtime::EdgeId>& b, bool one_to_one);

}  // namespace stk::knit
