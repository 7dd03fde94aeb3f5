#include "compiler/knit/setup_yarn.hpp"

#include "compiler/values/format.hpp"

namespace stk::knit {
namespace {

using findings::Code;
using grade::Frame;
using values::Dimension;
using values::Quantity;

constexpr const char* counts = "`420 m to 100 g`, `238 tex`, `Nm 8.4/2`";

bool positive(const Quantity& quantity) {
  return !quantity.value.is_negative() && !quantity.value.is_zero();
}

// One amount for all sizes, more than nothing; what is not is reported with what was wanted.
std::optional<Quantity> amount(const syntax::ExprPtr& expr, Dimension dimension, const char* wanted, const char* help,
                               const Frame& frame, grade::Evaluator& evaluator, findings::Findings& findings) {
  if (!expr) return std::nullopt;
  const grade::SizeSet everywhere = grade::all_sizes(evaluator.sizes());
  const grade::Graded value = evaluator.evaluate(*expr, frame, everywhere);
  const Quantity* quantity = value.quantity(0);
  if (!quantity) return std::nullopt;
  if (quantity->dimension == dimension && positive(*quantity)) return *quantity;
  const std::string found =
      quantity->dimension == dimension ? values::quantity_text(*quantity) : grade::describe(value[0]);
  findings.report<Code::V06>(expr->span, wanted)
      .label("this is {}", found)
      .help("{}", help)
      .at(evaluator.edition(), everywhere);
  return std::nullopt;
}

void read_label(const syntax::YarnLabel& label, const Frame& frame, grade::Evaluator& evaluator,
                findings::Findings& findings, SetupYarn& own) {
  constexpr const char* as_printed = "`420 m to 100 g`: the length first, then the mass, as a label has them";
  const auto length =
      amount(label.length, values::dimensions::length, "a length of yarn", as_printed, frame, evaluator, findings);
  const auto mass = amount(label.mass, values::dimensions::mass, "a mass", as_printed, frame, evaluator, findings);
  if (!length || !mass) return;
  const auto count = values::divide(*mass, *length);  // tex = 1000 g/m, exactly
  if (!count) return;
  own.count = *count;
  own.count_span = label.span;
  own.label_length = length;
  own.label_mass = mass;
}

void read_stock(const syntax::YarnStock& stock, const Frame& frame, grade::Evaluator& evaluator,
                findings::Findings& findings, SetupYarn& own) {
  own.ball = amount(stock.size, values::dimensions::mass, "the mass of a ball", "`balls of 50 g`, `2 balls of 50 g`",
                    frame, evaluator, findings);
  own.stock_span = stock.span;
  if (!stock.balls) return;
  const auto whole =
      evaluator.whole(*stock.balls, values::dimensions::plain, frame, grade::all_sizes(evaluator.sizes()));
  own.balls.resize(whole.size());
  for (std::size_t i = 0; i < whole.size(); ++i)
    if (whole[i]) own.balls[i] = Quantity{values::Rational(*whole[i]), values::dimensions::plain};
}

}  // namespace

SetupYarn set_up_yarn(const syntax::Yarn& yarn, const Frame& frame, grade::Evaluator& evaluator,
                      findings::Findings& findings) {
  SetupYarn own;
  own.name = yarn.name.text;
  own.span = yarn.name.span;
  own.waste = own.name == "waste";
  if (yarn.description)
    own.description = evaluator.text(*yarn.description, frame, grade::all_sizes(evaluator.sizes()))[0];
  for (const syntax::ExprPtr& property : yarn.properties)
    if (const auto count =
            amount(property, values::dimensions::mass_per_length, "a yarn count", counts, frame, evaluator, findings)) {
      own.count = count;
      own.count_span = property->span;
    }
  for (const syntax::YarnLabel& label : yarn.labels) read_label(label, frame, evaluator, findings, own);
  for (const syntax::YarnStock& stock : yarn.stock) read_stock(stock, frame, evaluator, findings, own);
  if (yarn.margin) {
    const auto margin =
        evaluator.quantity(*yarn.margin, values::dimensions::plain, frame, grade::all_sizes(evaluator.sizes()));
    if (!margin.empty() && margin[0]) {
      if (!margin[0]->value.is_negative() && margin[0]->value <= values::Rational(1))
        own.margin = *margin[0];
      else
        findings.report<Code::V06>(yarn.margin->span, "a margin")
            .label("this is {} %", values::percent(margin[0]->value))
            .help("`margin 15%`: from nothing to as much again");
    }
  }
  return own;
}

}  // namespace stk::knit
