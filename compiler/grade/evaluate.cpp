#include "compiler/grade/evaluate.hpp"

#include <algorithm>

#include "compiler/grade/operators.hpp"
#include "compiler/grade/settings.hpp"
#include "compiler/names/builtins.hpp"
#include "compiler/text/limits.hpp"
#include "compiler/values/format.hpp"
#include "compiler/values/yarn_count.hpp"

namespace stk::grade {

using findings::Code;
using values::Quantity;

namespace {

template <class... F>
struct Overloaded : F... {
  using F::operator()...;
};
template <class... F>
Overloaded(F...) -> Overloaded<F...>;

// Selector forms that no plain value shares.
bool is_selector(const syntax::Expr& expr) {
  return std::visit(
      [](const auto& node) {
        using T = std::decay_t<decltype(node)>;
        return std::is_same_v<T, syntax::BedSelector> || std::is_same_v<T, syntax::HalfSelector> ||
               std::is_same_v<T, syntax::MiddleSelector> || std::is_same_v<T, syntax::OnSideSelector> ||
               std::is_same_v<T, syntax::OfEachSelector> || std::is_same_v<T, syntax::EverySelector> ||
               std::is_same_v<T, syntax::NeedleRange> || std::is_same_v<T, syntax::OfSelector> ||
               std::is_same_v<T, syntax::ExceptSelector> || std::is_same_v<T, syntax::UnionSelector>;
      },
      expr.node);
}

}  // namespace

const Binding* Frame::find(std::string_view name) const {
  for (const Frame* frame = this; frame; frame = frame->outer)
    for (auto it = frame->bindings.rbegin(); it != frame->bindings.rend(); ++it)
      if (it->name == name) return &*it;
  return nullptr;
}

Evaluator::Evaluator(const names::Program& program, std::uint16_t edition,
                     const std::map<std::string, std::string>& settings, findings::Findings& findings)
    : program_(program), edition_(edition), settings_(settings), findings_(findings), sizes_(program.sizes.size()) {
  for (const findings::Finding& finding : findings.all())
    if (finding.severity == findings::Severity::error) unknown_.insert({finding.primary.file.value, finding.primary.begin});
  read_gauges();
}

const FabricGauge* Evaluator::gauge(std::string_view fabric) const {
  for (const FabricGauge& g : gauges_)
    if (g.fabric == fabric) return &g;
  return nullptr;
}

Graded Evaluator::evaluate(const syntax::Expr& expr, const Frame& frame, SizeSet active) {
  const Desk desk{findings_, edition_};
  if (is_selector(expr)) {
    if (host_) return host_->select(expr, frame, active);
    findings_.report<Code::V06>(expr.span, "a number").label("needles are known inside a piece only")
        .help("say it inside the piece, after the cast-on").at(edition_, active);
    return Graded(sizes_);
  }
  // Depth is bounded by the parser for one expression; formulas that call one another add to it.
  if (depth_ > text::limits::call_depth * 4) return Graded(sizes_);
  ++depth_;
  Graded result = std::visit(
      Overloaded{
          [&](const syntax::Number& n) {
            const auto read = values::from_digits(n.digits);
            if (read) return Graded(sizes_, Quantity{*read, {}});
            report_reason(desk, expr, read.reason(), active);
            return Graded(sizes_);
          },
          [&](const syntax::Grade& g) { return grade(expr, g.values); },
          [&](const syntax::ExceptGrade& g) { return except(expr, g); },
          [&](const syntax::WithUnit& u) {
            return with_unit(desk, expr, u, evaluate(*u.operand, frame, active), active);
          },
          [&](const syntax::As& a) { return as_unit(desk, expr, a, evaluate(*a.operand, frame, active), active); },
          [&](const syntax::Text&) {
            Graded texts(sizes_);
            const std::vector<std::string> all = text(expr, frame, active);
            for (std::size_t i = 0; i < sizes_; ++i) texts[i] = all[i];
            return texts;
          },
          [&](const syntax::NameRef& ref) { return name(expr, ref, frame, active); },
          [&](const syntax::Call& c) { return call(expr, c, frame, active); },
          [&](const syntax::Unary& u) { return unary(desk, expr, u, evaluate(*u.operand, frame, active), active); },
          [&](const syntax::Binary& b) {
            Graded left = evaluate(*b.left, frame, active);
            Graded right = evaluate(*b.right, frame, active);
            return binary(desk, expr, b, std::move(left), std::move(right), active);
          },
          [&](const syntax::Rounded& r) {
            Graded operand = evaluate(*r.operand, frame, active);
            std::optional<Graded> modulus, offset;
            if (r.modulus) modulus = evaluate(*r.modulus, frame, active);
            if (r.offset) offset = evaluate(*r.offset, frame, active);
            return rounded(desk, expr, r, std::move(operand), modulus ? &*modulus : nullptr, offset ? &*offset : nullptr,
                           active);
          },
          [&](const syntax::Conditional& c) {
            const auto yes = condition(*c.condition, frame, active);
            SizeSet then = 0, otherwise = 0;
            for (std::size_t i = 0; i < sizes_; ++i)
              if (has_size(active, i) && yes[i]) (*yes[i] ? then : otherwise) |= size_bit(i);
            // Each branch is worked out for its own sizes only: a division by zero in the others is none.
            Graded chosen(sizes_);
            Graded first = then ? evaluate(*c.consequent, frame, then) : Graded(sizes_);
            Graded second = otherwise ? evaluate(*c.alternative, frame, otherwise) : Graded(sizes_);
            for (std::size_t i = 0; i < sizes_; ++i)
              if (has_size(then, i)) chosen[i] = first[i];
              else if (has_size(otherwise, i)) chosen[i] = second[i];
            return chosen;
          },
          [&](const syntax::Fraction& f) {
            const auto* system = values::find_count_system(f.system.text);
            const auto count = values::from_digits(f.count);
            const auto plies = f.ply.empty() ? values::Outcome<values::Rational>(values::Rational(1)) : values::from_digits(f.ply);
            if (!system) return Graded(sizes_);   // reported where names are looked up
            if (!count || !plies) {
              findings_.report<Code::V04>(expr.span, f.system.text, "a yarn count")
                  .label("`{}` is beyond what can be worked out exactly", f.count);
              return Graded(sizes_);
            }
            const auto tex = values::yarn_count(system->system, *count, *plies);
            if (tex) return Graded(sizes_, *tex);
            report_reason(desk, expr, tex.reason(), active);
            return Graded(sizes_);
          },
          [&](const auto&) { return Graded(sizes_); }},   // Invalid: reported by the parser; selectors: above
      expr.node);
  --depth_;
  return result;
}

Value Evaluator::number(const syntax::SizeValue& spelled) {
  if (spelled.dash) return Absent{};
  const auto read = values::from_digits(spelled.digits);
  if (!read) {
    findings_.report<Code::V03>(spelled.span).label("this cannot be read as a number");
    return Poison{};
  }
  return Quantity{spelled.negative ? -*read : *read, {}};
}

Graded Evaluator::grade(const syntax::Expr& expr, const std::vector<syntax::SizeValue>& spelled) {
  Graded result(sizes_);
  if (spelled.size() != sizes_) {
    // Merging unites the editions, in which the same number of values is missing.
    auto builder = findings_.report<Code::V10>(expr.span);
    builder.label("{} values for {} sizes", spelled.size(), sizes_);
    if (spelled.size() < sizes_)
      builder.help("{} has none; a graded value has one for each size, in the order of the sizes table, or `-`",
                   program_.sizes.columns[spelled.size()].printed);
    else
      builder.help("the sizes table has {} sizes; a graded value has one for each", sizes_);
    return result;
  }
  for (std::size_t i = 0; i < sizes_; ++i) result[i] = number(spelled[i]);
  return result;
}

Graded Evaluator::except(const syntax::Expr& expr, const syntax::ExceptGrade& given) {
  (void)expr;
  Graded result(sizes_, number(given.others));
  for (const auto& [size, value] : given.exceptions)
    if (const auto index = program_.sizes.index_of(size.text)) result[*index] = number(value);   // else names/ reported
  return result;
}

Graded Evaluator::name(const syntax::Expr& expr, const syntax::NameRef& ref, const Frame& frame, SizeSet active) {
  if (ref.parts.size() == 1) {
    const std::string& spelled = ref.parts.front().text;
    if (const Binding* binding = frame.find(spelled)) return binding->value;
    if (auto value = pattern_value(frame.file, spelled)) return *value;
    if (names::is_builtin_selection(spelled)) {
      if (host_) return host_->select(expr, frame, active);
      findings_.report<Code::V06>(expr.span, "a number").label("needles are known inside a piece only")
          .help("say it inside the piece, after the cast-on").at(edition_, active);
      return Graded(sizes_);
    }
    if (unknown_.contains({expr.span.file.value, expr.span.begin})) return Graded(sizes_);
    return Graded(sizes_, Word{spelled});
  }
  std::string joined;
  for (const syntax::Name& part : ref.parts) joined += (joined.empty() ? "" : ".") + part.text;
  if (auto value = pattern_value(frame.file, joined)) return *value;
  if (unknown_.contains({expr.span.file.value, expr.span.begin})) return Graded(sizes_);
  return Graded(sizes_, Word{joined});
}

std::optional<Graded> Evaluator::pattern_value(text::FileId from, std::string_view spelled) {
  const names::Declaration* declaration = program_.find(from, names::Space::value, spelled);
  if (!declaration) return std::nullopt;
  if (auto known = known_.find(declaration); known != known_.end()) return known->second;
  // A circle was reported by names/; the lane stays Poison while its value is being worked out.
  known_.emplace(declaration, Graded(sizes_));
  Graded value = declared(*declaration);
  known_.insert_or_assign(declaration, value);
  return value;
}

Graded Evaluator::declared(const names::Declaration& declaration) {
  Frame frame{nullptr, declaration.file(), {}};
  const SizeSet everywhere = all_sizes(sizes_);
  // Nothing at pattern level may ask the machine, even when it is first wanted inside a piece.
  Host* const host = host_;
  host_ = nullptr;
  Graded result = std::visit(
      Overloaded{[&](const syntax::Let* l) {
                   if (l->has_parameters) return Graded(sizes_);   // a formula without its brackets: names/ reports
                   return let(*l, frame, everywhere);
                 },
                 [&](const syntax::Setting* s) { return setting(*s, frame); },
                 [&](const names::Measure* m) { return measure(*m, frame); },
                 [&](const auto*) { return Graded(sizes_); }},
      declaration.what);
  host_ = host;
  return result;
}

Graded Evaluator::let(const syntax::Let& let, const Frame& frame, SizeSet active) {
  Graded value = evaluate(*let.value, frame, active);
  refuse_below_zero(let.name, *let.value, value, frame, active);
  return value;
}

void Evaluator::refuse_below_zero(const syntax::Name& name, const syntax::Expr& expr, Graded& value, const Frame& frame,
                                  SizeSet active) {
  SizeSet negative = 0;
  for (std::size_t i = 0; i < sizes_; ++i)
    if (const Quantity* q = value.quantity(i);
        q && has_size(active, i) && (q->dimension.is_count() || q->dimension == values::dimensions::length) && q->value.is_negative())
      negative |= size_bit(i);
  if (!negative) return;
  const auto first = static_cast<std::size_t>(std::countr_zero(negative));
  auto builder = findings_.report<Code::V07>(name.span, name.text);
  const std::string& printed = program_.sizes.columns[first].printed;
  builder.label("{} comes to {}{}", name.text, values::quantity_text(*value.quantity(first)),
                printed.empty() ? printed : " in " + printed);
  for (const std::string& part : parts(expr, frame, first)) builder.note("{}", part);
  builder.help("check the gauge and what is subtracted here").at(edition_, negative);
  for (std::size_t i = 0; i < sizes_; ++i)
    if (has_size(negative, i)) value[i] = Poison{};
}

Graded Evaluator::setting(const syntax::Setting& declared_setting, const Frame& frame) {
  const SizeSet everywhere = all_sizes(sizes_);
  Graded value = evaluate(*declared_setting.value, frame, everywhere);
  if (const auto given = settings_.find(declared_setting.name.text); given != settings_.end()) {
    if (const auto read = read_setting(given->second)) value = Graded(sizes_, *read);
    else {
      findings_.report<Code::V15>(declared_setting.name.span, declared_setting.name.text)
          .label("`{}` was given", given->second).help("a number with its unit, such as 40% or 12 cm");
      return Graded(sizes_);
    }
  }
  const Desk desk{findings_, edition_};
  if (!declared_setting.from || !declared_setting.to) return value;
  const Graded low = evaluate(*declared_setting.from, frame, everywhere);
  const Graded high = evaluate(*declared_setting.to, frame, everywhere);
  const auto step = declared_setting.step ? std::optional(evaluate(*declared_setting.step, frame, everywhere)) : std::nullopt;
  check_setting(desk, declared_setting, value, low, high, step ? &*step : nullptr);
  return value;
}

std::vector<std::optional<bool>> Evaluator::condition(const syntax::Expr& expr, const Frame& frame, SizeSet active) {
  const Graded value = evaluate(expr, frame, active);
  std::vector<std::optional<bool>> result(sizes_);
  SizeSet wrong = 0;
  for (std::size_t i = 0; i < sizes_; ++i) {
    if (!has_size(active, i) || value.poisoned(i)) continue;
    if (const bool* b = std::get_if<bool>(&value[i])) result[i] = *b;
    else wrong |= size_bit(i);
  }
  if (wrong)
    report_wrong_kind({findings_, edition_}, expr, "a yes or no", value[static_cast<std::size_t>(std::countr_zero(wrong))], wrong);
  return result;
}

std::vector<std::string> Evaluator::text(const syntax::Expr& expr, const Frame& frame, SizeSet active) {
  std::vector<std::string> result(sizes_);
  const auto* text = std::get_if<syntax::Text>(&expr.node);
  if (!text) return result;
  for (const syntax::TextPiece& piece : text->pieces) {
    if (!piece.value) {
      for (std::string& s : result) s += piece.literal;
      continue;
    }
    const Graded value = evaluate(*piece.value, frame, active);
    for (std::size_t i = 0; i < sizes_; ++i) {
      if (!has_size(active, i)) continue;
      if (const auto* needles = std::get_if<NeedlesId>(&value[i])) result[i] += host_ ? host_->phrase(*needles, i) : "needles";
      else if (const Quantity* q = value.quantity(i)) result[i] += values::amount_text(*q);
      else if (!value.poisoned(i)) result[i] += text_of(value[i]);
    }
  }
  return result;
}

}  // namespace stk::grade
