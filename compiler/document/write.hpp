// From what was checked to what is read: the whole pattern of one edition, for some or all sizes.
#pragma once

#include <cstddef>

#include "compiler/document/document.hpp"
#include "compiler/knit/facts.hpp"

namespace stk::document {

// `edition` is an index into facts.editions. `sizes` are printed: all of them side by side, or one, whose text then
// holds that size's numbers alone. A set that holds none of the pattern's sizes means all.
Document write_document(const knit::Facts& facts, std::size_t edition, knit::SizeSet sizes);

}  // namespace stk::document
