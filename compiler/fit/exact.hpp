// Sums over values that may be missing: a size without a measure, a fabric without a gauge. What cannot be worked out
// is nothing, and nothing goes through every sum.
#pragma once

#include <optional>

#include "compiler/knit/facts.hpp"
#include "compiler/values/rational.hpp"

namespace stk::fit {

using values::Rational;
using Maybe = std::optional<Rational>;

inline Maybe kept(const values::Outcome<Rational>& outcome) {
  return outcome ? Maybe(*outcome) : std::nullopt;
}
inline Maybe plus(const Maybe& a, const Maybe& b) {
  return a && b ? kept(values::add(*a, *b)) : std::nullopt;
}
inline Maybe minus(const Maybe& a, const Maybe& b) {
  return a && b ? kept(values::subtract(*a, *b)) : std::nullopt;
}
inline Maybe times(const Maybe& a, const Maybe& b) {
  return a && b ? kept(values::multiply(*a, *b)) : std::nullopt;
}
inline Maybe over(const Maybe& a, const Maybe& b) {
  return a && b && !b->is_zero() ? kept(values::divide(*a, *b)) : std::nullopt;
}
// How much larger a sock is than the body there: (sock - body) / body.
inline Maybe ease_of(const Maybe& sock, const Maybe& body) {
  return over(minus(sock, body), body);
}

// A row of the sizes table by its name, in mm, in one size.
inline Maybe body_measure(const knit::Facts& facts, const char* name, std::size_t size) {
  for (std::size_t row = 0; row < facts.body_measures.size() && row < facts.body_measure_names.size(); ++row) {
    if (facts.body_measure_names[row] != name || size >= facts.body_measures[row].size()) continue;
    const auto& value = facts.body_measures[row][size];
    if (value && value->dimension == values::dimensions::length && !value->value.is_zero()) return value->value;
  }
  return std::nullopt;
}

inline Maybe value_at(const knit::Amount& amount, std::size_t size) {
  return size < amount.size() && amount[size] ? Maybe(amount[size]->value) : std::nullopt;
}

}  // namespace stk::fit
