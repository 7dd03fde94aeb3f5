// The findings of fit and grading: what is wrong with a sock that was knitted without a fault. They are looked for only
// where the sizes table has the measures to judge by.
#pragma once

#include "compiler/findings/findings.hpp"
#include "compiler/knit/facts.hpp"

namespace stk::fit {

void judge(const knit::Facts& facts, findings::Findings& findings);

}  // namespace stk::fit
