// The findings of family S, made from the mistakes that are left in the finished tree. Private to this folder.
#pragma once

#include "compiler/findings/findings.hpp"
#include "compiler/syntax/tree.hpp"
#include "compiler/text/source.hpp"

namespace stk::syntax {

void report_mistakes(const Tree& tree, const text::Source& source, findings::Findings& findings);

// What keeps the bytes from being read at all (S14, S15); true if one was reported.
bool report_unreadable(const text::Source& source, findings::Findings& findings);

}  // namespace stk::syntax
