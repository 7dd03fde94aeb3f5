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
  PerSize before_off;  // the same before the piece came off in it
};

// Where a section left the work: the states of the sizes that it is for, none for the others; and those before it came off.
using States = std::vector<std::optional<knit::MachineState>>;
SectionEnd section_end(const std::string& title, const States& states, const States& before_off = {});

// None for few sizes, and where there are fewer than two columns. A section that ends without work on the needles has one only
// where the piece would have no table otherwise: it is knitted up to there. Sections of one title that different sizes take
// share a column.
std::optional<Table> check_table(const std::vector<SectionEnd>& ends, const std::vector<knit::SizeName>& sizes,
                                 knit::SizeSet printed);

}  // namespace stk::document
