// Within names/: fills a Program's tables from the trees of its files.
#pragma once

#include "compiler/findings/findings.hpp"
#include "compiler/names/program.hpp"

namespace stk::names {

void collect(Program& program, findings::Findings& findings);

}  // namespace stk::names
