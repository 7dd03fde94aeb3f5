// The typed tree as text, for tests and for whoever asks how a line was understood. One line a statement or
// declaration, indented by depth; values in brackets, operator first: `let half = (/ body 2)`.
#pragma once

#include <string>

#include "compiler/syntax/ast.hpp"

namespace stk::syntax {

std::string dump(const File& file);
std::string dump(const Expr& expr);

}  // namespace stk::syntax
