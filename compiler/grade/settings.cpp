#include "compiler/grade/settings.hpp"

#include "compiler/values/format.hpp"

namespace stk::grade {

using findings::Code;
using values::Quantity;

std::optional<Quantity> read_setting(std::string_view given) {
  const auto trim = [](std::string_view s) {
    while (!s.empty() && s.front() == ' ') s.remove_prefix(1);
    while (!s.empty() && s.back() == ' ') s.remove_suffix(1);
    return s;
  };
  given = trim(given);
  const bool negative = !given.empty() && given.front() == '-';
  if (negative) given = trim(given.substr(1));
  std::size_t end = given.size();
  // The unit is what is left when the digits end; ½ and its kin are digits, so the split is at the first letter or %.
  for (std::size_t i = 0; i < given.size(); ++i)
    if ((given[i] >= 'a' && given[i] <= 'z') || given[i] == '%' || given[i] == ' ') {
      end = i;
      break;
    }
  const auto number = values::from_digits(given.substr(0, end));
  if (!number) return std::nullopt;
  const values::Rational value = negative ? -*number : *number;
  const std::string_view spelled = trim(given.substr(end));
  if (spelled.empty()) return Quantity{value, {}};
  const values::Unit* unit = values::find_unit(spelled);
  if (!unit) return std::nullopt;
  const auto quantity = values::in_unit(value, *unit);
  if (!quantity) return std::nullopt;
  return *quantity;
}

void check_setting(Desk desk, const syntax::Setting& setting, Graded& value, const Graded& low, const Graded& high,
                   const Graded* step) {
  SizeSet outside = 0, between = 0, other = 0;
  for (std::size_t i = 0; i < value.size(); ++i) {
    const Quantity *v = value.quantity(i), *a = low.quantity(i), *b = high.quantity(i);
    if (!v || !a || !b) continue;
    const auto below = values::compare(*v, *a), above = values::compare(*v, *b);
    if (!below || !above) {
      other |= size_bit(i);
      continue;
    }
    if (*below < 0 || *above > 0) {
      outside |= size_bit(i);
      continue;
    }
    const Quantity* s = step ? step->quantity(i) : nullptr;
    if (!s || s->value.is_zero()) continue;
    const auto distance = values::subtract(*v, *a);
    if (!distance) continue;
    const auto rest = values::modulo(*distance, *s);
    if (rest && !rest->value.is_zero()) between |= size_bit(i);
  }
  const auto show = [](const Quantity& q) {
    return q.dimension.is_plain() ? values::number_text(q.value, 4) : values::quantity_text(q);
  };
  const auto first_of = [](SizeSet set) { return static_cast<std::size_t>(std::countr_zero(set)); };
  if (outside) {
    const std::size_t i = first_of(outside);
    desk.findings.report<Code::V14>(setting.name.span, setting.name.text)
        .label("{} is set; it may go from {} to {}", show(*value.quantity(i)), show(*low.quantity(i)), show(*high.quantity(i)));
  }
  if (between) {
    const std::size_t i = first_of(between);
    desk.findings.report<Code::V14>(setting.name.span, setting.name.text)
        .label("{} lies between two steps of {} from {}", show(*value.quantity(i)), show(*step->quantity(i)), show(*low.quantity(i)));
  }
  if (other)
    desk.findings.report<Code::V14>(setting.name.span, setting.name.text)
        .label("it is {}, and its range {}", describe(value[first_of(other)]), describe(low[first_of(other)]));
  for (std::size_t i = 0; i < value.size(); ++i)
    if (has_size(outside | between | other, i)) value[i] = Poison{};
}

}  // namespace stk::grade
