// Numbers as text, both ways: as they are spelled in a source, and exact or with a given number of decimal places.
// Digits are worked out one by one, so that no locale and no binary fraction comes near them.
#include <algorithm>
#include <array>
#include <boost/multiprecision/cpp_int.hpp>

#include "compiler/text/limits.hpp"
#include "compiler/values/rational.hpp"

namespace stk::values {

namespace {

using boost::multiprecision::cpp_int;

struct Vulgar {
  std::string_view spelling;
  int numerator, denominator;
};
constexpr std::array<Vulgar, 18> vulgar_fractions{{{"¼", 1, 4},
                                                   {"½", 1, 2},
                                                   {"¾", 3, 4},
                                                   {"⅐", 1, 7},
                                                   {"⅑", 1, 9},
                                                   {"⅒", 1, 10},
                                                   {"⅓", 1, 3},
                                                   {"⅔", 2, 3},
                                                   {"⅕", 1, 5},
                                                   {"⅖", 2, 5},
                                                   {"⅗", 3, 5},
                                                   {"⅘", 4, 5},
                                                   {"⅙", 1, 6},
                                                   {"⅚", 5, 6},
                                                   {"⅛", 1, 8},
                                                   {"⅜", 3, 8},
                                                   {"⅝", 5, 8},
                                                   {"⅞", 7, 8}}};

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}

std::string_view leading_digits(std::string_view text) {
  const auto* end = std::find_if_not(text.begin(), text.end(), is_digit);
  return text.substr(0, static_cast<std::size_t>(end - text.begin()));
}

cpp_int whole_number(std::string_view digits) {
  cpp_int value = 0;  // by hand: a leading 0 would mean octal to the library
  for (const char c : digits) value = value * 10 + (c - '0');
  return value;
}

Outcome<Rational> lowest_terms(cpp_int numerator, cpp_int denominator) {
  static const cpp_int limit = (cpp_int(1) << 127) - 1;
  if (denominator == 0) return Reason::division_by_zero;
  const cpp_int common = gcd(numerator, denominator);
  numerator /= common;
  denominator /= common;
  if (numerator > limit || denominator > limit) return Reason::out_of_range;
  return Rational::of(static_cast<Wide>(numerator), static_cast<Wide>(denominator));
}

std::string digits_of(Wide value) {
  std::string text;
  const bool negative = value < 0;
  do {
    const int digit = static_cast<int>(value % 10);
    text.push_back(static_cast<char>('0' + (digit < 0 ? -digit : digit)));
    value /= 10;
  } while (value != 0);
  if (negative) text.push_back('-');
  std::reverse(text.begin(), text.end());
  return text;
}

}  // namespace

Outcome<Rational> from_digits(std::string_view text) {
  if (static_cast<std::size_t>(std::count_if(text.begin(), text.end(), is_digit)) > text::limits::digits) {
    return Reason::too_many_digits;
  }
  const std::string_view whole = leading_digits(text);
  std::string_view rest = text.substr(whole.size());
  if (rest.empty())
    return whole.empty() ? Outcome<Rational>(Reason::not_a_number) : lowest_terms(whole_number(whole), 1);

  if (rest.front() == '.' || rest.front() == '/') {
    const std::string_view second = leading_digits(rest.substr(1));
    if (whole.empty() || second.empty() || second.size() + 1 != rest.size()) return Reason::not_a_number;
    if (rest.front() == '/') return lowest_terms(whole_number(whole), whole_number(second));
    const cpp_int scale = boost::multiprecision::pow(cpp_int(10), static_cast<unsigned>(second.size()));
    return lowest_terms(whole_number(whole) * scale + whole_number(second), scale);
  }
  for (const Vulgar& vulgar : vulgar_fractions) {
    if (rest != vulgar.spelling) continue;
    return lowest_terms(whole_number(whole) * vulgar.denominator + vulgar.numerator, vulgar.denominator);
  }
  return Reason::not_a_number;
}

std::string exact(const Rational& a) {
  std::string text = digits_of(a.numerator());
  if (!a.is_whole()) text += "/" + digits_of(a.denominator());
  return text;
}

std::string decimal(const Rational& a, unsigned places) {
  // Shifted by the places, rounded with ties up, and the point put back in.
  const cpp_int scale = boost::multiprecision::pow(cpp_int(10), places);
  const cpp_int doubled = 2 * cpp_int(a.numerator()) * scale + cpp_int(a.denominator());
  const cpp_int divisor = 2 * cpp_int(a.denominator());
  cpp_int shifted = doubled / divisor;  // towards zero
  if (doubled < 0 && shifted * divisor != doubled) --shifted;

  const bool negative = shifted < 0;
  std::string digits = cpp_int(negative ? -shifted : shifted).str();
  if (digits.size() <= places) digits.insert(0, places + 1 - digits.size(), '0');
  if (places > 0) digits.insert(digits.size() - places, ".");
  return negative ? "-" + digits : digits;
}

}  // namespace stk::values
