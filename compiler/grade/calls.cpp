// Formulas of the source and the functions that the language brings along.
#include <algorithm>

#include "compiler/grade/evaluate.hpp"
#include "compiler/grade/operators.hpp"
#include "compiler/names/builtins.hpp"
#include "compiler/text/limits.hpp"
#include "compiler/values/spacing.hpp"

namespace stk::grade {

using findings::Code;
using names::Builtin;
using values::Quantity;
using values::Rational;

Graded Evaluator::call(const syntax::Expr& expr, const syntax::Call& call, const Frame& frame, SizeSet active) {
  const names::Declaration* declaration = program_.find(frame.file, names::Space::value, call.callee.text);
  const syntax::Let* formula = nullptr;
  if (declaration)
    if (const auto* let = std::get_if<const syntax::Let*>(&declaration->what)) formula = *let;
  if (!formula) return built_in(expr, call, frame, active);

  Frame inside{nullptr, declaration->file(), {}};
  for (std::size_t i = 0; i < formula->parameters.size() && i < call.arguments.size(); ++i) {
    // The first stands alone, the others may be named: a label says which parameter is meant.
    std::size_t target = i;
    if (call.arguments[i].label)
      for (std::size_t p = 0; p < formula->parameters.size(); ++p)
        if (formula->parameters[p].text == call.arguments[i].label->text) target = p;
    inside.bindings.push_back({formula->parameters[target].text, evaluate(*call.arguments[i].value, frame, active),
                               formula->parameters[target].span});
  }
  if (inside.bindings.size() != formula->parameters.size()) return Graded(sizes_);   // names/ reported it
  return let(*formula, inside, active);
}

Graded Evaluator::built_in(const syntax::Expr& expr, const syntax::Call& call, const Frame& frame, SizeSet active) {
  const names::BuiltinEntry* entry = names::find_builtin(call.callee.text);
  if (!entry || call.arguments.size() < entry->least || (entry->most != names::any_number && call.arguments.size() > entry->most))
    return Graded(sizes_);   // names/ reported it
  if (entry->takes_fabric) return gauge_call(expr, call, frame, active);

  const Desk desk{findings_, edition_};
  std::vector<Graded> arguments;
  for (const syntax::Argument& argument : call.arguments) arguments.push_back(evaluate(*argument.value, frame, active));
  Graded result(sizes_);

  if (entry->builtin == Builtin::count) {
    if (const auto needles = arguments[0].needles(); needles && host_) return host_->count(*needles, active);
    for (std::size_t i = 0; i < sizes_; ++i)
      if (has_size(active, i) && !arguments[0].poisoned(i)) {
        report_wrong_kind(desk, *call.arguments[0].value, "a set of needles", arguments[0][i], active);
        break;
      }
    return result;
  }
  if (entry->builtin == Builtin::min || entry->builtin == Builtin::max) {
    std::optional<values::Dimension> shared;
    for (const Graded& a : arguments)
      for (std::size_t i = 0; i < sizes_; ++i)
        if (const Quantity* q = a.quantity(i); q && q->dimension.is_count()) shared = q->dimension;
    if (shared)
      for (std::size_t a = 0; a < arguments.size(); ++a)
        if (is_bare_literal(*call.arguments[a].value)) adopt(arguments[a], *shared);
  }
  SizeSet wrong = 0, mixed = 0, fraction = 0, uneven = 0;
  std::size_t wrong_argument = 0;
  for (std::size_t i = 0; i < sizes_; ++i) {
    if (!has_size(active, i)) continue;
    if (std::any_of(arguments.begin(), arguments.end(), [&](const Graded& a) { return a.poisoned(i); })) continue;
    if (std::any_of(arguments.begin(), arguments.end(), [&](const Graded& a) { return std::holds_alternative<Absent>(a[i]); })) {
      result[i] = Absent{};
      continue;
    }
    bool good = true;
    for (std::size_t a = 0; a < arguments.size() && good; ++a)
      if (!arguments[a].quantity(i)) {
        wrong |= size_bit(i);
        wrong_argument = a;
        good = false;
      }
    if (!good) continue;
    const Quantity& first = *arguments[0].quantity(i);
    switch (entry->builtin) {
      case Builtin::even:
      case Builtin::odd: {
        if (!first.value.is_whole()) {
          fraction |= size_bit(i);
          break;
        }
        const bool even = first.value.numerator() % 2 == 0;
        result[i] = even == (entry->builtin == Builtin::even);
        break;
      }
      case Builtin::abs: result[i] = Quantity{values::absolute(first.value), first.dimension}; break;
      case Builtin::min:
      case Builtin::max: {
        Quantity best = first;
        for (std::size_t a = 1; a < arguments.size(); ++a) {
          const auto order = values::compare(*arguments[a].quantity(i), best);
          if (!order) {
            mixed |= size_bit(i);
            good = false;
            break;
          }
          if (entry->builtin == Builtin::min ? *order < 0 : *order > 0) best = *arguments[a].quantity(i);
        }
        if (good) result[i] = best;
        break;
      }
      case Builtin::evenly: {   // the i-th share of a total divided among n as evenly as whole numbers allow
        const auto total = first.value.as_int64(), among = arguments[1].quantity(i)->value.as_int64(),
                   turn = arguments[2].quantity(i)->value.as_int64();
        if (!total || !among || !turn || *total < 0 || *among <= 0 || *turn < 1 || *turn > *among) {
          uneven |= size_bit(i);
          break;
        }
        const auto spacing = values::space_evenly(*total, *among);
        if (spacing) result[i] = Quantity{Rational(spacing->gaps[static_cast<std::size_t>(*turn - 1)]), first.dimension};
        else uneven |= size_bit(i);
        break;
      }
      default: break;
    }
  }
  const auto first_of = [](SizeSet set) { return static_cast<std::size_t>(std::countr_zero(set)); };
  if (wrong) report_wrong_kind(desk, *call.arguments[wrong_argument].value, "a number", arguments[wrong_argument][first_of(wrong)], wrong);
  if (mixed)
    findings_.report<Code::V01>(expr.span, describe(arguments[0][first_of(mixed)]), describe(arguments[1][first_of(mixed)]), "compared")
        .label("{} here, {} there", text_of(arguments[0][first_of(mixed)]), text_of(arguments[1][first_of(mixed)]))
        .help("the smallest and the largest are found among amounts of one kind").at(edition_, mixed);
  if (fraction)
    findings_.report<Code::V05>(expr.span, "a whole number").label("{} is neither even nor odd", text_of(arguments[0][first_of(fraction)]))
        .help("`rounded to even` or another rounding before it makes it whole").at(edition_, fraction);
  if (uneven)
    findings_.report<Code::V11>(expr.span, call.callee.text).label("{} shared among {}, share {}", text_of(arguments[0][first_of(uneven)]),
        text_of(arguments[1][first_of(uneven)]), text_of(arguments[2][first_of(uneven)]))
        .help("the total is a whole number, among how many is 1 or more, and the turn is from 1 to that").at(edition_, uneven);
  return result;
}

// stitches(length), rows(length), rounds(length) and width(sts), height(rows): by the gauge of the edition, or of a second
// fabric named after a comma. A round is one row of fabric all the way round, so the row gauge serves both.
Graded Evaluator::gauge_call(const syntax::Expr& expr, const syntax::Call& call, const Frame& frame, SizeSet active) {
  const Desk desk{findings_, edition_};
  const Builtin which = names::find_builtin(call.callee.text)->builtin;
  Graded argument = evaluate(*call.arguments[0].value, frame, active);
  std::string fabric;
  if (call.arguments.size() > 1)
    if (const auto* ref = std::get_if<syntax::NameRef>(&call.arguments[1].value->node); ref && ref->parts.size() == 1)
      fabric = ref->parts.front().text;
  const FabricGauge* gauge_used = gauge(fabric);
  if (!gauge_used) {
    if (!fabric.empty() && !program_.find(frame.file, names::Space::fabric, fabric)) return Graded(sizes_);   // names/ reported it
    auto builder = findings_.report<Code::V12>(fabric.empty() ? expr.span : call.arguments[1].value->span);
    if (fabric.empty()) builder.label("this edition states no gauge").help("`gauge 24 sts, 34 rows to 10 cm` in the edition states it");
    else builder.label("this edition states no gauge of `{}`", fabric).help("`gauge {} 24 sts, 38 rows to 10 cm` in the edition states it", fabric);
    builder.at(edition_, active);
    return Graded(sizes_);
  }
  if (which == Builtin::width)
    if (const auto needles = argument.needles(); needles && host_) argument = host_->count(*needles, active);

  const bool to_length = which == Builtin::width || which == Builtin::height;
  Graded result(sizes_);
  SizeSet wrong = 0;
  for (std::size_t i = 0; i < sizes_; ++i) {
    if (!has_size(active, i) || argument.poisoned(i)) continue;
    if (std::holds_alternative<Absent>(argument[i])) {
      result[i] = Absent{};
      continue;
    }
    const Quantity* q = argument.quantity(i);
    const bool fits = q && (which == Builtin::width    ? q->dimension == values::dimensions::sts
                            : which == Builtin::height ? q->dimension == values::dimensions::rows || q->dimension == values::dimensions::rounds
                                                       : q->dimension == values::dimensions::length);
    if (!fits) {
      wrong |= size_bit(i);
      continue;
    }
    Quantity per_length = which == Builtin::stitches || which == Builtin::width ? gauge_used->stitches : gauge_used->rows;
    if (which == Builtin::rounds || (which == Builtin::height && q->dimension == values::dimensions::rounds))
      per_length.dimension = values::dimensions::rounds_per_length;
    const auto computed = to_length ? values::divide(*q, per_length) : values::multiply(*q, per_length);
    if (computed) result[i] = *computed;
    else report_reason(desk, expr, computed.reason(), size_bit(i));
  }
  if (wrong)
    report_wrong_kind(desk, *call.arguments[0].value, which == Builtin::width    ? "a count of stitches"
                                                      : which == Builtin::height ? "a count of rows or rounds"
                                                                                 : "a length",
                      argument[static_cast<std::size_t>(std::countr_zero(wrong))], wrong);
  return result;
}

}  // namespace stk::grade
