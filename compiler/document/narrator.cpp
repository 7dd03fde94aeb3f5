#include "compiler/document/narrator.hpp"

#include <fmt/core.h>

#include <algorithm>

#include "compiler/document/folding.hpp"

namespace stk::document {

namespace {

using knit::SizeSet;
using knit::Step;
using Kind = Step::Kind;
using Steps = std::vector<Step>;

SizeSet busy(const Step& step, SizeSet scope) {   // the sizes that have something to do here
  SizeSet set = 0;
  for (std::size_t i = 0; i < step.records.size(); ++i) {
    if (knit::has(scope & step.sizes, i) && !step.records[i].idle) set |= SizeSet{1} << i;
  }
  return set;
}

// A step whose number leads the sentence prints `-` in a size that has nothing to do; any other is told for the rest.
bool leads_with_number(knit::Act act) { return act == knit::Act::knit || act == knit::Act::knit_to_row; }

void collect_names(const knit::Selection& selection, std::set<std::string>& names) {
  if (!selection.name.empty()) names.insert(selection.name);
  for (const knit::Selection& part : selection.parts) collect_names(part, names);
}
void collect_names(const Steps& steps, std::set<std::string>& names) {
  for (const Step& step : steps) {
    if (step.kind == Kind::operation) {
      for (const knit::Selection& selection : step.operation.selections) collect_names(selection, names);
    }
    collect_names(step.steps, names);
    for (const Steps& turn : step.turns) collect_names(turn, names);
  }
}

bool any_tension(const Steps& steps) {
  return std::any_of(steps.begin(), steps.end(), [](const Step& step) {
    return (step.kind == Kind::operation && step.operation.act == knit::Act::tension) || any_tension(step.steps) ||
           std::any_of(step.turns.begin(), step.turns.end(), any_tension);
  });
}

bool only_sections(const Steps& steps) {
  return !steps.empty() &&
         std::all_of(steps.begin(), steps.end(), [](const Step& step) { return step.kind == Kind::section; });
}

}  // namespace

const knit::MachineState* last_state(const Step& step, std::size_t size) {
  if (!knit::has(step.sizes, size)) return nullptr;
  if (step.kind == Kind::operation) return size < step.records.size() ? &step.records[size].after : nullptr;
  if (step.kind == Kind::repeat) {
    for (auto turn = step.turns.rbegin(); turn != step.turns.rend(); ++turn) {
      for (auto child = turn->rbegin(); child != turn->rend(); ++child) {
        if (const auto* state = last_state(*child, size)) return state;
      }
    }
    return nullptr;
  }
  for (auto child = step.steps.rbegin(); child != step.steps.rend(); ++child) {
    if (const auto* state = last_state(*child, size)) return state;
  }
  return nullptr;
}

void Narrator::tell_all(const Steps& all, int level) {
  level_ = level;
  used_names_.clear();
  collect_names(all, used_names_);
  for (Known& known : known_) known = {};
  memory_ = {};
  scope_ = block_scope_ = printing_.printed;
  steps(all, printing_.printed);
  settle();
  end_paragraph();
}

void Narrator::steps(const Steps& all, SizeSet scope) {
  for (const Step& one : all) {
    const SizeSet inner = scope & one.sizes;
    if (inner != 0) step(one, inner);
  }
}

void Narrator::step(const Step& one, SizeSet scope) {
  switch (one.kind) {
    case Kind::operation: operation(one, scope); break;
    case Kind::section: section(one, scope); break;
    case Kind::only_for:
    case Kind::condition:
      // Blocks of sections bring their own headings, with their sizes; others are told under this one.
      if (only_sections(one.steps)) {
        steps(one.steps, scope);
      } else {
        if (scope != scope_ && !inside_fold() && !is_remark(one)) settle();
        steps(one.steps, scope);
      }
      break;
    case Kind::repeat: repeat(one, scope); break;
    case Kind::technique: technique(one, scope); break;
    case Kind::say: said(one, scope); break;
    case Kind::note:
    case Kind::caution:
      if (!inside_fold()) remark(one, scope);
      break;
    case Kind::expect: expect(one, scope); break;
    case Kind::needles_named: needles_named(one, scope); break;
  }
}

void Narrator::operation(const Step& one, SizeSet scope) {
  const SizeSet acting = busy(one, scope);
  if (acting == 0) {
    remember(one, scope);
    return;
  }
  const SizeSet told_for = leads_with_number(one.operation.act) ? scope : acting;
  const Telling telling(one, printing_.printed, told_for, printing_.yarns, memory_, printing_.one_piece);
  Told told = tell(telling);
  if (told.sentences.empty()) {
    remember(one, scope);
    return;
  }
  settle();
  if (told.new_paragraph && !inside_fold()) break_ = true;
  if (told.makes_fabric) {
    std::string& sentence = told.sentences[told.tension_at];
    sentence = with_tension(std::move(sentence), one, acting);
  }
  std::vector<std::size_t> charts;
  if (!told.chart.empty()) charts = charts_.of_step(one, acting, capitalised(told.chart));
  for (std::size_t i = 0; i < told.sentences.size(); ++i) {
    std::string sentence = std::move(told.sentences[i]);
    if (i + 1 == told.sentences.size() && !charts.empty()) {
      std::vector<std::string> numbers;
      for (const std::size_t chart : charts) numbers.push_back(fmt::format("{}", charts_.all()[chart].number));
      sentence += fmt::format(" (chart{}{}{})", charts.size() > 1 ? "s" : "", no_break, joined(numbers));
    }
    say(told_for, std::move(sentence));
  }
  for (const std::size_t chart : charts) after_paragraph_.push_back(ChartReference{chart});
  bool count_changed = false;
  for (std::size_t i = 0; i < one.records.size(); ++i) {
    if (!knit::has(acting, i)) continue;
    const knit::SizeRecord& record = one.records[i];
    count_changed = count_changed || (record.before.stitches != record.after.stitches && record.after.stitches != 0);
    if (told.says_row) known_[i].row = record.after.row_counter;
    if (told.says_stitches) {
      known_[i].stitches = record.after.stitches;
      known_[i].span = record.after.span;
    }
  }
  remember(one, scope);
  switch (one.operation.act) {
    case knit::Act::cast_on:
      memory_.cast_on = one.operation.method;
      memory_.comb_hung = one.operation.method == knit::Method::open_on_waste;
      break;
    case knit::Act::hang_comb:
    case knit::Act::hang_weights: memory_.comb_hung = true; break;
    case knit::Act::remove_comb: memory_.comb_hung = false; break;
    case knit::Act::cut: memory_.yarn_cut = true; break;
    case knit::Act::thread: memory_.yarn_cut = false; break;
    default: break;
  }
  const bool emptied = std::all_of(one.records.begin(), one.records.end(), [&](const knit::SizeRecord& r) {
    return !knit::has(acting, static_cast<std::size_t>(&r - one.records.data())) || r.after.stitches == 0;
  });
  if (emptied && one.operation.act != knit::Act::set_needles) memory_.comb_hung = false;
  due_.scope = acting;
  due_.row = told.row;
  due_.side = told.side;
  due_.stitches = !emptied && !told.says_stitches && (told.stitches || count_changed);
  if (inside_fold()) due_ = {};
  if (told.breaks && !inside_fold() && !due_.any()) break_ = true;
}

void Narrator::section(const Step& one, SizeSet scope) {
  settle();
  end_paragraph();
  const SizeSet outer = block_scope_;
  Heading heading;
  heading.level = level_;
  const std::string title = title_of(one, scope);
  heading.text = title.substr(0, title.find(no_break));   // a heading holds no graded number
  if (scope != printing_.printed) {
    heading.aside = only_for(scope, printing_.printed, printing_.facts.sizes);
    if (!heading.aside.empty()) heading.aside[0] = heading.aside[0] == 'S' ? 's' : 'a';
  }
  blocks_.push_back(heading);
  scope_ = block_scope_ = scope;
  steps(one.steps, scope);
  due_.unsaid_row = due_.unsaid_side = due_.unsaid_stitches = true;
  due_.scope = scope;
  settle();
  end_paragraph();
  block_scope_ = outer;
  scope_ = outer;
}

void Narrator::technique(const Step& one, SizeSet scope) {
  const std::string title = title_of(one, scope);
  if (!title.empty() && !inside_fold()) {
    settle();
    end_paragraph();
    say(scope, title);
    break_ = true;
  }
  steps(one.steps, scope);
}

void Narrator::said(const Step& one, SizeSet scope) {
  if (!inside_fold()) {
    settle();
    end_paragraph();
    lead_ = title_of(one, scope);
  }
  steps(one.steps, scope);
  if (!inside_fold()) break_ = true;
}

void Narrator::repeat(const Step& one, SizeSet scope) {
  const std::vector<FoldClass> classes = fold_turns(one, scope);
  if (classes.empty()) return;
  settle();
  if (!inside_fold() && lead_.empty()) end_paragraph();
  for (const FoldClass& told_together : classes) {
    for (const Fold& part : told_together.folds) fold(part.body, part.times, told_together.sizes);
    if (inside_fold()) continue;
    due_ = {};
    due_.scope = told_together.sizes;
    due_.unsaid_row = due_.unsaid_side = due_.unsaid_stitches = true;
    for (std::size_t i = 0; i < known_.size(); ++i) {
      if (!knit::has(told_together.sizes, i)) continue;
      if (const knit::MachineState* state = last_state(one, i)) known_[i].now = *state;
    }
    settle();
    break_ = true;
  }
  for (const TurnRemark& remark_in_turn : remarks_in_turns(one, scope)) {
    PerSize turns;
    for (const std::int64_t turn : remark_in_turn.turn) turns.push_back(fmt::format("{}", turn));
    const std::string before =
        remark_in_turn.every_turn
            ? ""
            : fmt::format("In turn{}{}", no_break, graded(turns, printing_.printed, remark_in_turn.sizes));
    remark(*remark_in_turn.remark, remark_in_turn.sizes, before);
  }
}

// "*Knit 2 rows. On each side … Repeat from * 7 (8, 9) times in all." When the body ends in plain rows, these count the
// repeats: "… Knit 2 rows. Repeat the last 2 rows 6 (7, 8) times more."
void Narrator::fold(const Steps& body, const std::vector<std::int64_t>& times, SizeSet scope) {
  PerSize in_all(times.size()), more(times.size());
  bool repeated = false;
  for (std::size_t i = 0; i < times.size(); ++i) {
    if (!knit::has(scope, i)) continue;
    in_all[i] = fmt::format("{}", times[i]);
    if (times[i] > 1) more[i] = fmt::format("{}", times[i] - 1);
    repeated = repeated || times[i] > 1;
  }
  if (!repeated) {
    ++fold_depth_;
    steps(body, scope);
    --fold_depth_;
    return;
  }
  if (any_tension(body)) {
    for (Known& known : known_) known.tension.reset();   // each turn must say it, the first too
  }
  const Step* last = nullptr;
  std::int64_t knits = 0;
  bool plain = true;
  for (const Step& one : body) {
    if (one.kind == Kind::operation && (scope & one.sizes) != 0) {
      last = &one;
      knits += one.operation.act == knit::Act::knit ? 1 : 0;
    } else if (one.kind != Kind::operation) {
      plain = plain && (is_remark(one) || one.kind == Kind::expect || one.kind == Kind::needles_named);
    }
  }
  plain = plain && last != nullptr && last->operation.act == knit::Act::knit && knits == 1 && busy(*last, scope) == scope;
  const std::string star(static_cast<std::size_t>(fold_depth_ + 1), '*');
  if (break_) end_paragraph();
  ++fold_depth_;
  const std::size_t begin = open_.sentences.size();
  steps(body, scope);
  --fold_depth_;
  if (plain && fold_depth_ == 0) {
    const Telling telling(*last, printing_.printed, scope, printing_.yarns, memory_, printing_.one_piece);
    const std::string rows = telling.amount("row");
    const bool one_row = rows == "1" + std::string(no_break) + "row";
    const std::string which = one_row ? "row" : rows;
    const std::string count = graded(more, printing_.printed, scope);
    say(scope, fmt::format("repeat the last {} {} {}more", which, count, count == "1" ? "time " : "times "));
    return;
  }
  if (begin < open_.sentences.size()) open_.sentences[begin].text.insert(0, star);
  say(scope, fmt::format("repeat from {}{}{}{}times in all", star, no_break, graded(in_all, printing_.printed, scope),
                         no_break));
}

void Narrator::remark(const Step& one, SizeSet scope, const std::string& before) {
  settle();
  Remark block;
  block.caution = one.kind == Kind::caution;
  std::string text = title_of(one, scope);
  if (!before.empty()) text = before + ": " + text;
  if (!text.empty() && std::string_view(".!?").find(text.back()) == std::string_view::npos) text += '.';
  if (scope != scope_ && scope != block_scope_) block.text.lead = only_for(scope, printing_.printed, printing_.facts.sizes);
  block.text.sentences.push_back({capitalised(std::move(text))});
  end_paragraph();
  blocks_.push_back(std::move(block));
}

void Narrator::expect(const Step& one, SizeSet scope) {
  if (inside_fold()) return;
  due_.scope = due_.any() ? (due_.scope | scope) : scope;
  due_.unsaid_row = due_.unsaid_row || one.expects_row;
  due_.unsaid_side = due_.unsaid_side || one.expects_carriage;
  due_.unsaid_stitches = due_.unsaid_stitches || one.expects_stitches;
}

void Narrator::needles_named(const Step& one, SizeSet scope) {
  if (one.operation.selections.empty() || used_names_.count(one.name) == 0) return;
  knit::Selection named = one.operation.selections.front();
  named.name = one.name;
  PerSize spans(named.needles.size());
  for (std::size_t i = 0; i < spans.size(); ++i) spans[i] = span_name(named.needles[i]);
  if (spans.empty()) return;
  settle();
  say(scope, fmt::format("{} {} {}", called(named), named.kind == knit::Selection::Kind::half ? "is" : "are",
                         graded(spans, printing_.printed, scope)));
}

}  // namespace stk::document
