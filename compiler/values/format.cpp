// Numbers and measures as a reader sees them.
#include "compiler/values/format.hpp"

#include <array>
#include <string_view>

namespace stk::values {

namespace {

constexpr Rational ten = Rational::of(10, 1);
constexpr Rational inch = Rational::of(127, 5);
constexpr Rational tex = Rational::of(1, 1000000);

// The value in the unit in which it is shown. Out of range cannot be shown otherwise than exactly, in base units.
Rational scaled(const Rational& value, const Rational& factor) {
  const Outcome<Rational> shown = divide(value, factor);
  return shown ? *shown : value;
}

// Base units to the unit shown: cm for each length above the line, and per cm below it.
Rational shown_amount(const Quantity& quantity) {
  if (quantity.dimension == dimensions::mass_per_length) return scaled(quantity.value, tex);
  Rational amount = quantity.value;
  for (int power = quantity.dimension.length; power > 0; --power) amount = scaled(amount, ten);
  for (int power = quantity.dimension.length; power < 0; ++power) amount = scaled(amount, Rational::of(1, 10));
  return amount;
}

}  // namespace

std::string number_text(const Rational& value, unsigned max_places) {
  std::string text = decimal(value, max_places);
  if (text.find('.') != std::string::npos) {
    text.erase(text.find_last_not_of('0') + 1);
    if (text.back() == '.') text.pop_back();
  }
  return text == "-0" ? "0" : text;
}

std::string centimetres(const Rational& millimetres) {
  return number_text(scaled(millimetres, ten), 1);
}

std::string inches(const Rational& millimetres) {
  static constexpr std::array<std::string_view, 4> quarters{"", "¼", "½", "¾"};
  const Rational four = nearest(scaled(absolute(millimetres), scaled(inch, 4)));
  const Wide whole = four.numerator() / 4;
  const auto rest = static_cast<std::size_t>(four.numerator() % 4);
  std::string text = millimetres.is_negative() && !four.is_zero() ? "-" : "";
  if (whole != 0 || rest == 0) text += exact(Rational::of(whole, 1));
  return text.append(quarters[rest]);
}

std::string percent(const Rational& ratio, unsigned max_places) {
  return number_text(scaled(ratio, Rational::of(1, 100)), max_places);
}

std::string amount_text(const Quantity& quantity) {
  const bool is_length = quantity.dimension == dimensions::length;
  return number_text(shown_amount(quantity), is_length ? 1 : 2);
}

std::string quantity_text(const Quantity& quantity) {
  std::string text = amount_text(quantity);
  if (quantity.dimension.is_plain()) return text;
  std::string unit = unit_word(quantity.dimension);
  if (quantity.dimension.is_count() && text == "1") unit.pop_back();  // 1 st, 1 row, 1 round
  return text + " " + unit;
}

}  // namespace stk::values
