// The fit report: what a technical editor wants to know of every size before the pattern is knitted by anybody. It is
// worked out once (EditionFit), and laid out as text, as JSON and as a picture.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "compiler/fit/coverage.hpp"
#include "compiler/fit/passing.hpp"
#include "compiler/fit/shape.hpp"
#include "compiler/knit/facts.hpp"

namespace stk::fit {

struct SizeFit {
  std::size_t size = 0;
  std::optional<Leg> leg;
  std::optional<Passage> fabric, edge;
  std::optional<Top> top;
  std::vector<SectionMeasure> sections;
};

struct EditionFit {
  std::size_t edition = 0;
  std::vector<SizeFit> sizes;  // those asked for, in the order of the sizes table
  Coverage coverage;
};

// `sizes`: which to tell of. `people` may be empty: then nothing is said of them.
EditionFit fit_of(const knit::Facts& facts, std::size_t edition, knit::SizeSet sizes, const std::vector<Cell>& people);

// 80 columns wide, sizes as columns; a line end after the last line.
std::string report_text(const knit::Facts& facts, const std::vector<EditionFit>& editions);

// One object: pattern, editions [ { edition, sizes [ … ], coverage } ]. Lengths in mm, ease and shares as plain
// numbers; null where a figure cannot be told.
std::string report_json(const knit::Facts& facts, const std::vector<EditionFit>& editions);

// An SVG: people as shaded cells, women and men apart, and over them the feet that each size fits.
std::string coverage_svg(const knit::Facts& facts, const EditionFit& edition, const std::vector<Cell>& people);

}  // namespace stk::fit
