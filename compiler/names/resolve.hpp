// Every use of a name looked up, before anything is worked out: unknown names with the nearest known one, names that are
// never used, circles, arguments that do not fit.
#pragma once

#include "compiler/findings/findings.hpp"
#include "compiler/names/program.hpp"

namespace stk::names {

void resolve(const Program& program, findings::Findings& findings);

}  // namespace stk::names
