// Within names/: the words of lines that were not understood. `let body = 3 *` was a mistake once; that `body` is
// unknown after it is no second one.
#pragma once

#include <functional>
#include <set>
#include <string>

#include "compiler/syntax/ast.hpp"
#include "compiler/text/source.hpp"

namespace stk::names {

std::set<std::string, std::less<>> broken_words(const syntax::File& file, const text::Source& source);

}  // namespace stk::names
