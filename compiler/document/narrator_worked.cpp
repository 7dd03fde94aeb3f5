// What was told before is not told again: it is named by its place, and where the work then stands is said as ever.
#include <fmt/core.h>

#include <algorithm>

#include "compiler/document/matter.hpp"
#include "compiler/document/narrator.hpp"
#include "compiler/document/same_work.hpp"

namespace stk::document {

using knit::SizeSet;
using knit::Step;

namespace {

// Shorter texts are read sooner than looked up.
constexpr std::size_t worth_looking_up = 250;
constexpr std::size_t worth_turning_back_for = 150;   // to a star
constexpr std::size_t worth_casting_on_alike = 100;

// Whether columns are dropped: how many rows they have decides the words.
bool latches(const std::vector<Step>& steps) {
  return std::any_of(steps.begin(), steps.end(), [](const Step& step) {
    return (step.kind == Step::Kind::operation && step.operation.act == knit::Act::latch_up) || latches(step.steps) ||
           std::any_of(step.turns.begin(), step.turns.end(), latches);
  });
}

}  // namespace

Worked::Part Narrator::part(Worked::Kind kind, const std::vector<Step>& steps, SizeSet scope) const {
  Worked::Part part;
  part.kind = kind;
  part.piece = piece_;
  part.section = section_;
  part.scope = scope;
  part.memory = memory_;
  if (!latches(steps)) part.memory.rows_since_cast_on.clear();   // nothing is told by them
  part.charts = charts_.all().size();
  part.of_facts = &steps;
  return part;
}

// "the heel", "the toe of the sole".
std::string Narrator::place_of(const Worked::Part& known) const {
  std::string place = "the " + known.section;
  if (known.piece != piece_ && known.piece != known.section) place += " of the " + known.piece;
  return place;
}

// A section or a technique has been told in the blocks from the first one on.
void Narrator::told_once(Worked::Part part, std::size_t first_block, SizeSet entered, const std::string& title) {
  settle();
  end_paragraph();
  const auto first = blocks_.begin() + static_cast<std::ptrdiff_t>(first_block);
  part.length = text_of({first, blocks_.end()}).size();
  const Worked::Part* known = worked_.find(part);
  std::string changed;
  if (known == nullptr && part.length >= worth_looking_up) {
    known = worked_.find_other_side(part);
    if (known != nullptr) {
      changed = " with the sides changed: for left read right, for COR read COL, for R needles L needles, and the other way about";
    }
  }
  if (known == nullptr) {
    worked_.add(std::move(part));
    return;
  }
  if (known->length < worth_looking_up) return;
  const std::string up_to = worked_.corners_were_closed(*known) ? " up to the closing of its corners" : "";
  blocks_.erase(first, blocks_.end());
  charts_.keep(part.charts);
  scope_ = entered;
  last_told_ = nullptr;
  say(part.scope, (title.empty() ? "work as " + place_of(*known) : fmt::format("{}, as for {}", title, place_of(*known))) + up_to + changed);
  due_ = {};
  due_.scope = part.scope;
  for (std::size_t i = 0; i < known_.size(); ++i) {
    if (knit::has(part.scope, i) && known_[i].now && known_[i].now->stitches > 0)
      due_.row = due_.side = due_.stitches = true;
  }
  settle();
}

// The turn of a repeat has been told in the sentences of the open paragraph from the first one on.
bool Narrator::turn_told_before(Worked::Part part, std::size_t first_sentence, std::size_t first_chart,
                                const std::string& times) {
  for (std::size_t i = first_sentence; i < open_.sentences.size(); ++i) part.length += open_.sentences[i].text.size() + 1;
  const Worked::Part* const known = worked_.find(part);
  if (known == nullptr) {
    part.own = std::make_shared<const std::vector<Step>>(*part.of_facts);
    worked_.add(std::move(part));
    return false;
  }
  if (known->length < worth_turning_back_for) return false;
  open_.sentences.resize(first_sentence);
  after_paragraph_.resize(first_chart);
  charts_.keep(part.charts);
  say(part.scope, fmt::format("work the repeat of {} (from{}* on) {} in all", place_of(*known), no_break, times));
  return true;
}

// "Cast on 12 (14, 16) sts as for the front.": two pieces that begin alike.
void Narrator::cast_on_once(const Step& step, SizeSet scope, Told& told) {
  const std::vector<Step> alone{step};
  Worked::Part one = part(Worked::Kind::cast_on, alone, scope);
  for (const std::string& sentence : told.sentences) one.length += sentence.size();
  const Worked::Part* const known = worked_.find(one);
  if (known == nullptr) {
    one.own = std::make_shared<const std::vector<Step>>(alone);
    worked_.add(std::move(one));
    return;
  }
  if (known->length < worth_casting_on_alike) return;
  const Telling telling(step, printing_.printed, scope, printing_.yarns, memory_, printing_.piece);
  told.sentences = {fmt::format("cast on {} as for the {}", telling.amount("st"), known->piece)};
  told.tension_at = 0;
}

// Two sides that are picked up or sewn alike, one after the other: the second is told by what differs.
void Narrator::once_for_both_sides(const Step& step, SizeSet scope) {
  memory_.on_other_side = false;
  const knit::Act act = step.operation.act;
  const bool two_sided = act == knit::Act::seam || act == knit::Act::pick_up;
  if (two_sided && !inside_fold()) {
    memory_.on_other_side = last_told_ != nullptr && same_on_other_side(*last_told_, step, scope);
    last_told_ = &step;
  } else if (act != knit::Act::knit || inside_fold()) {
    last_told_ = nullptr;
  }
}

}  // namespace stk::document
