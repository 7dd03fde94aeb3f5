// Exact fractions, worked out by boost::rational over 256-bit integers that throw when they overflow: two numbers of
// 127 bits multiplied and added stay within 255, so that only the way back can be out of range. The heavy headers stay
// here, and so do the exceptions.
#include "compiler/values/rational.hpp"

#include <algorithm>
#include <boost/multiprecision/cpp_int.hpp>
#include <boost/rational.hpp>
#include <exception>
#include <limits>

namespace stk::values {

namespace {

using Double = boost::multiprecision::checked_int256_t;
using Working = boost::rational<Double>;

constexpr Wide widest = (static_cast<Wide>(1) << 126) - 1 + (static_cast<Wide>(1) << 126);

Outcome<Wide> narrowed(const Double& value) {
  static const Double limit(widest);
  if (value > limit || value < -limit) return Reason::out_of_range;
  return static_cast<Wide>(value);
}

Outcome<Rational> narrowed(const Working& value) {
  const Outcome<Wide> numerator = narrowed(value.numerator());
  const Outcome<Wide> denominator = narrowed(value.denominator());
  if (!numerator || !denominator) return Reason::out_of_range;
  return Rational::of(*numerator, *denominator);
}

Working working(const Rational& a) {
  // Already in lowest terms; the constructor's own gcd is cheap beside the rest.
  return Working(Double(a.numerator()), Double(a.denominator()));
}

template <class Operation>
Outcome<Rational> worked(Operation operation) {
  try {
    return narrowed(operation());
  } catch (const std::exception&) {
    return Reason::out_of_range;
  }
}

bool in_range(Wide value) {
  return value >= -widest;
}  // the one value whose minus does not fit is left out

int compared(const Rational& a, const Rational& b) {
  if (a.denominator() == b.denominator()) return a.numerator() < b.numerator() ? -1 : a.numerator() > b.numerator();
  const Double left = Double(a.numerator()) * Double(b.denominator());
  const Double right = Double(b.numerator()) * Double(a.denominator());
  return left.compare(right);
}

}  // namespace

Outcome<Rational> Rational::fraction(Wide numerator, Wide denominator) {
  if (denominator == 0) return Reason::division_by_zero;
  if (!in_range(numerator) || !in_range(denominator)) return Reason::out_of_range;
  return worked([&] { return Working(Double(numerator), Double(denominator)); });
}

std::optional<std::int64_t> Rational::as_int64() const {
  if (!is_whole() || numerator_ < std::numeric_limits<std::int64_t>::min() ||
      numerator_ > std::numeric_limits<std::int64_t>::max()) {
    return std::nullopt;
  }
  return static_cast<std::int64_t>(numerator_);
}

std::strong_ordering operator<=>(const Rational& a, const Rational& b) {
  const int order = compared(a, b);
  if (order < 0) return std::strong_ordering::less;
  return order > 0 ? std::strong_ordering::greater : std::strong_ordering::equal;
}

// Nearly every number of a pattern is whole and small, so whole numbers take a short way.
Outcome<Rational> add(const Rational& a, const Rational& b) {
  Wide sum = 0;
  if (a.is_whole() && b.is_whole()) {
    if (__builtin_add_overflow(a.numerator(), b.numerator(), &sum) || !in_range(sum)) return Reason::out_of_range;
    return Rational::of(sum, 1);
  }
  return worked([&] { return working(a) + working(b); });
}

Outcome<Rational> subtract(const Rational& a, const Rational& b) {
  return add(a, -b);
}

Outcome<Rational> multiply(const Rational& a, const Rational& b) {
  Wide product = 0;
  if (a.is_whole() && b.is_whole()) {
    if (__builtin_mul_overflow(a.numerator(), b.numerator(), &product) || !in_range(product)) {
      return Reason::out_of_range;
    }
    return Rational::of(product, 1);
  }
  return worked([&] { return working(a) * working(b); });
}

Outcome<Rational> divide(const Rational& a, const Rational& b) {
  if (b.is_zero()) return Reason::division_by_zero;
  return worked([&] { return working(a) / working(b); });
}

Outcome<Rational> modulo(const Rational& a, const Rational& b) {
  const Outcome<Rational> quotient = divide(a, b);
  if (!quotient) return quotient.reason();
  const Outcome<Rational> whole = multiply(floor(*quotient), b);
  if (!whole) return whole.reason();
  return subtract(a, *whole);
}

Rational floor(const Rational& a) {
  Wide quotient = a.numerator() / a.denominator();  // towards zero
  if (a.is_negative() && quotient * a.denominator() != a.numerator()) --quotient;
  return Rational::of(quotient, 1);
}

Rational ceil(const Rational& a) {
  return -floor(-a);
}

Rational nearest(const Rational& a) {
  const Rational below = floor(a);
  // Which half the rest lies in, without doubling anything that is already wide.
  const Wide rest = a.numerator() - below.numerator() * a.denominator();
  return rest >= a.denominator() - rest ? Rational::of(below.numerator() + 1, 1) : below;
}

bool is_tie(const Rational& a) {
  return a.denominator() == 2;
}

Rational absolute(const Rational& a) {
  return a.is_negative() ? -a : a;
}

}  // namespace stk::values
