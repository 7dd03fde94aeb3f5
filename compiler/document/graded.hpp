// Graded numbers in print: the first size, then the others in parentheses, in the order of the sizes table.
//
//   48 (52, 56, 60)     one number when all agree; `-` for a size of the run that has none
//
// A run always holds every printed size, so that a size keeps its place from the first page to the last. In a text for
// some sizes only, one number stands alone when those agree.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "compiler/knit/facts.hpp"

namespace stk::document {

using PerSize = std::vector<std::optional<std::string>>;  // one entry for each size of the pattern

// `scope`: the sizes that the sentence is for, among those printed.
std::string graded(const PerSize& values, knit::SizeSet printed, knit::SizeSet scope);

// Whether the sizes of the scope have one value among them.
bool agree(const PerSize& values, knit::SizeSet scope);

// "1 row", "3 rows", "1 (2, 3) rows". The noun is given for one: "row", "st", "needle".
std::string counted(const PerSize& numbers, std::string_view noun, knit::SizeSet printed, knit::SizeSet scope);

// Texts that differ from size to size in their numbers only ("Toe, from 10 to 18 sts") as one text with graded numbers.
// None when they differ in more than single words.
std::optional<std::string> merged(const std::vector<std::string>& per_size, knit::SizeSet printed, knit::SizeSet scope);

}  // namespace stk::document
