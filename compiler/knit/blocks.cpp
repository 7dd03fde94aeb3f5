// Statements that hold or steer others: sections, lets, branches, repeats, technique calls and texts.
#include <algorithm>

#include "compiler/findings/suggest.hpp"
#include "compiler/knit/knitter.hpp"
#include "compiler/knit/prose.hpp"
#include "compiler/text/limits.hpp"

namespace stk::knit {

using findings::Code;
using grade::has_size;
using grade::size_bit;

namespace {

// Steps written down in one run; what lies beyond is knitted and checked all the same.
constexpr std::int64_t recorded_steps = 200'000;

template <class... F>
struct Overloaded : F... {
  using F::operator()...;
};
template <class... F>
Overloaded(F...) -> Overloaded<F...>;

// One entry if all sizes agree.
std::vector<std::string> folded(std::vector<std::string> texts, grade::SizeSet active) {
  const auto first = static_cast<std::size_t>(std::countr_zero(active));
  if (active == 0 || first >= texts.size()) return {std::string()};
  for (std::size_t i = 0; i < texts.size(); ++i)
    if (has_size(active, i) && texts[i] != texts[first]) return texts;
  return {texts[first]};
}

}  // namespace

void Knitter::statements(const std::vector<syntax::Statement>& block, std::size_t from, Place place, std::vector<Step>& out) {
  std::vector<Step>* current = &out;   // a section takes what follows it in its block
  for (std::size_t n = from; n < block.size(); ++n) {
    const syntax::Statement& statement = block[n];
    place.active = living(place.active);
    if (!place.active || !budget(place.active, statement.span)) return;
    std::visit(Overloaded{[&](const syntax::Invalid&) { lose(place.active); },   // reported by the parser
                          [&](const syntax::Let& s) { let(s, place, *current); },
                          [&](const syntax::Section& s) {
                            section(s, statement.span, place, out);
                            current = &out.back().steps;
                          },
                          [&](const syntax::OnlyFor& s) { only_for(s, statement.span, place, *current); },
                          [&](const syntax::If& s) { branch(s, statement.span, place, *current); },
                          [&](const syntax::Nested& s) { inner(s.body, place, *current); },
                          [&](const syntax::Repeat& s) { repeat(s, statement.span, place, *current); },
                          [&](const syntax::Say& s) { say(s, statement.span, place, *current); },
                          [&](const syntax::Note& s) { note(s, statement.span, place, *current); },
                          [&](const syntax::Expect& s) { expect(s, statement.span, place, *current); },
                          [&](const syntax::Work& s) { work(s, statement.span, place, *current); },
                          [&](const syntax::Step& s) { step(s, statement.span, place, *current); }},
               statement.node);
  }
}

bool Knitter::budget(SizeSet active, text::Span where) {
  for (std::size_t i = 0; i < sizes_; ++i) {
    if (!has_size(active, i)) continue;
    if (++benches_[i].steps <= steps_allowed_) continue;
    if (!broken_source_) findings_.report<Code::F21>(where).label("{} steps by now", text::limits::steps_of_a_size)
        .help("`knit 200 rows` is one step; a repeat around single rows is many").at(edition_, active);
    lose(active);
    return false;
  }
  return true;
}

void Knitter::inner(const syntax::Block& block, const Place& place, std::vector<Step>& out) {
  grade::Frame frame{place.frame, place.frame->file, {}};
  Place inside = place;
  inside.frame = &frame;
  statements(block.statements, 0, inside, out);
}

void Knitter::let(const syntax::Let& let, Place& place, std::vector<Step>& out) {
  if (let.has_parameters) {
    findings_.report<Code::E26>(let.name.span, "let " + let.name.text + "(…)").label("a formula is known everywhere or nowhere")
        .help("formulas stand outside the pieces, beside the other `let` lines");
    lose(place.active);
    return;
  }
  grade::Graded value = evaluator_.let(let, *place.frame, place.active);
  if (const auto id = value.needles()) {
    // Inside a library the sets are its own bookkeeping; those of the pattern are told to the knitter by their names.
    if (!sites_.in_library(let.name.span.file)) {
      const grade::NeedlesId named = selections_.named(*id, let.name.text);
      for (std::size_t i = 0; i < sizes_; ++i)
        if (std::holds_alternative<grade::NeedlesId>(value[i])) value[i] = named;
      Step told;
      told.kind = Step::Kind::needles_named;
      told.where = let.name.span;
      told.sizes = place.active;
      told.name = let.name.text;
      told.operation.selections.push_back(selections_[named].shape);
      told.records.resize(sizes_);
      for (std::size_t i = 0; i < sizes_; ++i)
        if (has_size(place.active, i)) told.records[i].before = told.records[i].after = benches_[i].state();
      out.push_back(std::move(told));
    }
  }
  place.frame->bindings.push_back({let.name.text, std::move(value), let.name.span});
}

void Knitter::section(const syntax::Section& section, text::Span where, Place& place, std::vector<Step>& out) {
  Step begun;
  begun.kind = Step::Kind::section;
  begun.where = where;
  begun.sizes = place.active;
  if (section.title) {
    begun.title = folded(evaluator_.text(*section.title, *place.frame, place.active), place.active);
    check_prose(*section.title, findings_, sites_);
  }
  begun.name = section.name ? section.name->text : std::string();
  begun.records.resize(sizes_);
  section_name_ = begun.name;
  counter_reset_ = false;
  for (std::size_t i = 0; i < sizes_; ++i) {
    if (!has_size(place.active, i)) continue;
    const runtime::Outcome outcome = benches_[i].apply({tag(where), runtime::BeginSection{}});
    benches_[i].begin_section(begun.name, outcome.section);
    begun.records[i].before = begun.records[i].after = benches_[i].state();
    counter_at_section_[i] = benches_[i].machine().counter();
  }
  out.push_back(std::move(begun));
}

void Knitter::only_for(const syntax::OnlyFor& only, text::Span where, Place& place, std::vector<Step>& out) {
  // Sizes and editions may stand side by side: of the editions this one must be among them, of the sizes those named.
  SizeSet sizes = 0;
  bool any_size = false, any_edition = false, this_edition = false;
  for (const syntax::Name& name : only.names) {
    if (const auto index = program_.sizes.index_of(name.text)) {
      sizes |= size_bit(*index);
      any_size = true;
    } else if (program_.find(place.frame->file, names::Space::edition, name.text)) {
      any_edition = true;
      this_edition = this_edition || name.text == setup_.name;
    }
  }
  SizeSet inside = place.active;
  if (any_size) inside &= sizes;
  if (any_edition && !this_edition) inside = 0;
  if (!any_size && !any_edition) inside = 0;   // unknown names: names/ reported them
  if (!inside) return;
  Step step;
  step.kind = Step::Kind::only_for;
  step.where = where;
  step.sizes = inside;
  step.records.resize(sizes_);
  Place narrowed = place;
  narrowed.active = inside;
  inner(only.body, narrowed, step.steps);
  out.push_back(std::move(step));
}

void Knitter::branch(const syntax::If& written, text::Span where, Place& place, std::vector<Step>& out) {
  const auto yes = evaluator_.condition(*written.condition, *place.frame, place.active);
  SizeSet then = 0, otherwise = 0;
  for (std::size_t i = 0; i < sizes_; ++i) {
    if (!has_size(place.active, i)) continue;
    if (!yes[i]) benches_[i].lost = true;
    else (*yes[i] ? then : otherwise) |= size_bit(i);
  }
  const auto one = [&](SizeSet sizes, auto&& run) {
    if (!sizes) return;
    Step step;
    step.kind = Step::Kind::condition;
    step.where = where;
    step.sizes = sizes;
    step.records.resize(sizes_);
    Place narrowed = place;
    narrowed.active = sizes;
    run(narrowed, step.steps);
    if (!step.steps.empty()) out.push_back(std::move(step));
  };
  one(then, [&](Place& narrowed, std::vector<Step>& steps) { inner(written.then, narrowed, steps); });
  if (written.otherwise)
    one(otherwise, [&](Place& narrowed, std::vector<Step>& steps) {
      if (const auto* nested = std::get_if<syntax::Nested>(&written.otherwise->node)) inner(nested->body, narrowed, steps);
      else if (const auto* next = std::get_if<syntax::If>(&written.otherwise->node)) branch(*next, written.otherwise->span, narrowed, steps);
    });
}

void Knitter::repeat(const syntax::Repeat& written, text::Span where, Place& place, std::vector<Step>& out) {
  const grade::Graded value = evaluator_.evaluate(*written.times, *place.frame, place.active);
  // Any whole number says how often: a plain one, or stitches, rows, rounds.
  std::optional<values::Dimension> dimension;
  for (std::size_t i = 0; i < sizes_; ++i)
    if (const values::Quantity* q = value.quantity(i); q && has_size(place.active, i) && !dimension) dimension = q->dimension;
  Counts times(sizes_);
  if (dimension && (dimension->is_plain() || dimension->is_count()))
    times = evaluator_.whole(*written.times, *dimension, *place.frame, place.active);
  else if (dimension)
    times = evaluator_.whole(*written.times, {}, *place.frame, place.active);   // reports that it is no number of times
  std::int64_t most = 0;
  SizeSet too_many = 0;
  for (std::size_t i = 0; i < sizes_; ++i) {
    if (!has_size(place.active, i)) continue;
    if (!times[i]) benches_[i].lost = true;
    else if (*times[i] > static_cast<std::int64_t>(text::limits::repeat_turns)) too_many |= size_bit(i);
    else most = std::max(most, *times[i]);
  }
  if (too_many) {
    const auto first = static_cast<std::size_t>(std::countr_zero(too_many));
    findings_.report<Code::F20>(written.times->span).label("{} turns; {} at most", *times[first], text::limits::repeat_turns)
        .help("plain rows need no repeat: `knit 400 rows` is one step").at(edition_, too_many);
    lose(too_many);
  }
  place.active = living(place.active);
  if (!place.active) return;
  Step step;
  step.kind = Step::Kind::repeat;
  step.where = where;
  step.sizes = place.active;
  step.records.resize(sizes_);
  for (std::size_t i = 0; i < sizes_; ++i)
    if (has_size(place.active, i)) {
      step.records[i].before = benches_[i].state();
      step.records[i].amount = *times[i];
      step.records[i].idle = *times[i] == 0;
    }
  for (std::int64_t turn = 1; turn <= most; ++turn) {
    SizeSet still = 0;
    for (std::size_t i = 0; i < sizes_; ++i)
      if (has_size(place.active, i) && !benches_[i].lost && *times[i] >= turn) still |= size_bit(i);
    if (!still) break;
    grade::Frame frame{place.frame, place.frame->file, {}};
    if (written.turn)
      frame.bindings.push_back({written.turn->text, grade::Graded(sizes_, values::Quantity{values::Rational(turn), {}}), written.turn->span});
    Place inside = place;
    inside.frame = &frame;
    inside.active = still;
    inside.drawing = place.drawing && turn == 1;
    std::vector<Step> steps;
    const bool before = recording_;
    recording_ = recording_ && step.turns.size() < kept_turns && recorded_ < recorded_steps;
    statements(written.body.statements, 0, inside, steps);
    if (recording_) step.turns.push_back(std::move(steps));
    recording_ = before;
  }
  for (std::size_t i = 0; i < sizes_; ++i)
    if (has_size(place.active, i)) step.records[i].after = benches_[i].state();
  out.push_back(std::move(step));
}

void Knitter::say(const syntax::Say& written, text::Span where, Place& place, std::vector<Step>& out) {
  Step step;
  step.kind = Step::Kind::say;
  step.where = where;
  step.sizes = place.active;
  step.records.resize(sizes_);
  step.title = folded(evaluator_.text(*written.text, *place.frame, place.active), place.active);
  check_prose(*written.text, findings_, sites_);
  for (std::size_t i = 0; i < sizes_; ++i)
    if (has_size(place.active, i)) step.records[i].before = benches_[i].state();
  inner(written.body, place, step.steps);
  for (std::size_t i = 0; i < sizes_; ++i)
    if (has_size(place.active, i)) step.records[i].after = benches_[i].state();
  out.push_back(std::move(step));
}

void Knitter::note(const syntax::Note& written, text::Span where, Place& place, std::vector<Step>& out) {
  Step step;
  step.kind = written.caution ? Step::Kind::caution : Step::Kind::note;
  step.where = where;
  step.sizes = place.active;
  step.records.resize(sizes_);
  step.title = folded(evaluator_.text(*written.text, *place.frame, place.active), place.active);
  check_prose(*written.text, findings_, sites_);
  out.push_back(std::move(step));
}

bool Knitter::bind_arguments(const syntax::Technique& technique, const syntax::Work& written, Place& place, grade::Frame& inside) {
  std::vector<const syntax::Argument*> given(technique.parameters.size(), nullptr);
  for (std::size_t a = 0; a < written.call.arguments.size(); ++a) {
    const syntax::Argument& argument = written.call.arguments[a];
    std::size_t target = a;
    if (argument.label) {
      target = technique.parameters.size();
      for (std::size_t p = 0; p < technique.parameters.size(); ++p)
        if (technique.parameters[p].name.text == argument.label->text) target = p;
    }
    if (target >= given.size() || given[target]) return false;   // names/ reported it
    given[target] = &argument;
  }
  for (std::size_t p = 0; p < technique.parameters.size(); ++p) {
    const syntax::Parameter& parameter = technique.parameters[p];
    const syntax::Expr* expr = given[p] ? given[p]->value.get() : parameter.fallback.get();
    if (!expr) return false;
    const grade::Frame* frame = given[p] ? place.frame : &inside;   // a fallback is written in the technique
    const std::string kind = parameter.kinds.size() == 1 ? parameter.kinds.front().text : std::string();
    if (kind == "needles") {
      SizeSet good = place.active;
      Place at = place;
      grade::Frame copy = *frame;
      at.frame = &copy;
      const auto chosen = needles(*expr, at, Among::working);
      good = at.active;
      if (!chosen) return false;
      grade::Graded value(sizes_);
      // A parameter keeps the words of what was given for it: "the right half".
      const Selection& shape = selections_[chosen->id].shape;
      const bool own_name = shape.name.empty() && !sites_.in_library(parameter.name.span.file);
      const grade::NeedlesId id = own_name ? selections_.named(chosen->id, parameter.name.text) : chosen->id;
      for (std::size_t i = 0; i < sizes_; ++i)
        if (has_size(good, i)) value[i] = id;
      inside.bindings.push_back({parameter.name.text, std::move(value), parameter.name.span});
      continue;
    }
    grade::Graded value = evaluator_.evaluate(*expr, *frame, place.active);
    std::optional<values::Dimension> wanted;
    if (kind == "sts") wanted = values::dimensions::sts;
    else if (kind == "rows") wanted = values::dimensions::rows;
    else if (kind == "rounds") wanted = values::dimensions::rounds;
    else if (kind == "count") wanted = values::dimensions::plain;
    else if (kind == "length") wanted = values::dimensions::length;
    if (wanted) {
      const auto quantities = evaluator_.quantity(*expr, *wanted, *frame, place.active);
      for (std::size_t i = 0; i < sizes_; ++i) {
        if (quantities[i]) value[i] = *quantities[i];
        else value[i] = grade::Poison{};
      }
    } else if (parameter.kinds.size() > 1) {
      for (std::size_t i = 0; i < sizes_; ++i) {
        if (!has_size(place.active, i) || value.poisoned(i)) continue;
        const auto* word = std::get_if<grade::Word>(&value[i]);
        if (word && std::any_of(parameter.kinds.begin(), parameter.kinds.end(), [&](const syntax::Name& k) { return k.text == word->text; })) continue;
        std::string choices;
        for (const syntax::Name& k : parameter.kinds) choices += (choices.empty() ? "`" : " or `") + k.text + "`";
        findings_.report<Code::V06>(expr->span, choices).label("this is {}", grade::describe(value[i])).at(edition_, place.active);
        return false;
      }
    }
    inside.bindings.push_back({parameter.name.text, std::move(value), parameter.name.span});
  }
  return true;
}

void Knitter::work(const syntax::Work& written, text::Span where, Place& place, std::vector<Step>& out) {
  const names::Declaration* declaration = program_.find(place.frame->file, names::Space::technique, written.call.callee.text);
  const auto* technique_at = declaration ? std::get_if<const syntax::Technique*>(&declaration->what) : nullptr;
  if (!technique_at || place.calls->size() >= text::limits::call_depth) {
    lose(place.active);   // unknown, or calling itself: names/ reported it
    return;
  }
  const syntax::Technique& technique = **technique_at;
  grade::Frame inside{nullptr, declaration->file(), {}};
  if (!bind_arguments(technique, written, place, inside)) {
    lose(place.active);
    return;
  }
  Step step;
  step.kind = Step::Kind::technique;
  step.where = where;
  step.sizes = place.active;
  step.name = technique.name.text;
  step.records.resize(sizes_);
  for (std::size_t i = 0; i < sizes_; ++i)
    if (has_size(place.active, i)) step.records[i].before = benches_[i].state();

  place.calls->push_back(written.call.callee.span);
  std::vector<std::int64_t> passes(sizes_);
  for (std::size_t i = 0; i < sizes_; ++i)
    if (has_size(place.active, i) && benches_[i].knitting()) passes[i] = benches_[i].machine().passes();
  entry_passes_.push_back(std::move(passes));
  Place within = place;
  within.frame = &inside;
  // Lets at the head of the body may stand in what the technique needs.
  std::size_t head = 0;
  while (head < technique.body.statements.size() && std::holds_alternative<syntax::Let>(technique.body.statements[head].node)) {
    let(std::get<syntax::Let>(technique.body.statements[head].node), within, step.steps);
    ++head;
  }
  contracts(technique, false, written.call.callee.span, within);
  within.active = living(within.active);
  if (technique.says && within.active) step.title = folded(evaluator_.text(*technique.says, inside, within.active), within.active);
  statements(technique.body.statements, head, within, step.steps);
  within.active = living(within.active);
  contracts(technique, true, written.call.callee.span, within);
  place.calls->pop_back();
  entry_passes_.pop_back();
  for (std::size_t i = 0; i < sizes_; ++i)
    if (has_size(place.active, i)) step.records[i].after = benches_[i].state();
  out.push_back(std::move(step));
}

}  // namespace stk::knit
