// A value, or the reason why there is none. Nothing in this folder throws outwards, gives a wrong number or has undefined
// behaviour: what cannot be worked out is one of these few reasons, which grade/ turns into a finding.
#pragma once

#include <cstdint>
#include <utility>
#include <variant>

namespace stk::values {

enum class Reason : std::uint8_t {
  out_of_range,           // beyond what an exact number here can hold (numerator and denominator of 127 bits)
  division_by_zero,
  different_dimensions,   // sts and rows, a length and a plain number
  not_a_number,           // spelled digits that are none: "1.", "2.5½", "1/0" is division_by_zero
  too_many_digits,        // more than limits::digits of them
  needs_a_multiple,       // a length or a mass has no whole to be rounded to: `rounded to multiple of 5 cm`
  multiple_not_positive,  // `rounded to multiple of 0`
  not_whole,              // `parity of` something that is no whole number
  too_large               // spacing: more events or places than any bed or piece has
};

template <class T>
class [[nodiscard]] Outcome {
 public:
  Outcome(T value) : state_(std::in_place_index<0>, std::move(value)) {}
  Outcome(Reason reason) : state_(std::in_place_index<1>, reason) {}

  bool has_value() const { return state_.index() == 0; }
  explicit operator bool() const { return has_value(); }
  // Only when there is a value.
  const T& operator*() const& { return *std::get_if<0>(&state_); }
  T operator*() && { return std::move(*std::get_if<0>(&state_)); }   // by value: nothing dangles in `for (… : *f())`
  const T* operator->() const { return std::get_if<0>(&state_); }
  // Only when there is none.
  Reason reason() const { return *std::get_if<1>(&state_); }

 private:
  std::variant<T, Reason> state_;
};

}  // namespace stk::values
