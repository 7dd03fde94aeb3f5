// All forms of rounding as one: to the numbers step·n + offset.
#include "compiler/values/rounding.hpp"

namespace stk::values {

namespace {

struct Comb {  // the numbers that are allowed: every step, shifted by offset
  Rational step = 1;
  Rational offset = 0;
};

// The n, x or k of a form in the unit of what is rounded: a plain number counts stitches, rows or rounds.
Outcome<Rational> fitted(const Quantity& operand, Dimension dimension) {
  if (operand.dimension == dimension) return operand.value;
  if (operand.dimension.is_plain() && dimension.is_count()) return operand.value;
  return Reason::different_dimensions;
}

Outcome<Comb> allowed(const Rounding& rounding, Dimension dimension) {
  const bool has_whole = dimension.is_count() || dimension.is_plain();
  if (!has_whole && rounding.to != RoundTo::multiple) return Reason::needs_a_multiple;
  switch (rounding.to) {
    case RoundTo::whole:
      return Comb{1, 0};
    case RoundTo::even:
      return Comb{2, 0};
    case RoundTo::odd:
      return Comb{2, 1};
    case RoundTo::parity: {
      // Any count may lend its parity to any other: rows to the parity of stitches is what a short-row heel asks for.
      const Rational like = rounding.operand->value;
      if (!like.is_whole()) return Reason::not_whole;
      return Comb{2, like};
    }
    case RoundTo::multiple:
      break;
  }
  const Outcome<Rational> step = fitted(*rounding.operand, dimension);
  if (!step) return step.reason();
  if (step->is_zero() || step->is_negative()) return Reason::multiple_not_positive;
  if (!rounding.offset) return Comb{*step, 0};
  const Outcome<Rational> offset = fitted(*rounding.offset, dimension);
  if (!offset) return offset.reason();
  return Comb{*step, *offset};
}

}  // namespace

Outcome<RoundedNumber> round(const Rational& value, RoundTowards towards, const Rational& step,
                             const Rational& offset) {
  if (step.is_zero() || step.is_negative()) return Reason::multiple_not_positive;
  const Outcome<Rational> shifted = subtract(value, offset);
  if (!shifted) return shifted.reason();
  const Outcome<Rational> steps = divide(*shifted, step);
  if (!steps) return steps.reason();

  const bool tie = towards == RoundTowards::nearest && is_tie(*steps);
  const Rational n = towards == RoundTowards::up     ? ceil(*steps)
                     : towards == RoundTowards::down ? floor(*steps)
                                                     : nearest(*steps);
  const Outcome<Rational> back = multiply(n, step);
  if (!back) return back.reason();
  const Outcome<Rational> result = add(*back, offset);
  if (!result) return result.reason();
  return RoundedNumber{*result, tie};
}

Outcome<RoundedQuantity> round(const Quantity& quantity, const Rounding& rounding) {
  const Outcome<Comb> comb = allowed(rounding, quantity.dimension);
  if (!comb) return comb.reason();
  const Outcome<RoundedNumber> rounded = round(quantity.value, rounding.towards, comb->step, comb->offset);
  if (!rounded) return rounded.reason();
  return RoundedQuantity{{rounded->value, quantity.dimension}, rounded->tie, rounded->value != quantity.value};
}

}  // namespace stk::values
