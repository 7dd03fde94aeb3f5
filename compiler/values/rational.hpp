// An exact fraction: what every number of the language is. Eight and a half rows to the inch over 23 cm never depends on
// how a machine rounds binary fractions.
//
// A plain value of 32 bytes, in lowest terms with a positive denominator; numerator and denominator stay within 127 bits,
// so that a minus sign never fails. Sums and products are worked out at double width (rational.cpp) and come back as an
// Outcome: out of range is said, never wrapped.
#pragma once

#include <compare>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "compiler/values/outcome.hpp"

namespace stk::values {

__extension__ typedef __int128 Wide;

class Rational {
 public:
  constexpr Rational() = default;
  constexpr Rational(std::int64_t whole) : numerator_(whole) {}   // 3 is a Rational wherever one is wanted

  static Outcome<Rational> fraction(Wide numerator, Wide denominator);
  // A fraction known to be good when compiling (units, constants): already in lowest terms, denominator positive.
  static constexpr Rational of(Wide numerator, Wide denominator) {
    Rational r;
    r.numerator_ = numerator;
    r.denominator_ = denominator;
    return r;
  }

  constexpr Wide numerator() const { return numerator_; }
  constexpr Wide denominator() const { return denominator_; }

  constexpr bool is_zero() const { return numerator_ == 0; }
  constexpr bool is_negative() const { return numerator_ < 0; }
  constexpr bool is_whole() const { return denominator_ == 1; }
  std::optional<std::int64_t> as_int64() const;   // the whole number, if it is one of 64 bits
  constexpr Rational operator-() const { return of(-numerator_, denominator_); }

  friend constexpr bool operator==(const Rational&, const Rational&) = default;
  friend std::strong_ordering operator<=>(const Rational& a, const Rational& b);

 private:
  Wide numerator_ = 0;
  Wide denominator_ = 1;
};

Outcome<Rational> add(const Rational& a, const Rational& b);
Outcome<Rational> subtract(const Rational& a, const Rational& b);
Outcome<Rational> multiply(const Rational& a, const Rational& b);
Outcome<Rational> divide(const Rational& a, const Rational& b);
Outcome<Rational> modulo(const Rational& a, const Rational& b);   // a - b * floor(a / b): takes the sign of b

Rational floor(const Rational& a);
Rational ceil(const Rational& a);
Rational nearest(const Rational& a);   // to the nearest whole number; a tie goes up: 2.5 -> 3, -2.5 -> -2
bool is_tie(const Rational& a);        // just between two whole numbers
Rational absolute(const Rational& a);

// As a number is spelled in a source: "12", "2.5", "1/2", "1½", "½". No sign, no blanks, at most limits::digits digits.
Outcome<Rational> from_digits(std::string_view digits);

std::string exact(const Rational& a);                        // "12", "-5/2"
std::string decimal(const Rational& a, unsigned places);     // exactly so many places, ties up: 1/3, 2 -> "0.33"

}  // namespace stk::values
