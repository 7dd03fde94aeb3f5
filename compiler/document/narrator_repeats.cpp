// Repeats: turns that are alike are told once, with a star; turns that differ in their rows alone, once with the rows
// of each.
#include <fmt/core.h>

#include <algorithm>

#include "compiler/document/folding.hpp"
#include "compiler/document/narrator.hpp"

namespace stk::document {

namespace {

using knit::Act;
using knit::SizeSet;
using knit::Step;
using Kind = Step::Kind;
using Steps = std::vector<Step>;

bool any_tension(const Steps& steps) {
  return std::any_of(steps.begin(), steps.end(), [](const Step& step) {
    return (step.kind == Kind::operation && step.operation.act == Act::tension) || any_tension(step.steps) ||
           std::any_of(step.turns.begin(), step.turns.end(), any_tension);
  });
}

const Step* find(const Steps& steps, SizeSet scope, Act act) {
  for (const Step& step : steps) {
    if (step.kind == Kind::operation && step.operation.act == act && (step.sizes & scope) != 0) return &step;
  }
  return nullptr;
}

template <class Test>
bool in_every_size(const Step& step, SizeSet scope, Test test) {
  for (std::size_t i = 0; i < step.records.size(); ++i) {
    if (knit::has(scope & step.sizes, i) && !test(step.records[i])) return false;
  }
  return true;
}

// A needle a turn is put in hold, or back: told by how many are in work at the end, since that is what can be seen.
bool shapes_by_holding(const Steps& body, SizeSet scope) {
  for (const Act act : {Act::hold, Act::release}) {
    const Step* step = find(body, scope, act);
    if (step != nullptr && in_every_size(*step, scope, [](const knit::SizeRecord& r) { return r.amount == 1; }))
      return true;
  }
  return false;
}

std::string times_word(const std::string& count) {
  return count == "1" ? "time" : "times";
}

// "4, 4, 3, 4 rows", "4 rows each time", "4 rows 30 times, 3 rows once".
std::string rows_in_turn(const std::vector<std::int64_t>& rows) {
  const auto word = [](std::int64_t n) { return n == 1 ? "row" : "rows"; };
  if (std::all_of(rows.begin(), rows.end(), [&](std::int64_t n) { return n == rows.front(); })) {
    return fmt::format("{}{}{} each time", rows.front(), no_break, word(rows.front()));
  }
  constexpr std::size_t still_read = 30;
  std::string text;
  if (rows.size() <= still_read) {
    for (const std::int64_t n : rows) text += fmt::format("{}{}", text.empty() ? "" : ", ", n);
    return text + std::string(no_break) + "rows";
  }
  for (std::size_t i = 0; i < rows.size();) {
    std::size_t end = i;
    while (end < rows.size() && rows[end] == rows[i]) ++end;
    text += fmt::format("{}{}{}{} {}{}times", text.empty() ? "" : ", ", rows[i], no_break, word(rows[i]), end - i,
                        no_break);
    i = end;
  }
  return text;
}

}  // namespace

// The needle wrapped last, where it is none of those that knit at the end: the first of the sts that wait beside them.
std::string Narrator::wrapped_beside(const Fold& part, SizeSet scope) const {
  PerSize needles(part.last_wrapped.size());
  for (std::size_t i = 0; i < needles.size(); ++i) {
    if (!knit::has(scope, i)) continue;
    const std::int32_t number = part.last_wrapped[i].number;
    const knit::NeedleSpan& working = part.after[i].working;
    if (number == 0 || (number >= working.first.number && number <= working.last.number)) return {};
    needles[i] = needle_name(number);
  }
  return graded(needles, printing_.printed, scope);
}

// The span is of the main bed: with a heel on the second one it would name the bed that rests.
bool main_bed_alone(const knit::MachineState& state) {
  const auto place = [](knit::Needle needle) { return needle.number < 0 ? needle.number : needle.number - 1; };
  return place(state.working.last) - place(state.working.first) + 1 == state.in_work;
}

// What can be seen at the turn of short rows: the needles that are left.
void Narrator::check_core(const Step& one, SizeSet scope) {
  PerSize spans(one.records.size());
  for (std::size_t i = 0; i < spans.size(); ++i) {
    const knit::MachineState* const state = knit::has(scope, i) ? last_state(one, i) : nullptr;
    if (state != nullptr && state->held > 0 && main_bed_alone(*state)) spans[i] = span_name(state->working);
    if (knit::has(scope, i) && (!spans[i] || spans[i]->empty())) return;
  }
  break_ = true;
  say(scope, "check: the needles in work are " + graded(spans, printing_.printed, scope));
  break_ = true;
}

void Narrator::repeat(const Step& one, SizeSet scope) {
  const std::vector<FoldClass> classes = fold_turns(one, scope);
  if (classes.empty()) return;
  settle();
  if (!inside_fold()) end_paragraph();
  SizeSet told_for = 0;
  bool simple = classes.size() == 1;
  for (const FoldClass& told_together : classes) {
    told_for |= told_together.sizes;
    simple = simple && told_together.folds.size() == 1;
  }
  const auto end = [&](SizeSet sizes, const Steps& last_body) {
    if (inside_fold()) return;
    bool none_held = true;
    for (std::size_t i = 0; i < known_.size(); ++i) {
      if (!knit::has(sizes, i)) continue;
      if (const knit::MachineState* state = last_state(one, i)) known_[i].now = *state;
      none_held = none_held && known_[i].now && known_[i].now->held == 0;
    }
    if (none_held && find(last_body, sizes, Act::release) != nullptr) {
      say(sizes, "set the carriage to knit all needles");
    }
    due_ = {};
    due_.scope = sizes;
    due_.unsaid_row = due_.side = due_.unsaid_stitches = true;
    settle();
    break_ = true;
    if (find(last_body, sizes, Act::hold) != nullptr && shapes_by_holding(last_body, sizes)) check_core(one, sizes);
  };
  if (!simple && !inside_fold() && tell_uneven(one, told_for)) {
    end(told_for, {});
  } else {
    for (const FoldClass& told_together : classes) {
      if (!inside_fold()) enter(told_together.sizes);
      for (const Fold& part : told_together.folds) fold(part, told_together.sizes);
      end(told_together.sizes, told_together.folds.back().body);
    }
  }
  for (const TurnRemark& found : remarks_in_turns(one, scope)) {
    PerSize turns;
    for (const std::int64_t turn : found.turn) turns.push_back(ordinal(turn));
    const std::string when =
        found.every_turn ? "" : fmt::format("The {} time through", graded(turns, printing_.printed, found.sizes));
    remark(*found.remark, found.sizes, when);
  }
}

// "*Knit 2 rows. On each side … Repeat from * 7 (8, 9) times in all." When the body ends in plain rows, these count the
// repeats: "… Knit 2 rows. Repeat the last 2 rows 6 (7, 8) times more."
void Narrator::fold(const Fold& part, SizeSet scope) {
  PerSize in_all(part.times.size()), more(part.times.size()), in_work(part.times.size()), unwrapped(part.times.size()),
      last_group(part.times.size());
  bool repeated = false, ends_unwrapped = false, shrinks = false;
  for (std::size_t i = 0; i < part.times.size(); ++i) {
    if (!knit::has(scope, i)) continue;
    in_all[i] = fmt::format("{}", part.times[i]);
    if (part.times[i] > 1) more[i] = fmt::format("{}", part.times[i] - 1);
    in_work[i] = fmt::format("{}", part.after[i].in_work);
    unwrapped[i] = fmt::format("{}", part.unwrapped[i]);
    last_group[i] = fmt::format("{}", part.last_group[i]);
    shrinks = shrinks || part.last_group[i] > 0;
    repeated = repeated || part.times[i] > 1;
    ends_unwrapped = ends_unwrapped || part.unwrapped[i] > 0;
  }
  const Step* const hold = find(part.body, scope, Act::hold);
  if (!inside_fold() && hold != nullptr &&
      in_every_size(*hold, scope, [](const knit::SizeRecord& r) { return r.before.held == 0; })) {
    say(scope, "set the carriage to hold");
    say(scope, "keep a weight under the needles in work and move it up as the fabric grows");
  }
  if (!repeated) {
    ++fold_depth_;
    steps(part.body, scope);
    --fold_depth_;
    return;
  }
  if (any_tension(part.body)) {
    for (Known& known : known_) known.tension.reset(), known.second_tension.reset();  // each turn must say it, the first too
  }
  const Step* last = nullptr;
  std::int64_t knits = 0;
  bool plain = true;
  for (const Step& one : part.body) {
    if (one.kind == Kind::operation && (scope & one.sizes) != 0) {
      last = &one;
      knits += one.operation.act == Act::knit ? 1 : 0;
      plain = plain && one.operation.act == Act::knit;   // what is done between rows is no row: it would be left out
    } else if (one.kind != Kind::operation) {
      plain = plain && (is_remark(one) || one.kind == Kind::expect || one.kind == Kind::needles_named);
    }
  }
  const bool holding = shapes_by_holding(part.body, scope);
  plain = plain && !holding && last != nullptr && last->operation.act == Act::knit && knits == 1 && fold_depth_ == 0 &&
          in_every_size(*last, scope, [](const knit::SizeRecord& r) { return !r.idle; });
  const std::string star(static_cast<std::size_t>(fold_depth_ + 1), '*');
  if (break_) end_paragraph();
  const std::size_t begin = open_.sentences.size(), first_chart = after_paragraph_.size();
  Worked::Part turn = this->part(Worked::Kind::turn, part.body, scope);
  ++fold_depth_;
  steps(part.body, scope);
  --fold_depth_;
  if (plain) {
    const Telling telling(*last, printing_.printed, scope, printing_.yarns, memory_, printing_.piece);
    const std::string unit = knits_rounds(*last) ? "round" : "row";
    const std::string rows = telling.amount(unit);
    const bool one_row = rows == "1" + std::string(no_break) + unit;
    const std::string count = graded(more, printing_.printed, scope);
    say(scope, fmt::format("repeat the last {} {} {} more", one_row ? unit : rows, count, times_word(count)));
    return;
  }
  const std::string times = graded(in_all, printing_.printed, scope);
  const bool alone = fold_depth_ == 0 && !holding && !ends_unwrapped && !shrinks;
  if (alone && turn_told_before(std::move(turn), begin, first_chart, times + std::string(no_break) + times_word(times))) return;
  if (fold_depth_ == 0) worked_.star(piece_, section_);
  if (begin < open_.sentences.size()) open_.sentences[begin].text.insert(0, star);
  if (holding) {
    say(scope, fmt::format("repeat from{}{} until {} are in work", no_break, star,
                           counted(in_work, "st", printing_.printed, scope)));
  } else {
    const std::string fewer = !shrinks ? "" : fmt::format(", each time with one st fewer in the groups, the last time in groups of{}{}",
                                                          no_break, graded(last_group, printing_.printed, scope));
    say(scope, fmt::format("repeat from{}{} {}{}{} in all{}", no_break, star, times, no_break, times_word(times), fewer));
  }
  if (ends_unwrapped) {
    const std::string count = graded(unwrapped, printing_.printed, scope);
    if (const std::string beside = wrapped_beside(part, scope); count == "1" && !beside.empty()) {
      say(scope, fmt::format("the last time but one the needle to wrap is {}, where the other sts wait; the last time there is none",
                             beside));
      return;
    }
    say(scope, count == "1" ? std::string("the last time there is no needle to wrap")
                            : fmt::format("the last {}{}times there is no needle to wrap", count, no_break));
  }
}

// "On each side … (chart 1). Work this 6 (6, 8) times in all, and after each time knit these rows, in their order:"
// with a line for each size.
bool Narrator::tell_uneven(const Step& one, SizeSet scope) {
  const UnevenRows uneven = uneven_rows(one, scope);
  if (uneven.rows.empty()) return false;
  enter(scope);
  Steps shaping;
  for (const Step& step : one.turns.front()) {
    if (step.kind != Kind::operation || step.operation.act != Act::knit) shaping.push_back(step);
  }
  ++fold_depth_;
  steps(shaping, scope);
  --fold_depth_;
  PerSize times(uneven.rows.size()), lists(uneven.rows.size());
  for (std::size_t i = 0; i < uneven.rows.size(); ++i) {
    if (!knit::has(scope, i) || uneven.rows[i].empty()) continue;
    times[i] = fmt::format("{}", uneven.rows[i].size());
    lists[i] = rows_in_turn(uneven.rows[i]);
  }
  const std::string count = graded(times, printing_.printed, scope);
  const char* when = uneven.before ? "before" : "after";
  if (agree(lists, scope & printing_.printed)) {
    say(scope, fmt::format("work this {}{}{} in all, and {} each time knit, in this order, {}", count, no_break,
                           times_word(count), when, graded(lists, printing_.printed, scope)));
    return true;
  }
  say(scope, fmt::format("work this {}{}{} in all, and {} each time knit the rows that follow, in their order:", count,
                         no_break, times_word(count), when));
  List list;
  for (std::size_t i = 0; i < lists.size(); ++i) {
    if (!knit::has(scope & printing_.printed, i) || !lists[i]) continue;
    Paragraph item;
    item.lead = size_list(SizeSet{1} << i, printing_.facts.sizes);
    item.sentences.push_back({*lists[i] + "."});
    list.items.push_back(std::move(item));
  }
  end_paragraph();
  blocks_.emplace_back(std::move(list));
  return true;
}

}  // namespace stk::document
