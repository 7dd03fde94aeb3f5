// A digit typed by hand into prose is a number that nothing checks: it stays when the pattern changes.
#pragma once

#include "compiler/findings/findings.hpp"
#include "compiler/knit/sites.hpp"
#include "compiler/syntax/ast.hpp"

namespace stk::knit {

// Reported once a text (findings of one place are merged). Texts of libraries are not the designer's to mend.
void check_prose(const syntax::Expr& text, findings::Findings& findings, const Sites& sites);

}  // namespace stk::knit
