// A number with its dimension. Values are kept in base units (units.def: mm, g, one stitch, one row, one round); a unit is
// only a spelling, used when a number is read and when it is shown.
#pragma once

#include <compare>
#include <optional>
#include <span>
#include <string_view>

#include "compiler/values/dimension.hpp"
#include "compiler/values/rational.hpp"

namespace stk::values {

struct Quantity {
  Rational value;        // in base units
  Dimension dimension;

  friend constexpr bool operator==(const Quantity&, const Quantity&) = default;
};

struct Unit {
  std::string_view spelling;
  Dimension dimension;
  Rational factor;       // base units in one of it
  std::string_view source;
};

std::span<const Unit> units();
const Unit* find_unit(std::string_view spelling);   // null if there is none

Outcome<Quantity> in_unit(const Rational& amount, const Unit& unit);        // 12 and cm: 120 mm
Outcome<Rational> amount_in(const Quantity& quantity, const Unit& unit);    // 120 mm and cm: 12

// Both sides of a sum or a comparison must have one dimension (Reason::different_dimensions); a product may have any.
// The rule that a bare whole literal takes its neighbour's unit (`body + 1`) belongs to whoever sees the literal.
Outcome<Quantity> add(const Quantity& a, const Quantity& b);
Outcome<Quantity> subtract(const Quantity& a, const Quantity& b);
Outcome<Quantity> multiply(const Quantity& a, const Quantity& b);
Outcome<Quantity> divide(const Quantity& a, const Quantity& b);
Outcome<Quantity> modulo(const Quantity& a, const Quantity& b);             // has a's dimension; b may be plain
Outcome<std::strong_ordering> compare(const Quantity& a, const Quantity& b);

}  // namespace stk::values
