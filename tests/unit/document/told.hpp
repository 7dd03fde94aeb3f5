// What the narrator makes of a few steps: one line a paragraph, blanks for U+00A0, headings with #.
#pragma once

#include <string>
#include <vector>

#include "compiler/document/narrator.hpp"
#include "compiler/knit/facts.hpp"
#include "tests/unit/sample_facts.hpp"

namespace stk::test {

std::string lines_of(const std::vector<document::Block>& blocks);

// The steps of a piece in the sizes and yarns of sample_facts(), for all sizes or for some.
std::string told(std::vector<knit::Step> steps, knit::SizeSet printed = 15);

std::string plain(std::string text);  // U+00A0 as a blank

}  // namespace stk::test
