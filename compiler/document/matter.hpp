// What stands before and after the instructions.
#pragma once

#include <string>
#include <vector>

#include "compiler/document/document.hpp"
#include "compiler/document/narrator.hpp"

namespace stk::document {

// Written after the instructions, since it explains only what they use; printed before them.
std::vector<Block> opening(const Printing& printing, const std::vector<Block>& instructions);
std::vector<Block> closing(const Printing& printing);

// abbreviations.cpp: those that occur in the blocks, in the order of a knitter's questions.
std::vector<Definition> abbreviations(const Printing& printing, const std::vector<Block>& blocks);
// All the words of some blocks, one blank between sentences: to see what occurs.
std::string text_of(const std::vector<Block>& blocks);
bool has_word(const std::string& text, std::string_view word);  // a whole word

// tools.cpp
std::vector<std::string> tools(const knit::EditionFacts& edition, knit::SizeSet printed);

// cautions.cpp: the pattern's own, then the few that hold for every sock, each once.
std::vector<std::string> cautions(const Printing& printing);

}  // namespace stk::document
