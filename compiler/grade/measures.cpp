// The rows of the sizes table: written down, worked out from one another, or given for one person.
#include "compiler/grade/evaluate.hpp"
#include "compiler/grade/operators.hpp"

namespace stk::grade {

using findings::Code;
using values::Quantity;

Graded Evaluator::measure(const names::Measure& measure, const Frame& frame) {
  const auto& made = program_.sizes.made;
  const bool replaced = measure.given && made;
  SizeSet active = all_sizes(sizes_);
  if (replaced) active &= ~size_bit(made->size);   // what the row would say of that size is not asked
  Graded value = measure.formula ? worked_out(measure, frame, active) : cells(measure);
  if (replaced) value[made->size] = *measure.given;
  return value;
}

Graded Evaluator::cells(const names::Measure& measure) {
  Graded result(sizes_);
  for (std::size_t i = 0; i < sizes_ && i < measure.cells.size(); ++i)
    if (measure.cells[i]) result[i] = number(*measure.cells[i]);
  if (!measure.unit) return result;
  const values::Unit* unit = values::find_unit(measure.unit->text);
  if (!unit) {
    findings_.report<Code::V04>(measure.unit->span, measure.unit->text, "a row of the sizes table")
        .label("no unit is called `{}`", measure.unit->text).help("the units are mm, cm, m, in, sts, rows, rounds, needles, g, tex and %");
    return Graded(sizes_);
  }
  for (std::size_t i = 0; i < sizes_; ++i)
    if (const Quantity* q = result.quantity(i)) {
      const auto read = values::in_unit(q->value, *unit);
      if (read) result[i] = *read;
      else result[i] = Poison{};
    }
  return result;
}

// A measure is a number of each body; a yes or no, a text or needles are none.
Graded Evaluator::worked_out(const names::Measure& measure, const Frame& frame, SizeSet active) {
  Graded value = evaluate(*measure.formula, frame, active);
  SizeSet wrong = 0;
  for (std::size_t i = 0; i < sizes_; ++i) {
    if (!has_size(active, i) || value.quantity(i) || value.poisoned(i) || std::holds_alternative<Absent>(value[i])) continue;
    wrong |= size_bit(i);
  }
  if (wrong) {
    const auto first = static_cast<std::size_t>(std::countr_zero(wrong));
    report_wrong_kind({findings_, edition_}, *measure.formula, "a measure or a number", value[first], wrong);
    for (std::size_t i = 0; i < sizes_; ++i)
      if (has_size(wrong, i)) value[i] = Poison{};
  }
  refuse_below_zero(measure.row->name, *measure.formula, value, frame, active);
  return value;
}

}  // namespace stk::grade
