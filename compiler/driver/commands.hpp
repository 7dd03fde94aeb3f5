// The commands. Each prints, and returns the program's exit status.
#pragma once

#include "compiler/driver/options.hpp"

namespace stk::driver {

int run_check(const CheckCommand& command);
int run_build(const BuildCommand& command);
int run_fit(const FitCommand& command);
int run_explain(const ExplainCommand& command);
int run_swatch(const SwatchCommand& command);

}  // namespace stk::driver
