// Values that the user sets: reading one from outside, and holding it against its declared range and step.
#pragma once

#include <optional>
#include <string_view>

#include "compiler/grade/operators.hpp"
#include "compiler/values/quantity.hpp"

namespace stk::grade {

// "40%", "12 cm", "-3": a number as the language spells it and a unit; empty when it is none.
std::optional<values::Quantity> read_setting(std::string_view given);

void check_setting(Desk desk, const syntax::Setting& setting, Graded& value, const Graded& low, const Graded& high,
                   const Graded* step);

}  // namespace stk::grade
