// Arithmetic on numbers with dimensions, and the table of units.
#include "compiler/values/quantity.hpp"

#include <algorithm>
#include <array>

namespace stk::values {

namespace {

using namespace dimensions;

#define UNIT(spelling, dimension, numerator, denominator, source) \
  Unit{spelling, dimension, Rational::of(numerator, denominator), source},
constexpr std::array unit_table{
#include "compiler/values/units.def"
};
#undef UNIT

Outcome<Quantity> with(const Outcome<Rational>& value, std::optional<Dimension> dimension) {
  if (!value) return value.reason();
  if (!dimension) return Reason::out_of_range;
  return Quantity{*value, *dimension};
}

}  // namespace

std::span<const Unit> units() {
  return unit_table;
}

const Unit* find_unit(std::string_view spelling) {
  const auto found =
      std::find_if(unit_table.begin(), unit_table.end(), [&](const Unit& unit) { return unit.spelling == spelling; });
  return found == unit_table.end() ? nullptr : &*found;
}

Outcome<Quantity> in_unit(const Rational& amount, const Unit& unit) {
  return with(multiply(amount, unit.factor), unit.dimension);
}

Outcome<Rational> amount_in(const Quantity& quantity, const Unit& unit) {
  if (quantity.dimension != unit.dimension) return Reason::different_dimensions;
  return divide(quantity.value, unit.factor);
}

Outcome<Quantity> add(const Quantity& a, const Quantity& b) {
  if (a.dimension != b.dimension) return Reason::different_dimensions;
  return with(add(a.value, b.value), a.dimension);
}

Outcome<Quantity> subtract(const Quantity& a, const Quantity& b) {
  if (a.dimension != b.dimension) return Reason::different_dimensions;
  return with(subtract(a.value, b.value), a.dimension);
}

Outcome<Quantity> multiply(const Quantity& a, const Quantity& b) {
  return with(multiply(a.value, b.value), multiply(a.dimension, b.dimension));
}

Outcome<Quantity> divide(const Quantity& a, const Quantity& b) {
  return with(divide(a.value, b.value), divide(a.dimension, b.dimension));
}

Outcome<Quantity> modulo(const Quantity& a, const Quantity& b) {
  // What is left over of 10 sts in groups of 3: a plain divisor says how many of the same.
  if (a.dimension != b.dimension && !b.dimension.is_plain()) return Reason::different_dimensions;
  return with(modulo(a.value, b.value), a.dimension);
}

Outcome<std::strong_ordering> compare(const Quantity& a, const Quantity& b) {
  if (a.dimension != b.dimension) return Reason::different_dimensions;
  return a.value <=> b.value;
}

}  // namespace stk::values
