// Within names/: a technique that a library has and that no `use` line brings in, the commonest mistake with libraries.
// Only when a pattern works something unknown are the libraries looked through.
#pragma once

#include "compiler/names/program.hpp"
#include "compiler/text/files.hpp"

namespace stk::names {

// The library of each technique that is worked somewhere and known nowhere: short_row_heel, heels.
std::map<std::string, std::string, std::less<>> techniques_elsewhere(const Program& program, text::Files& files);

}  // namespace stk::names
