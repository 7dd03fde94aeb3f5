// Castings-on after which the row counter is set before the first row: where it stands until then nobody need read.
//
//   Unthread the cord. COR.
//   Thread MY. RC 000. Knit to RC 020.      not: … RC 000. COR. Thread MY. RC 000. …
#pragma once

#include <map>
#include <vector>

#include "compiler/knit/facts.hpp"

namespace stk::document {

std::map<const knit::Step*, knit::SizeSet> set_before_first_row(const std::vector<knit::Step>& steps, knit::SizeSet sizes);

}  // namespace stk::document
