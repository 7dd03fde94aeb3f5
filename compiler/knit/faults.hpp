// From what the machine found to what a designer reads: each kind of fault has its finding, with the needles, rows and
// places of the first size concerned.
#pragma once

#include <vector>

#include "compiler/findings/findings.hpp"
#include "compiler/knit/bench.hpp"
#include "compiler/knit/sites.hpp"
#include "runtime/fault.hpp"
#include "runtime/operations.hpp"

namespace stk::knit {

struct FaultContext {
  findings::Findings& findings;
  const Sites& sites;
  std::uint16_t edition = 0;
  const runtime::Seam* seam = nullptr;   // what is being seamed, if anything is
};

// The fault of one size, reported with that size alone: merging unites the sizes.
void report_fault(const FaultContext& context, const runtime::Fault& fault, const Bench& bench, std::size_t size);

}  // namespace stk::knit
