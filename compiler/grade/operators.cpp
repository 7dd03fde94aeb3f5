#include "compiler/grade/operators.hpp"

#include <map>

#include "compiler/values/format.hpp"
#include "compiler/values/rounding.hpp"

namespace stk::grade {
namespace {

using findings::Code;
using syntax::Binary;
using values::Dimension;
using values::Outcome;
using values::Quantity;
using values::Reason;

// The lanes in which something could not be worked out, by reason, so that each reason is one finding.
struct Failures {
  std::map<Reason, SizeSet> by_reason;
  void add(Reason reason, std::size_t size) { by_reason[reason] |= size_bit(size); }
};

const char* verb_of(Binary::Op op) {
  switch (op) {
    case Binary::Op::add: return "added";
    case Binary::Op::subtract: return "subtracted";
    case Binary::Op::mod: return "divided for a remainder";
    default: return "compared";
  }
}

Outcome<Quantity> compute(Binary::Op op, const Quantity& a, const Quantity& b) {
  switch (op) {
    case Binary::Op::add: return values::add(a, b);
    case Binary::Op::subtract: return values::subtract(a, b);
    case Binary::Op::multiply: return values::multiply(a, b);
    case Binary::Op::divide: return values::divide(a, b);
    default: return values::modulo(a, b);
  }
}

bool is_comparison(Binary::Op op) {
  return op == Binary::Op::less || op == Binary::Op::less_equal || op == Binary::Op::greater ||
         op == Binary::Op::greater_equal || op == Binary::Op::is || op == Binary::Op::is_not;
}

bool holds(Binary::Op op, std::strong_ordering order) {
  switch (op) {
    case Binary::Op::less: return order < 0;
    case Binary::Op::less_equal: return order <= 0;
    case Binary::Op::greater: return order > 0;
    case Binary::Op::greater_equal: return order >= 0;
    case Binary::Op::is: return order == 0;
    default: return order != 0;
  }
}

std::optional<Dimension> count_dimension(const Graded& graded) {
  for (std::size_t i = 0; i < graded.size(); ++i)
    if (const Quantity* q = graded.quantity(i); q && q->dimension.is_count()) return q->dimension;
  return std::nullopt;
}

void report_mixture(Desk desk, const syntax::Expr& expr, const Binary& op, const Quantity& a, const Quantity& b,
                    SizeSet wrong) {
  auto builder = desk.findings.report<Code::V01>(expr.span, values::describe(a.dimension), values::describe(b.dimension),
                                                 verb_of(op.op));
  builder.label("{} here, {} there", values::quantity_text(a), values::quantity_text(b)).at(desk.edition, wrong);
  if (a.dimension.is_count() && b.dimension.is_count())
    builder.help("`as rows` or `as sts` after a value in brackets turns one into the other, one to one");
  else if (a.dimension == values::dimensions::length || b.dimension == values::dimensions::length)
    builder.help("`stitches(…)` and `rows(…)` turn a length into a count by the gauge; `width(…)` and `height(…)` turn it back");
  else
    builder.help("a unit after the number, such as `2 sts` or `(body / 2) sts`, says what it counts");
}

}  // namespace

bool is_bare_literal(const syntax::Expr& expr) {
  if (const auto* minus = std::get_if<syntax::Unary>(&expr.node))
    return minus->op == syntax::Unary::Op::minus && is_bare_literal(*minus->operand);
  return std::holds_alternative<syntax::Number>(expr.node) || std::holds_alternative<syntax::Grade>(expr.node) ||
         std::holds_alternative<syntax::ExceptGrade>(expr.node);
}

void adopt(Graded& literal, Dimension dimension) {
  for (std::size_t i = 0; i < literal.size(); ++i)
    if (auto* q = std::get_if<Quantity>(&literal[i]); q && q->dimension.is_plain()) q->dimension = dimension;
}

void report_wrong_kind(Desk desk, const syntax::Expr& expr, std::string_view wanted, const Value& is, SizeSet wrong) {
  auto builder = desk.findings.report<Code::V06>(expr.span, wanted);
  builder.label("this is {}", describe(is)).at(desk.edition, wrong);
  if (const auto* number = std::get_if<values::Quantity>(&is); number && number->dimension.is_plain() && wanted == "a length")
    builder.help("its unit is missing: `5 cm`, or `cm` at the end of its row in the sizes");
  if (wanted == "a number" && std::holds_alternative<NeedlesId>(is))   // each (a) - b: the sum ended at its bracket
    builder.help("an amount that is worked out stands in brackets as a whole: `last of each (n - 1)`, `(n + 2) on left`");
  if (wanted == "a yes or no") builder.help("a comparison says yes or no: `steps > 3`, `turns is not 0`");
}

void report_reason(Desk desk, const syntax::Expr& expr, Reason reason, SizeSet wrong) {
  switch (reason) {
    case Reason::division_by_zero:
      desk.findings.report<Code::V02>(expr.span).label("what it is divided by is 0 here").at(desk.edition, wrong)
          .help("`if … then … else …` gives the sizes in which it is 0 a value of their own");
      return;
    case Reason::out_of_range:
      desk.findings.report<Code::V03>(expr.span).label("the result has too many digits").at(desk.edition, wrong)
          .help("check the units and what is multiplied here");
      return;
    case Reason::not_a_number:
    case Reason::too_many_digits:
      desk.findings.report<Code::V03>(expr.span).label("this cannot be read as a number").at(desk.edition, wrong);
      return;
    case Reason::needs_a_multiple:
      desk.findings.report<Code::V09>(expr.span, "only counts and plain numbers have a whole")
          .label("a length, a mass, or one thing divided by another has none").at(desk.edition, wrong)
          .help("`rounded to multiple of 5 cm` says the step of a length; where rows are divided by stitches, write the one "
                "`as count`");
      return;
    case Reason::multiple_not_positive:
      desk.findings.report<Code::V09>(expr.span, "its step is 0 or less").label("the multiple is 0 or less here")
          .at(desk.edition, wrong).help("`rounded to multiple of 4`: a step of 1 or more");
      return;
    case Reason::not_whole:
      desk.findings.report<Code::V09>(expr.span, "a fraction is neither even nor odd")
          .label("what it takes its parity from is no whole number here").at(desk.edition, wrong)
          .help("round that one first: `rounded to even`, `rounded up` … where it is worked out");
      return;
    case Reason::too_large:
      desk.findings.report<Code::V03>(expr.span).label("more than any bed or piece has").at(desk.edition, wrong);
      return;
    case Reason::different_dimensions:
      desk.findings.report<Code::V09>(expr.span, "its step counts something else")
          .label("the step counts something else than what is rounded").at(desk.edition, wrong)
          .help("a plain number, or the unit of what is rounded");
      return;
  }
}

Graded binary(Desk desk, const syntax::Expr& expr, const Binary& op, Graded left, Graded right, SizeSet active) {
  const std::size_t sizes = left.size();
  const bool sum_like = op.op == Binary::Op::add || op.op == Binary::Op::subtract || op.op == Binary::Op::mod ||
                        is_comparison(op.op);
  if (sum_like) {
    if (is_bare_literal(*op.left))
      if (auto d = count_dimension(right)) adopt(left, *d);
    if (is_bare_literal(*op.right))
      if (auto d = count_dimension(left)) adopt(right, *d);
  }
  Graded result(sizes);
  Failures failures;
  SizeSet wrong_left = 0, wrong_right = 0;
  std::size_t first_mixture = sizes;
  SizeSet mixtures = 0;
  const bool logical = op.op == Binary::Op::logical_and || op.op == Binary::Op::logical_or;
  for (std::size_t i = 0; i < sizes; ++i) {
    if (!has_size(active, i) || left.poisoned(i) || right.poisoned(i)) continue;
    const Value &a = left[i], &b = right[i];
    if (logical) {
      const bool *x = std::get_if<bool>(&a), *y = std::get_if<bool>(&b);
      if (!x) wrong_left |= size_bit(i);
      else if (!y) wrong_right |= size_bit(i);
      else result[i] = op.op == Binary::Op::logical_and ? *x && *y : *x || *y;
      continue;
    }
    if (std::holds_alternative<Absent>(a) || std::holds_alternative<Absent>(b)) {
      result[i] = Absent{};
      continue;
    }
    const auto *x = std::get_if<Quantity>(&a), *y = std::get_if<Quantity>(&b);
    if ((op.op == Binary::Op::is || op.op == Binary::Op::is_not) && !x && a.index() == b.index()) {
      bool equal = false;
      if (const auto* w = std::get_if<Word>(&a)) equal = *w == std::get<Word>(b);
      else if (const auto* s = std::get_if<std::string>(&a)) equal = *s == std::get<std::string>(b);
      else if (const auto* t = std::get_if<bool>(&a)) equal = *t == std::get<bool>(b);
      result[i] = equal == (op.op == Binary::Op::is);
      continue;
    }
    if (!x) { wrong_left |= size_bit(i); continue; }
    if (!y) { wrong_right |= size_bit(i); continue; }
    if (is_comparison(op.op)) {
      const auto order = values::compare(*x, *y);
      if (order) result[i] = holds(op.op, *order);
      else if (order.reason() == Reason::different_dimensions) { mixtures |= size_bit(i); first_mixture = std::min(first_mixture, i); }
      else failures.add(order.reason(), i);
      continue;
    }
    const auto computed = compute(op.op, *x, *y);
    if (computed) result[i] = *computed;
    else if (computed.reason() == Reason::different_dimensions) { mixtures |= size_bit(i); first_mixture = std::min(first_mixture, i); }
    else failures.add(computed.reason(), i);
  }
  const char* wanted = logical ? "a yes or no" : "a number";
  const auto first_of = [](SizeSet set) { return static_cast<std::size_t>(std::countr_zero(set)); };
  if (wrong_left) report_wrong_kind(desk, *op.left, wanted, left[first_of(wrong_left)], wrong_left);
  if (wrong_right) report_wrong_kind(desk, *op.right, wanted, right[first_of(wrong_right)], wrong_right);
  if (mixtures) report_mixture(desk, expr, op, *left.quantity(first_mixture), *right.quantity(first_mixture), mixtures);
  for (const auto& [reason, set] : failures.by_reason) report_reason(desk, expr, reason, set);
  return result;
}

Graded unary(Desk desk, const syntax::Expr& expr, const syntax::Unary& op, Graded operand, SizeSet active) {
  Graded result(operand.size());
  SizeSet wrong = 0;
  const bool minus = op.op == syntax::Unary::Op::minus;
  for (std::size_t i = 0; i < operand.size(); ++i) {
    if (!has_size(active, i) || operand.poisoned(i)) continue;
    if (const auto* q = operand.quantity(i); q && minus) result[i] = Quantity{-q->value, q->dimension};
    else if (const auto* b = std::get_if<bool>(&operand[i]); b && !minus) result[i] = !*b;
    else if (std::holds_alternative<Absent>(operand[i])) result[i] = Absent{};
    else wrong |= size_bit(i);
  }
  if (wrong)
    report_wrong_kind(desk, *op.operand, minus ? "a number" : "a yes or no",
                      operand[static_cast<std::size_t>(std::countr_zero(wrong))], wrong);
  (void)expr;
  return result;
}

Graded with_unit(Desk desk, const syntax::Expr& expr, const syntax::WithUnit& unit, Graded operand, SizeSet active) {
  const values::Unit* known = values::find_unit(unit.unit.text);
  Graded result(operand.size());
  if (!known) {
    desk.findings.report<Code::V04>(unit.unit.span, unit.unit.text, "a number").label("no unit is called `{}`", unit.unit.text)
        .help("the units are mm, cm, m, in, sts, rows, rounds, needles, g, tex and %").at(desk.edition, active);
    return result;
  }
  Failures failures;
  SizeSet clash = 0, wrong = 0;
  for (std::size_t i = 0; i < operand.size(); ++i) {
    if (!has_size(active, i) || operand.poisoned(i)) continue;
    if (std::holds_alternative<Absent>(operand[i])) { result[i] = Absent{}; continue; }
    const Quantity* q = operand.quantity(i);
    if (!q) { wrong |= size_bit(i); continue; }
    if (q->dimension == known->dimension && !q->dimension.is_plain()) { result[i] = *q; continue; }
    if (!q->dimension.is_plain()) { clash |= size_bit(i); continue; }
    const auto read = values::in_unit(q->value, *known);
    if (read) result[i] = *read;
    else failures.add(read.reason(), i);
  }
  const auto first_of = [](SizeSet set) { return static_cast<std::size_t>(std::countr_zero(set)); };
  if (wrong) report_wrong_kind(desk, *unit.operand, "a number", operand[first_of(wrong)], wrong);
  if (clash) {
    const Quantity& q = *operand.quantity(first_of(clash));
    desk.findings.report<Code::V04>(expr.span, unit.unit.text, values::describe(q.dimension))
        .label("this is {} already", values::quantity_text(q))
        .help("a unit belongs to the one number before it; brackets widen that: `(body * 2 / 3) sts`")
        .at(desk.edition, clash);
  }
  for (const auto& [reason, set] : failures.by_reason) report_reason(desk, expr, reason, set);
  return result;
}

Graded as_unit(Desk desk, const syntax::Expr& expr, const syntax::As& as, Graded operand, SizeSet active) {
  Graded result(operand.size());
  Dimension target = values::dimensions::plain;
  if (as.unit.text != "count") {
    const values::Unit* known = values::find_unit(as.unit.text);
    if (known) target = known->dimension;
  }
  SizeSet wrong = 0;
  for (std::size_t i = 0; i < operand.size(); ++i) {
    if (!has_size(active, i) || operand.poisoned(i)) continue;
    const Quantity* q = operand.quantity(i);
    if (std::holds_alternative<Absent>(operand[i])) result[i] = Absent{};
    else if (q && (q->dimension.is_count() || q->dimension.is_plain())) result[i] = Quantity{q->value, target};
    else wrong |= size_bit(i);
  }
  if (wrong) {
    const Value& is = operand[static_cast<std::size_t>(std::countr_zero(wrong))];
    desk.findings.report<Code::V13>(expr.span, as.unit.text).label("this is {}", describe(is))
        .help("`stitches(…)` and `rows(…)` turn a length into a count by the gauge").at(desk.edition, wrong);
  }
  return result;
}

Graded rounded(Desk desk, const syntax::Expr& expr, const syntax::Rounded& how, Graded operand, const Graded* modulus,
               const Graded* offset, SizeSet active) {
  using D = syntax::Rounded::Direction;
  using T = syntax::Rounded::Target;
  values::Rounding rounding;
  rounding.towards = how.direction == D::up     ? values::RoundTowards::up
                     : how.direction == D::down ? values::RoundTowards::down
                                                : values::RoundTowards::nearest;
  switch (how.target) {
    case T::whole: rounding.to = values::RoundTo::whole; break;
    case T::even: rounding.to = values::RoundTo::even; break;
    case T::odd: rounding.to = values::RoundTo::odd; break;
    case T::multiple: rounding.to = values::RoundTo::multiple; break;
    case T::parity: rounding.to = values::RoundTo::parity; break;
  }
  Graded result(operand.size());
  Failures failures;
  SizeSet wrong = 0, wrong_modulus = 0, wrong_offset = 0;
  for (std::size_t i = 0; i < operand.size(); ++i) {
    if (!has_size(active, i) || operand.poisoned(i)) continue;
    if (std::holds_alternative<Absent>(operand[i])) { result[i] = Absent{}; continue; }
    const Quantity* q = operand.quantity(i);
    if (!q) { wrong |= size_bit(i); continue; }
    rounding.operand.reset();
    rounding.offset.reset();
    if (modulus) {
      if (modulus->poisoned(i)) continue;
      const Quantity* m = modulus->quantity(i);
      if (!m) { wrong_modulus |= size_bit(i); continue; }
      rounding.operand = *m;
    }
    if (offset) {
      if (offset->poisoned(i)) continue;
      const Quantity* k = offset->quantity(i);
      if (!k) { wrong_offset |= size_bit(i); continue; }
      rounding.offset = how.offset_negative ? Quantity{-k->value, k->dimension} : *k;
    }
    const auto r = values::round(*q, rounding);
    if (r) result[i] = r->quantity;
    else failures.add(r.reason(), i);
  }
  const auto first_of = [](SizeSet set) { return static_cast<std::size_t>(std::countr_zero(set)); };
  if (wrong) report_wrong_kind(desk, *how.operand, "a number", operand[first_of(wrong)], wrong);
  if (wrong_modulus) report_wrong_kind(desk, *how.modulus, "a number", (*modulus)[first_of(wrong_modulus)], wrong_modulus);
  if (wrong_offset) report_wrong_kind(desk, *how.offset, "a number", (*offset)[first_of(wrong_offset)], wrong_offset);
  for (const auto& [reason, set] : failures.by_reason) report_reason(desk, expr, reason, set);
  return result;
}

}  // namespace stk::grade
