// Finished measures, and the ease they must lie in.
#pragma once

#include <vector>

#include "compiler/findings/findings.hpp"
#include "compiler/grade/evaluate.hpp"
#include "compiler/knit/facts.hpp"
#include "compiler/names/program.hpp"

namespace stk::knit {

// Ease is (finished - body) / body; `ease around` is held against `finished around` and the row foot_around of the sizes
// table (or the row `around`).
std::vector<MeasureFacts> measure_facts(const names::Program& program, grade::Evaluator& evaluator, findings::Findings& findings);

}  // namespace stk::knit
