// Yarn counts, exactly. Direct systems give mass to a length (tex, dtex, denier: a larger number is a thicker yarn),
// indirect ones length to a mass (metric, cotton, worsted, linen, run: a larger number is a finer yarn). All are turned into
// tex (ISO 1144): g to the kilometre.
//
// A plied yarn is written count/plies, `Nm 80/2` for two ends of Nm 80, in every system here. Some labels put the plies
// first; nothing is guessed: looks_swapped() tells a spelling in which they may be the wrong way round.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string_view>

#include "compiler/values/quantity.hpp"

namespace stk::values {

enum class CountSystem : std::uint8_t { tex, dtex, denier, metric, cotton, worsted, linen, run };

struct CountSystemEntry {
  CountSystem system;
  std::string_view spelling;   // as written before a number: Nm, Ne, worsted
  std::string_view meaning;    // "metres in a gram"
  bool direct;                 // tex = factor * count; else tex = factor / count
  Rational factor;
  std::string_view source;
};

std::span<const CountSystemEntry> count_systems();
const CountSystemEntry* find_count_system(std::string_view spelling);   // null if there is none

// The whole yarn's count in tex: plies * one ply. Reason::division_by_zero for count 0 of an indirect system,
// out_of_range for a count or number of plies that is not positive.
Outcome<Rational> tex_of(CountSystem system, const Rational& count, const Rational& plies = 1);
// As a quantity of mass to a length.
Outcome<Quantity> yarn_count(CountSystem system, const Rational& count, const Rational& plies = 1);
// The count of one single in another system.
Outcome<Rational> count_in(CountSystem system, const Rational& tex);

// `worsted 2/24`: more plies than count, or a number of plies that is no whole number.
bool looks_swapped(const Rational& count, const Rational& plies);

}  // namespace stk::values
