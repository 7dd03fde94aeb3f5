// Text to tree. Parsing never fails: broken source gives a tree with Invalid nodes in it, and one finding for each
// mistake.
#pragma once

#include "compiler/findings/findings.hpp"
#include "compiler/syntax/ast.hpp"
#include "compiler/text/source.hpp"

namespace stk::syntax {

// The file of the spans is that of the source.
File parse(const text::Source& source, findings::Findings& findings);

// A word that cannot be a name, such as `at` or `rows`: wherever a name of the designer's own stands.
bool is_reserved(std::string_view word);

}  // namespace stk::syntax
