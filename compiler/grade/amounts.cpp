// What steps and declarations ask of an expression: a whole count, a quantity of one dimension, a tension, the gauges; and
// where a value came from, for the notes of a finding.
#include <algorithm>

#include "compiler/grade/evaluate.hpp"
#include "compiler/grade/operators.hpp"
#include "compiler/values/format.hpp"

namespace stk::grade {

using findings::Code;
using values::Quantity;

namespace {

std::size_t first_of(SizeSet set) { return static_cast<std::size_t>(std::countr_zero(set)); }

// "a number of stitches", "a length": what a step asks for.
std::string wanted_text(values::Dimension dimension) {
  return (dimension.is_count() ? "a number of " : "") + std::string(values::describe(dimension));
}

// Every name in an expression, in the order in which it is read.
void collect_names(const syntax::Expr& expr, std::vector<const syntax::NameRef*>& out, std::vector<text::Span>& spans) {
  const auto go = [&](const syntax::ExprPtr& e) {
    if (e) collect_names(*e, out, spans);
  };
  if (const auto* ref = std::get_if<syntax::NameRef>(&expr.node)) {
    out.push_back(ref);
    spans.push_back(expr.span);
  } else if (const auto* u = std::get_if<syntax::Unary>(&expr.node)) go(u->operand);
  else if (const auto* b = std::get_if<syntax::Binary>(&expr.node)) go(b->left), go(b->right);
  else if (const auto* r = std::get_if<syntax::Rounded>(&expr.node)) go(r->operand), go(r->modulus), go(r->offset);
  else if (const auto* c = std::get_if<syntax::Conditional>(&expr.node)) go(c->condition), go(c->consequent), go(c->alternative);
  else if (const auto* w = std::get_if<syntax::WithUnit>(&expr.node)) go(w->operand);
  else if (const auto* a = std::get_if<syntax::As>(&expr.node)) go(a->operand);
  else if (const auto* call = std::get_if<syntax::Call>(&expr.node))
    for (const syntax::Argument& argument : call->arguments) go(argument.value);
}

}  // namespace

std::vector<std::optional<std::int64_t>> Evaluator::whole(const syntax::Expr& expr, values::Dimension dimension,
                                                          const Frame& frame, SizeSet active) {
  std::vector<std::optional<std::int64_t>> result(sizes_);
  const std::vector<std::optional<Quantity>> quantities = quantity(expr, dimension, frame, active);
  SizeSet fraction = 0, negative = 0, beyond = 0;
  for (std::size_t i = 0; i < sizes_; ++i) {
    if (!quantities[i]) continue;
    const values::Rational& v = quantities[i]->value;
    if (!v.is_whole()) fraction |= size_bit(i);
    else if (v.is_negative()) negative |= size_bit(i);
    else if (!(result[i] = v.as_int64())) beyond |= size_bit(i);
  }
  if (fraction) {
    const std::size_t i = first_of(fraction);
    auto builder = findings_.report<Code::V05>(expr.span, dimension.is_plain() ? std::string("a whole number") : "a whole number of " + values::describe(dimension));
    builder.label("this comes to {}", values::quantity_text(*quantities[i]));
    for (const std::string& part : parts(expr, frame, i)) builder.note("{}", part);
    const std::vector<text::Span> from = origins(expr, frame);
    if (!from.empty()) builder.label(from.front(), "worked out here");
    builder.help("`rounded to even`, `rounded to multiple of 4`, `rounded up` … where it is worked out makes it whole");
    builder.at(edition_, fraction);
  }
  if (negative) {
    const std::size_t i = first_of(negative);
    auto builder = findings_.report<Code::V16>(expr.span);
    builder.label("this comes to {}", values::quantity_text(*quantities[i])).at(edition_, negative);
    for (const std::string& part : parts(expr, frame, i)) builder.note("{}", part);
    builder.help("less taken away, or `max(…, 0)` around it where none is wanted then");
  }
  if (beyond)
    findings_.report<Code::V03>(expr.span).label("more than any bed or piece has").at(edition_, beyond)
        .help("check the units and what is multiplied here");
  return result;
}

std::vector<std::optional<Quantity>> Evaluator::quantity(const syntax::Expr& expr, values::Dimension dimension,
                                                         const Frame& frame, SizeSet active) {
  Graded value = evaluate(expr, frame, active);
  if (is_bare_literal(expr) && dimension.is_count()) adopt(value, dimension);
  std::vector<std::optional<Quantity>> result(sizes_);
  SizeSet wrong = 0, absent = 0;
  for (std::size_t i = 0; i < sizes_; ++i) {
    if (!has_size(active, i) || value.poisoned(i)) continue;
    if (std::holds_alternative<Absent>(value[i])) absent |= size_bit(i);
    else if (const Quantity* q = value.quantity(i); q && q->dimension == dimension) result[i] = *q;
    else wrong |= size_bit(i);
  }
  if (wrong) {
    auto builder = findings_.report<Code::V06>(expr.span, wanted_text(dimension));
    builder.label("this is {}", describe(value[first_of(wrong)])).at(edition_, wrong);
    if (const Quantity* q = value.quantity(first_of(wrong))) {
      if (dimension == values::dimensions::length && q->dimension.is_plain())
        builder.help("its unit is missing: `5 cm`, or `cm` at the end of its row in the sizes");
      if (dimension.is_count() && q->dimension == values::dimensions::length)
        builder.help("`stitches(…)`, `rows(…)` and `rounds(…)` turn a length into a count by the gauge");
      else if (dimension.is_count() && q->dimension.is_plain())
        builder.help("a unit after it says what it counts: `{} {}`", values::amount_text(*q), values::unit_word(dimension));
      else if (dimension.is_count() && q->dimension.is_count())
        builder.help("`as {}` after it turns one into the other, one to one", values::unit_word(dimension));
    }
  }
  if (absent)
    findings_.report<Code::V08>(expr.span).label("its value is `-` in {}", program_.sizes.columns[first_of(absent)].printed)
        .help("a number in its place, or `only for` around the step so that these sizes do not reach it").at(edition_, absent);
  return result;
}

std::optional<std::int32_t> Evaluator::tension(const syntax::Tension& given, const Frame& frame, SizeSet active) {
  if (!given.offset) return 0;
  const Graded value = evaluate(*given.offset, frame, active);
  std::optional<std::int32_t> result;
  for (std::size_t i = 0; i < sizes_; ++i) {
    if (!has_size(active, i) || value.poisoned(i)) continue;
    const Quantity* q = value.quantity(i);
    if (!q || !q->dimension.is_plain()) {
      report_wrong_kind({findings_, edition_}, *given.offset, "a plain number of the dial", value[i], active);
      return std::nullopt;
    }
    const auto hundred = values::multiply(q->value, values::Rational(100));
    if (!hundred) return std::nullopt;
    const auto rounded = values::nearest(*hundred).as_int64();
    if (!rounded || *rounded > 100000 || *rounded < -100000) {
      findings_.report<Code::V03>(given.span).label("no dial has this number").at(edition_, active);
      return std::nullopt;
    }
    const auto signed_value = static_cast<std::int32_t>(given.negative ? -*rounded : *rounded);
    if (result && *result != signed_value) {
      findings_.report<Code::V06>(given.span, "one tension for all sizes").label("the sizes differ here").at(edition_, active);
      return std::nullopt;
    }
    result = signed_value;
  }
  return result;
}

void Evaluator::read_gauges() {
  const syntax::Edition& written = *program_.editions[edition_].node;
  const SizeSet everywhere = all_sizes(sizes_);
  Frame frame{nullptr, program_.editions[edition_].span.file, {}};
  for (const syntax::Gauge& g : written.gauges) {
    if (!g.stitches || !g.rows || !g.over) continue;
    const auto sts = quantity(*g.stitches, values::dimensions::sts, frame, everywhere);
    const auto rows = quantity(*g.rows, values::dimensions::rows, frame, everywhere);
    const auto over = quantity(*g.over, values::dimensions::length, frame, everywhere);
    if (sts.empty() || !sts[0] || !rows[0] || !over[0]) continue;
    const auto per = values::divide(*sts[0], *over[0]);
    const auto per_row = values::divide(*rows[0], *over[0]);
    if (!per || !per_row || per->value <= values::Rational(0) || per_row->value <= values::Rational(0)) {
      findings_.report<Code::V17>(g.span).label("a gauge has stitches, rows and a length above 0")
          .help("`gauge 24 sts, 34 rows to 10 cm`");
      continue;
    }
    FabricGauge read{g.fabric ? g.fabric->text : std::string(), *per, *per_row, 0, g.span};
    if (g.tension)
      if (const auto t = tension(*g.tension, frame, everywhere)) read.tension_hundredths = *t;
    gauges_.push_back(std::move(read));
  }
}

std::vector<std::string> Evaluator::parts(const syntax::Expr& expr, const Frame& frame, std::size_t size) {
  std::vector<const syntax::NameRef*> names;
  std::vector<text::Span> spans;
  collect_names(expr, names, spans);
  std::vector<std::string> result;
  for (const syntax::NameRef* ref : names) {
    if (ref->parts.size() != 1) continue;
    const std::string& name = ref->parts.front().text;
    const Binding* binding = frame.find(name);
    std::optional<Graded> value = binding ? std::optional(binding->value) : pattern_value(frame.file, name);
    if (!value || value->poisoned(size) || std::holds_alternative<NeedlesId>((*value)[size])) continue;
    const std::string line = name + " is " + text_of((*value)[size]);
    if (std::find(result.begin(), result.end(), line) == result.end()) result.push_back(line);
    if (result.size() == 6) break;   // enough to follow a sum with a pencil
  }
  return result;
}

std::vector<text::Span> Evaluator::origins(const syntax::Expr& expr, const Frame& frame) {
  std::vector<const syntax::NameRef*> names;
  std::vector<text::Span> spans;
  collect_names(expr, names, spans);
  std::vector<text::Span> result;
  for (const syntax::NameRef* ref : names) {
    if (ref->parts.size() != 1) continue;
    const std::string& name = ref->parts.front().text;
    if (const Binding* binding = frame.find(name)) result.push_back(binding->declared);
    else if (const auto* declaration = program_.find(frame.file, names::Space::value, name)) result.push_back(declaration->span);
  }
  return result;
}

}  // namespace stk::grade
