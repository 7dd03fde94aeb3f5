// How much yarn lies in the fabric: the loops that the machine really formed, times the length of a loop.
#pragma once

#include <vector>

#include "compiler/knit/knitter.hpp"

namespace stk::knit {

// Length of a loop from the washed gauge: l = 4.2 / (stitches per length), Munden's constant for fully relaxed plain
// worsted (Kw = 4.2; Munden 1959, J. Textile Institute 50, T448, as given by Spencer, Knitting Technology, 3rd ed. 2001).
std::vector<YarnFacts> yarn_facts(const Knitter& knitter, const EditionSetup& setup, const grade::Evaluator& evaluator,
                                  const std::vector<Knitter::KnittedPiece>& pieces);

}  // namespace stk::knit
