// Findings for readers: as text for people, as JSON for programs. Both are made from the same Finding.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "compiler/findings/finding.hpp"
#include "compiler/text/source.hpp"

namespace stk::findings {

// What the columns of Lanes are called.
struct LaneNames {
  std::vector<std::string> sizes;     // identifiers, women_m: for programs
  std::vector<std::string> printed;   // "Women M": for people; where one is missing the identifier stands in
  std::vector<std::string> editions;  // identifiers
};

struct TextStyle {
  std::size_t width = 80;
  bool colour = false;
};

// One finding, with a line end after its last line: header with its place, the excerpt, the sizes, further places,
// notes, help.
std::string render_text(const Finding& finding, const text::Sources& sources, const LaneNames& names,
                        const TextStyle& style);

// Findings with an empty line between them, the first `show` of them (0 = all), and a line that counts them all:
// "2 errors, 1 warning". Nothing at all if there is none.
std::string render_text(const std::vector<Finding>& findings, const text::Sources& sources, const LaneNames& names,
                        const TextStyle& style, std::size_t show);

// "in sizes Women M and Men L (of 4), edition mid, at RC 142": one line for each set of sizes; none if the finding is
// no matter of sizes.
std::vector<std::string> where_it_happens(const Finding& finding, const LaneNames& names);

// The findings of one run with what is needed to print them.
struct Run {
  const std::vector<Finding>* findings;
  const text::Sources* sources;
  const LaneNames* names;
};

// A JSON array with one object a finding, of one run or of several. Keys that are always there: code, slug, severity,
// message, file, line, column, end_line, end_column, begin, end, sizes, edition, row, needle (null where there is
// none), mirrored, lanes, label, labels, notes, helps, edits. `sizes` and `edition` are those of the first edition
// concerned, in which row and needle were met; `lanes` has every edition with its sizes. Columns count code points from
// 1; begin and end count bytes from 0.
std::string render_json(const std::vector<Run>& runs);

}  // namespace stk::findings
