// What is found by looking ahead: a step that something comes to after it decides how it is told. Each size goes its own way
// through the steps, and the answers of all are put together.
#pragma once

#include <cstddef>
#include <map>
#include <vector>

#include "compiler/knit/facts.hpp"

namespace stk::document {

// A `Watch` remembers one step of the way: `ends(step)` says that nothing is known beyond it (a repeat, say, since what is
// told once for all its turns is not true of one), `forget()` follows; `pass(step, record)` is an operation that does
// something, and gives the step remembered where this is what was looked for, else null.
template <class Watch>
void look_ahead(const std::vector<knit::Step>& steps, std::size_t size, Watch& watch,
                std::map<const knit::Step*, knit::SizeSet>& found) {
  for (const knit::Step& step : steps) {
    if (!knit::has(step.sizes, size)) continue;
    if (watch.ends(step)) {
      watch.forget();
    } else if (step.kind != knit::Step::Kind::operation) {
      look_ahead(step.steps, size, watch, found);
    } else if (!step.records[size].idle) {
      if (const knit::Step* const met = watch.pass(step, step.records[size])) found[met] |= knit::SizeSet{1} << size;
    }
  }
}

template <class Watch>
std::map<const knit::Step*, knit::SizeSet> looked_ahead(const std::vector<knit::Step>& steps, knit::SizeSet sizes) {
  std::map<const knit::Step*, knit::SizeSet> found;
  for (std::size_t size = 0; size < 64; ++size) {
    if (!knit::has(sizes, size)) continue;
    Watch watch;
    look_ahead(steps, size, watch, found);
  }
  return found;
}

}  // namespace stk::document
