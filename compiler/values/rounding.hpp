// Rounding as it is said: a fraction of a stitch cannot be cast on, and a count must often be even, or a multiple of 4 plus
// 1, or agree in parity with another count.
//
// Every form is one rule: the nearest (or the next up, or down) of the numbers step·n + offset. A tie goes up, towards the
// greater number also below zero, and is told apart so that it can be listed.
#pragma once

#include <cstdint>
#include <optional>

#include "compiler/values/quantity.hpp"

namespace stk::values {

enum class RoundTowards : std::uint8_t { nearest, up, down };
enum class RoundTo : std::uint8_t { whole, even, odd, multiple, parity };

struct Rounding {
  RoundTowards towards = RoundTowards::nearest;
  RoundTo to = RoundTo::whole;
  std::optional<Quantity> operand{};   // n of `multiple of n`, x of `parity of x`
  std::optional<Quantity> offset{};    // k of `plus k`, negated for `minus k`
};

struct RoundedQuantity {
  Quantity quantity;
  bool tie = false;      // it lay just between two of them
  bool changed = false;
};

// A plain n or k counts in the unit of what is rounded when that is stitches, rows or rounds. A length or a mass has no
// whole: only `multiple of 5 cm` rounds it.
Outcome<RoundedQuantity> round(const Quantity& quantity, const Rounding& rounding);

struct RoundedNumber {
  Rational value;
  bool tie = false;
};
// The rule itself: to the numbers step·n + offset, step positive.
Outcome<RoundedNumber> round(const Rational& value, RoundTowards towards, const Rational& step, const Rational& offset);

}  // namespace stk::values
