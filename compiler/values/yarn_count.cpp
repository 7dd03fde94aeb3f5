// The count systems and their exact factors. The indirect British systems count hanks of so many yards to the pound, so
// that tex = (pound in g · 1000) / (hank in yd · yard in m) / count; the fractions below are that, reduced.
#include "compiler/values/yarn_count.hpp"

#include <algorithm>
#include <array>

namespace stk::values {

namespace {

constexpr std::array<CountSystemEntry, 8> table{{
    {CountSystem::tex, "tex", "grams in 1,000 m", true, Rational::of(1, 1), "ISO 1144:2016"},
    {CountSystem::dtex, "dtex", "grams in 10,000 m", true, Rational::of(1, 10), "ISO 1144:2016"},
    {CountSystem::denier, "denier", "grams in 9,000 m", true, Rational::of(1, 9), "ISO 2947 (from memory)"},
    {CountSystem::metric, "Nm", "metres in a gram", false, Rational::of(1000, 1), "ISO 2947 (from memory)"},
    {CountSystem::cotton, "Ne", "hanks of 840 yd in a pound", false, Rational::of(32399455, 54864),
     "840 yd, 1959 units"},
    {CountSystem::worsted, "worsted", "hanks of 560 yd in a pound", false, Rational::of(32399455, 36576),
     "560 yd, 1959 units"},
    {CountSystem::linen, "linen", "leas of 300 yd in a pound", false, Rational::of(45359237, 27432),
     "300 yd, 1959 units"},
    {CountSystem::run, "run", "lengths of 1,600 yd in a pound", false, Rational::of(45359237, 146304),
     "1,600 yd, 1959 units"},
}};

const CountSystemEntry& entry_of(CountSystem system) {
  return table[static_cast<std::size_t>(system)];
}

bool positive(const Rational& value) {
  return !value.is_zero() && !value.is_negative();
}

}  // namespace

std::span<const CountSystemEntry> count_systems() {
  return table;
}

const CountSystemEntry* find_count_system(std::string_view spelling) {
  const auto found = std::find_if(table.begin(), table.end(),
                                  [&](const CountSystemEntry& entry) { return entry.spelling == spelling; });
  return found == table.end() ? nullptr : &*found;
}

Outcome<Rational> tex_of(CountSystem system, const Rational& count, const Rational& plies) {
  const CountSystemEntry& entry = entry_of(system);
  if (count.is_zero() && !entry.direct) return Reason::division_by_zero;
  if (!positive(count) || !positive(plies)) return Reason::out_of_range;
  const Outcome<Rational> single = entry.direct ? multiply(entry.factor, count) : divide(entry.factor, count);
  if (!single) return single.reason();
  return multiply(*single, plies);
}

Outcome<Quantity> yarn_count(CountSystem system, const Rational& count, const Rational& plies) {
  const Outcome<Rational> tex = tex_of(system, count, plies);
  if (!tex) return tex.reason();
  return in_unit(*tex, *find_unit("tex"));
}

Outcome<Rational> count_in(CountSystem system, const Rational& tex) {
  const CountSystemEntry& entry = entry_of(system);
  if (!positive(tex)) return tex.is_zero() ? Reason::division_by_zero : Reason::out_of_range;
  return entry.direct ? divide(tex, entry.factor) : divide(entry.factor, tex);
}

bool looks_swapped(const Rational& count, const Rational& plies) {
  return plies > count || !plies.is_whole();
}

}  // namespace stk::values
