// The second sock, made mirrored, against the first: is it the first with its sides changed, step for step? Only then may
// the text say so in one paragraph.
#pragma once

#include <vector>

#include "compiler/knit/facts.hpp"

namespace stk::knit {

// A mirrored run records needles and carriage as they are at the machine; the words of its selections are still those of the
// first sock. This changes their sides.
void mirror_words(std::vector<Step>& steps);

bool mirrors_exactly(const std::vector<Step>& first, const std::vector<Step>& second);

}  // namespace stk::knit
