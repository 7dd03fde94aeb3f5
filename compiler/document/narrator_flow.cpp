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
  PerSize rows(known_.size()), sides(known_.size()), counts(known_.size()), spans(known_.size());
  bool row = due.row, side = due.side, stitches = due.stitches, span = false, any_stitches = false, moved = false,
       halved = true;
  for (std::size_t i = 0; i < known_.size(); ++i) {
    const Known& known = known_[i];
    if (!knit::has(due.scope, i) || !known.now) continue;
    rows[i] = counter_digits(known.now->row_counter);
    sides[i] = carriage_word(known.now->carriage);
    counts[i] = fmt::format("{}", known.now->stitches);
    spans[i] = span_name(known.now->span);
    row = row || (due.unsaid_row && known.row != known.now->row_counter);
    side = side || (due.unsaid_side && known.side != known.now->carriage);
    stitches = stitches || (due.unsaid_stitches && known.stitches != known.now->stitches);
    any_stitches = any_stitches || known.now->stitches > 0;
    halved = halved && known.now->second_bed > 0 && known.now->stitches == 2 * known.now->second_bed;
    moved = moved || (known.span && known.now->stitches > 0 && *known.span != known.now->span);
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
    add(due.stitches_intro.empty() ? sts : capitalised(due.stitches_intro) + " " + sts);
  }
  for (std::size_t i = 0; i < known_.size(); ++i) {
    Known& known = known_[i];
    if (!knit::has(due.scope, i) || !known.now) continue;
    if (row) known.row = known.now->row_counter;
    if (side) known.side = known.now->carriage;
    if (stitches) known.stitches = known.now->stitches;
    if (stitches) known.span = known.now->span;
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
  PerSize tensions(known_.size());
  bool news = false;
  for (std::size_t i = 0; i < known_.size() && i < step.records.size(); ++i) {
    if (!knit::has(scope, i)) continue;
    const std::int32_t tension = step.records[i].before.tension_hundredths;
    tensions[i] = tension_word(tension);
    news = news || known_[i].tension != tension;
    known_[i].tension = tension;
  }
  if (!news) return sentence;
  return fmt::format("at {}, {}", graded(tensions, printing_.printed, scope), sentence);
}

void Narrator::remember(const knit::Step& step, SizeSet scope) {
  for (std::size_t i = 0; i < step.records.size() && i < known_.size(); ++i) {
    if (knit::has(scope & step.sizes, i)) known_[i].now = step.records[i].after;
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
