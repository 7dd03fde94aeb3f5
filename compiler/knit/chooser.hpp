// Within knit/: a selector to the needles it means in every size.
#pragma once

#include "compiler/knit/selections.hpp"

namespace stk::knit {

// Sizes in which something was reported are taken out of `active`. `if_any`: fewer than asked, or none, is quiet.
Chosen chosen_needles(Selections& owner, const syntax::Expr& selector, const grade::Frame& frame, Among among,
                      grade::SizeSet& active, bool if_any);

}  // namespace stk::knit
