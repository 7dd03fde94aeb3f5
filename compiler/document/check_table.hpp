// A piece at a glance: where the work stands at the end of each section, a line for each size. From five sizes up a row of
// a table is found sooner than a place in a run of numbers.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "compiler/document/document.hpp"
#include "compiler/document/graded.hpp"
#include "compiler/knit/facts.hpp"

namespace stk::document {

struct SectionEnd {
  std::string title;   // as its heading has it
  PerSize stands;      // "020 COR 24 L12–R12"; none where nothing is on the needles
};

// Where a section left the work: the states of the sizes that it is for, none for the others.
SectionEnd section_end(const std::string& title, const std::vector<std::optional<knit::MachineState>>& states);

// None for few sizes, and where fewer than two sections end with work on the needles. Sections of one title that different sizes take
// share a column.
std::optional<Table> check_table(const std::vector<SectionEnd>& ends, const std::vector<knit::SizeName>& sizes,
                                 knit::SizeSet printed);

}  // namespace stk::document
