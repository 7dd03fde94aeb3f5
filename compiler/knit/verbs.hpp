// How steps are called when something is said about them: the verb as it is written in a source.
#pragma once

#include <string>
#include <string_view>

#include "compiler/syntax/ast.hpp"

namespace stk::knit {

std::string verb_of(syntax::StepKind kind);     // "scrap off"
std::string words_of(std::string_view method);  // open_on_waste -> "open on waste"

// Machine steps stand in pieces, these in the finish block.
bool is_finishing(syntax::StepKind kind);

}  // namespace stk::knit
