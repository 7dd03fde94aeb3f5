// The report in words: one sentence or two for each thing that a fit can go wrong in, also where all is well.
#pragma once

#include <string>
#include <vector>

#include "compiler/fit/report.hpp"

namespace stk::fit {

// "Heel: every size passes. …"
std::vector<std::string> verdicts(const knit::Facts& facts, const EditionFit& fit);

// Where wear can hurt, and what no report can know.
std::vector<std::string> cautions(const EditionFit& fit);

// Whom the sizes fit, whom they do not, and who was never asked. Empty where the pattern has not both finished
// measures.
std::vector<std::string> coverage_words(const knit::Facts& facts, const EditionFit& fit);

}  // namespace stk::fit
