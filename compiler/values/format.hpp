// Numbers and measures as a reader sees them: no trailing zeros, no locale, the same bytes everywhere.
#pragma once

#include <string>

#include "compiler/values/quantity.hpp"

namespace stk::values {

// At most so many decimal places, none when they are zero: 12, 2.5, 0.33; never "-0".
std::string number_text(const Rational& value, unsigned max_places = 2);

std::string centimetres(const Rational& millimetres);   // "10.5": at most one decimal, without the unit
std::string inches(const Rational& millimetres);        // "4¼": to the nearest quarter, without the unit
std::string percent(const Rational& ratio, unsigned max_places = 1);   // "-8", "-16.7": without the sign %

// With its unit, for findings, labels and sentences: "48 sts", "1 st", "12 rows", "10.5 cm", "200 tex", "2.4 sts per cm",
// "3.4 rows per cm", "1.5", "50 g". A gauge is given to one cm.
std::string quantity_text(const Quantity& quantity);
// The number alone of the same: "48", "10.5".
std::string amount_text(const Quantity& quantity);

}  // namespace stk::values
