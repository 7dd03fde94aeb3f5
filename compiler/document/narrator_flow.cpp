// Sentences into paragraphs, and the facts at their ends.
#include <fmt/core.h>

#include "compiler/document/narrator.hpp"

namespace stk::document {

using knit::SizeSet;

std::string Narrator::for_sizes(SizeSet scope) const {
  return scope == printing_.printed ? "All sizes" : only_for(scope, printing_.printed, printing_.facts.sizes);
}

// What follows is for these sizes.
void Narrator::enter(SizeSet scope) {
  if (scope == scope_) return;
  end_paragraph();
  scope_ = scope;
  lead_ = lead_.empty() ? for_sizes(scope) : lead_ + ", " + for_sizes(scope);
}

// "Sizes Women L and Men L only:" leads the first paragraph for other sizes than the last; inside a fold it stands in
// the sentence, since a fold is one paragraph.
void Narrator::say(SizeSet scope, std::string sentence) {
  if (sentence.empty()) return;
  std::string intro;
  if (!inside_fold()) {
    enter(scope);
  } else if (scope != scope_) {
    intro = for_sizes(scope);
    scope_ = scope;
  }
  if (break_ && !inside_fold()) end_paragraph();
  if (open_.sentences.empty() && open_.lead.empty()) {
    open_.lead = std::move(lead_);
    lead_.clear();
  }
  sentence = intro.empty() ? capitalised(std::move(sentence)) : intro + ": " + sentence;
  if (std::string_view(".!?:").find(sentence.back()) == std::string_view::npos) sentence += '.';
  open_.sentences.push_back({std::move(sentence)});
}

void Narrator::end_paragraph() {
  break_ = false;
  if (!open_.sentences.empty()) blocks_.emplace_back(std::move(open_));
  open_ = {};
  for (Block& block : after_paragraph_) blocks_.push_back(std::move(block));
  after_paragraph_.clear();
}

std::string Narrator::facts_text(const Due& due) {
  PerSize rows(known_.size()), sides(known_.size()), counts(known_.size()), spans(known_.size()), seconds(known_.size());
  bool row = due.row, side = due.side, stitches = due.stitches, span = false, any_stitches = false, moved = false,
       halved = true, two_beds = false;
  for (std::size_t i = 0; i < known_.size(); ++i) {
    const Known& known = known_[i];
    if (!knit::has(due.scope, i) || !known.now) continue;
    rows[i] = counter_digits(known.now->row_counter);
    sides[i] = carriage_word(known.now->carriage);
    counts[i] = fmt::format("{}", known.now->stitches);
    spans[i] = span_name(known.now->span);
    // Of two beds both are named, unless they have the same needles.
    const bool on_both = known.now->second_bed > 0 && known.now->second_bed < known.now->stitches;
    seconds[i] = on_both ? span_name(known.now->second_span) : spans[i];
    two_beds = two_beds || spans[i] != seconds[i];
    row = row || (due.unsaid_row && known.row != known.now->row_counter);
    side = side || (due.unsaid_side && known.side != known.now->carriage);
    stitches = stitches || (due.unsaid_stitches && known.stitches != known.now->stitches);
    any_stitches = any_stitches || known.now->stitches > 0;
    halved = halved && known.now->second_bed > 0 && known.now->stitches == 2 * known.now->second_bed;
    moved = moved || (known.span && known.now->stitches > 0 &&
                      (*known.span != known.now->span || (on_both && known.second_span != known.now->second_span)));
  }
  // Nothing on the needles: the piece is off, and where counter and carriage stand matters no more.
  if (!any_stitches && !due.row && !due.side) return {};
  stitches = stitches && any_stitches;
  span = stitches && moved;
  std::string text;
  const auto add = [&](const std::string& fact) { text += (text.empty() ? "" : " ") + fact + "."; };
  if (row) add("RC" + std::string(no_break) + graded(rows, printing_.printed, due.scope));
  if (side) add(graded(sides, printing_.printed, due.scope));
  if (stitches) {
    std::string sts = counted(counts, "st", printing_.printed, due.scope);
    if (halved) sts += ", half of them on each bed";
    if (span) sts += ", " + graded(spans, printing_.printed, due.scope);
    if (span && two_beds) {
      sts += fmt::format(" on the main bed and {} on the second", graded(seconds, printing_.printed, due.scope));
    }
    add(due.stitches_intro.empty() ? sts : capitalised(due.stitches_intro) + " " + sts);
  }
  for (std::size_t i = 0; i < known_.size(); ++i) {
    Known& known = known_[i];
    if (!knit::has(due.scope, i) || !known.now) continue;
    if (row) known.row = known.now->row_counter;
    if (side) known.side = known.now->carriage;
    if (stitches) known.stitches = known.now->stitches;
    if (stitches) known.span = known.now->span, known.second_span = known.now->second_span;
  }
  return text;
}

void Narrator::settle() {
  if (!due_.any() || inside_fold()) return;
  const Due due = due_;
  due_ = {};
  const std::string text = facts_text(due);
  if (text.empty()) return;
  break_ = false;  // the facts belong to the sentences before
  say(due.scope, text);
  break_ = true;
}

std::string Narrator::with_tension(std::string sentence, const knit::Step& step, SizeSet scope) {
  PerSize tensions(known_.size()), seconds(known_.size());
  bool news = false, apart = false;
  for (std::size_t i = 0; i < known_.size() && i < step.records.size(); ++i) {
    if (!knit::has(scope, i)) continue;
    // A bed without stitches, or at rest, has a dial too, but nothing is knitted at it.
    const knit::SizeRecord& record = step.records[i];
    const knit::MachineState& state = record.before.stitches > 0 ? record.before : record.after;
    const bool second_alone = state.second_bed > 0 && state.second_bed == state.stitches;
    const bool both = state.second_bed > 0 && !second_alone && state.held < state.second_bed;
    const std::int32_t second = state.second_tension_hundredths;
    const std::int32_t tension = second_alone ? second : state.tension_hundredths;
    tensions[i] = tension_word(tension);
    seconds[i] = tension_word(both ? second : tension);
    apart = apart || tensions[i] != seconds[i];
    news = news || known_[i].tension != tension || (both && known_[i].second_tension.value_or(tension) != second);
    if (!both && known_[i].tension != tension) known_[i].second_tension.reset();   // what is said now is of one bed
    known_[i].tension = tension;
    if (both) known_[i].second_tension = second;
  }
  if (!news) return sentence;
  if (apart) {
    return fmt::format("at {} on the main bed and {} on the second, {}", graded(tensions, printing_.printed, scope),
                       graded(seconds, printing_.printed, scope), sentence);
  }
  return fmt::format("at {}, {}", graded(tensions, printing_.printed, scope), sentence);
}

void Narrator::remember(const knit::Step& step, SizeSet scope) {
  for (std::size_t i = 0; i < step.records.size() && i < known_.size(); ++i) {
    if (!knit::has(scope & step.sizes, i)) continue;
    const knit::SizeRecord& record = step.records[i];
    if (record.before.stitches > 0 && record.after.stitches == 0) known_[i].before_off = record.before;
    known_[i].now = record.after;
  }
}

std::string Narrator::title_of(const knit::Step& step, SizeSet scope) const {
  if (const auto text = merged(step.title, printing_.printed, scope)) return *text;
  // Whole sentences differ: each is said with its size.
  std::string all;
  for (std::size_t i = 0; i < step.title.size(); ++i) {
    if (!knit::has(scope, i)) continue;
    all += fmt::format("{}{}: {}", all.empty() ? "" : "; ", size_list(SizeSet{1} << i, printing_.facts.sizes),
                       step.title[i]);
  }
  return all;
}

}  // namespace stk::document
