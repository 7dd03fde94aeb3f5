// Between the exact gauge of a source and measured fabric: the loop length that yarn is reckoned with.
#pragma once

#include "compiler/fabric/plain.hpp"
#include "compiler/values/quantity.hpp"

namespace stk::fabric {

double as_double(const values::Rational& value);

// A gauge in base units (stitches and rows to the mm), as it is stated.
Gauge measured(const values::Quantity& stitches, const values::Quantity& rows);
double tex_of(const values::Quantity& count);  // from base units of mass to length

// Loop length of a washed gauge in whole hundredths of a mm, in mm. Rounded once, here: sums of loops are exact again
// after it, and the same on every computer (a square root is, as IEEE 754 defines it).
values::Rational loop_length(const Gauge& washed);

}  // namespace stk::fabric
