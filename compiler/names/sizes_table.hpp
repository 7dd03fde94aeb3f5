// Within names/: the sizes table put together and checked. Every row must have one value for each size.
#pragma once

#include <functional>

#include "compiler/findings/findings.hpp"
#include "compiler/names/program.hpp"

namespace stk::names {

using FindMeasures = std::function<const syntax::Measures*(const syntax::Name&)>;  // reports what it does not find

SizesTable one_size();
SizesTable sizes_table(const Placed<syntax::Sizes>& sizes, const FindMeasures& find, findings::Findings& findings);
// A library's table of measures, checked in itself.
void check_measures(const syntax::Measures& measures, findings::Findings& findings);

}  // namespace stk::names
