// Needles and their stitches in words: "the last st of each group of 3", "the right half", "the 2 sts on the left".
#pragma once

#include <map>
#include <string>

#include "compiler/document/graded.hpp"
#include "compiler/knit/facts.hpp"

namespace stk::document {

// What a selection is called in a sentence.
struct Noun {
  std::string before;  // said first: "leave the last 2 sts on the right as they are"; empty mostly
  std::string text;    // "the last st of each group of 3"
  bool plural = true;
  bool in_order = false;  // counted off from the left
  bool spread = false;    // many, one here and one there, each to be treated alike ("to the needle on its left")
};

// `noun` is what is chosen: "st" or "needle".
Noun noun_of(const knit::Selection& selection, const std::string& noun, knit::SizeSet printed, knit::SizeSet scope);

// "the sts of the right half", but "the last 2 sts on the left": what is taken off or moved is stitches.
std::string sts_of(const std::string& noun);

// How a set that a `let` named is called afterwards: by what it is where that is short ("the right half"), else by its
// name ("the heel needles").
std::string called(const knit::Selection& selection);

}  // namespace stk::document
