// Whether rows are knitted at the tension of the gauge that they were counted by.
#include <algorithm>

#include "compiler/knit/knitter.hpp"
#include "compiler/values/format.hpp"

namespace stk::knit {

using findings::Code;
using grade::has_size;

namespace {

// Hems and cuffs are firmer than the leg, and few of them have a gauge of their own: so many rows and fewer are one.
constexpr std::int64_t rows_of_a_hem = 24;

std::string tension_text(std::int32_t hundredths) {
  if (hundredths == 0) return "MT";
  return "MT " + std::string(hundredths < 0 ? "- " : "+ ") +
         values::number_text(*values::Rational::fraction(hundredths < 0 ? -hundredths : hundredths, 100));
}

// The names that stand in an amount itself, not what they are worked out from.
void names_in(const syntax::ExprPtr& expr, std::set<std::string>& names) {
  if (!expr) return;
  if (const auto* ref = std::get_if<syntax::NameRef>(&expr->node)) {
    if (ref->parts.size() == 1) names.insert(ref->parts[0].text);
  } else if (const auto* call = std::get_if<syntax::Call>(&expr->node)) {
    for (const auto& argument : call->arguments) names_in(argument.value, names);
  } else if (const auto* b = std::get_if<syntax::Binary>(&expr->node)) {
    names_in(b->left, names);
    names_in(b->right, names);
  } else if (const auto* r = std::get_if<syntax::Rounded>(&expr->node)) {
    names_in(r->operand, names);
  } else if (const auto* u = std::get_if<syntax::Unary>(&expr->node)) {
    names_in(u->operand, names);
  } else if (const auto* w = std::get_if<syntax::WithUnit>(&expr->node)) {
    names_in(w->operand, names);
  } else if (const auto* c = std::get_if<syntax::Conditional>(&expr->node)) {
    names_in(c->consequent, names);
    names_in(c->alternative, names);
  }
}

}  // namespace

void Knitter::check_gauge_of(const syntax::Expr& expr, Place& place, const Counts& rows) {
  const std::optional<std::string> fabric = fabric_counted_in(expr, *place.frame);
  if (!fabric) return;
  const grade::FabricGauge* counted = evaluator_.gauge(*fabric);
  const auto first = static_cast<std::size_t>(std::countr_zero(place.active));
  if (!counted || first >= sizes_) return;
  const std::int32_t now = benches_[first].machine().tension(runtime::Bed::main) * 10;
  if (counted->tension_hundredths == now) return;
  const grade::FabricGauge* at_this = nullptr;
  for (const grade::FabricGauge& other : evaluator_.gauges())
    if (other.tension_hundredths == now && &other != counted) at_this = &other;
  // Where no gauge was taken at this tension, the rows of a finished measure come out shorter or longer than it says.
  if (!at_this && !(measured(expr, *place.frame) && std::any_of(rows.begin(), rows.end(), [](const auto& n) { return n && *n > rows_of_a_hem; })))
    return;
  if (!gauges_told_.insert({*fabric, now}).second) return;   // one tension that was not set back is one mistake
  auto builder = findings_.report<Code::Y21>(expr.span);
  builder.label("counted at {}, knitted at {}", tension_text(counted->tension_hundredths), tension_text(now));
  if (at_this) {
    builder.label(at_this->where, "the gauge at {}", tension_text(now))
        .help("{}", at_this->fabric.empty() ? std::string("`rows(…)` without the fabric's name counts by the main gauge") : "`rows(…, " + at_this->fabric + ")` counts by this gauge")
        .help("or the tension was to be set back: `tension {}`", tension_text(counted->tension_hundredths));
  } else {
    builder.label(counted->where, "the gauge at {}", tension_text(counted->tension_hundredths))
        .help("`tension {}` before this step, if it was to be set back", tension_text(counted->tension_hundredths))
        .help("or a gauge of this fabric: `gauge firm … sts, … rows to 10 cm, at {}` in the edition, and `rows(…, firm)`", tension_text(now));
  }
  builder.at(edition_, place.active);
}

// Whether the amount names what a finished measure is made of.
bool Knitter::measured(const syntax::Expr& expr, const grade::Frame& frame) const {
  std::set<std::string> finished, here;
  for (const names::Placed<syntax::Finished>& measure : program_.finished) names_in(measure.node->value, finished);
  if (const auto* ref = std::get_if<syntax::NameRef>(&expr.node)) {
    if (ref->parts.size() == 1) here.insert(ref->parts[0].text);
  } else if (const auto* b = std::get_if<syntax::Binary>(&expr.node)) {
    names_in(b->left, here);
    names_in(b->right, here);
  }
  return std::any_of(here.begin(), here.end(), [&](const std::string& name) { return finished.count(name) > 0 && !frame.find(name); });
}

// Which gauge the rows(…) inside an amount were counted by, through the lets it names; nothing when it counts none.
std::optional<std::string> Knitter::fabric_counted_in(const syntax::Expr& expr, const grade::Frame& frame, int depth) const {
  if (depth > 16) return std::nullopt;
  const auto go = [&](const syntax::ExprPtr& e) { return e ? fabric_counted_in(*e, frame, depth + 1) : std::nullopt; };
  const auto either = [&](const syntax::ExprPtr& a, const syntax::ExprPtr& b) {
    auto found = go(a);
    return found ? found : go(b);
  };
  if (const auto* call = std::get_if<syntax::Call>(&expr.node)) {
    if (call->callee.text != "rows" && call->callee.text != "rounds") return std::nullopt;
    if (call->arguments.size() < 2) return std::string();
    if (const auto* ref = std::get_if<syntax::NameRef>(&call->arguments[1].value->node); ref && ref->parts.size() == 1) return ref->parts[0].text;
    return std::nullopt;
  }
  if (const auto* ref = std::get_if<syntax::NameRef>(&expr.node)) {
    if (ref->parts.size() != 1 || frame.find(ref->parts[0].text)) return std::nullopt;
    const names::Declaration* declaration = program_.find(frame.file, names::Space::value, ref->parts[0].text);
    if (!declaration) return std::nullopt;
    if (const auto* let = std::get_if<const syntax::Let*>(&declaration->what); let && !(*let)->has_parameters && (*let)->value) {
      grade::Frame outer{nullptr, declaration->file(), {}};
      return fabric_counted_in(*(*let)->value, outer, depth + 1);
    }
    return std::nullopt;
  }
  if (const auto* b = std::get_if<syntax::Binary>(&expr.node)) return either(b->left, b->right);
  if (const auto* r = std::get_if<syntax::Rounded>(&expr.node)) return go(r->operand);
  if (const auto* u = std::get_if<syntax::Unary>(&expr.node)) return go(u->operand);
  if (const auto* w = std::get_if<syntax::WithUnit>(&expr.node)) return go(w->operand);
  if (const auto* c = std::get_if<syntax::Conditional>(&expr.node)) return either(c->consequent, c->alternative);
  return std::nullopt;
}

}  // namespace stk::knit
