// How much yarn is needed, per yarn and size: the loops that the machine really formed, times the length of a loop;
// what floats; tails, seams and grafts; a margin; whole balls.
//
//   a loop     from the washed gauge (fabric/loops.hpp). What is knitted at the tension of a second gauge has that
//   gauge's
//              loop, if it can be plain fabric; a rib has the main one, which is a little more than it takes.
//   a float    the width of the stitches it passes
//   an end     its tail as the pattern says, 20 cm where it says nothing (common practice)
//   a seam     half as long again as its edge, a graft three times (common practice), and two ends of 15 cm
//   waste      its loops at the main gauge: waste is chosen as thick as the yarn
//
// Each piece counts as often as it is made. Not in it: a swatch, a yarn drawn through eyelets, what goes wrong.
#pragma once

#include <vector>

#include "compiler/knit/knitter.hpp"

namespace stk::knit {

std::vector<YarnFacts> yarn_facts(const Knitter& knitter, const EditionSetup& setup, const grade::Evaluator& evaluator,
                                  const std::vector<Knitter::KnittedPiece>& pieces);

}  // namespace stk::knit
