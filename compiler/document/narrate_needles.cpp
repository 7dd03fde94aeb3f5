// Putting needles in and out of work, in hold and back; the beds and the carriage.
#include <fmt/core.h>

#include "compiler/document/setting.hpp"
#include "compiler/document/telling.hpp"

namespace stk::document {

namespace {

using knit::Method;
using knit::Selection;
using knit::SizeRecord;

const Selection* first_selection(const Telling& t) {
  return t.operation().selections.empty() ? nullptr : &t.operation().selections.front();
}

// `1 on far side of part`: the narrowing and widening of short rows, where the part is whatever is in work.
bool one_on(const Telling& t, Selection::Where where) {
  const Selection* s = first_selection(t);
  if (s != nullptr && s->kind == Selection::Kind::of && !s->parts.empty()) s = &s->parts.front();
  return s != nullptr && s->kind == Selection::Kind::on_side && s->where == where && t.amount_is(1);
}

// Every needle of a bed in hold is that bed at rest: its carriage slips. By the record, since a selection such as `held`
// or `all except sole` may take in a bed without naming it.
struct Rest {
  bool main = false, second = false;   // the whole bed
  bool others = false;                 // needles of a bed that does not rest
};
Rest rest_of(const Telling& t, knit::MachineState SizeRecord::*all) {
  const auto on_main = [](const SizeRecord& r) { return r.amount - r.second_amount; };
  Rest rest;
  rest.second = t.always([&](const SizeRecord& r) { return r.second_amount > 0 && r.second_amount >= (r.*all).second_bed; });
  rest.main = t.always([&](const SizeRecord& r) {
    const knit::MachineState& state = r.*all;
    return on_main(r) > 0 && state.second_bed > 0 && on_main(r) >= state.stitches - state.second_bed;
  });
  rest.others = !t.always([&](const SizeRecord& r) {
    return (rest.main || on_main(r) == 0) && (rest.second || r.second_amount == 0);
  });
  return rest;
}
std::string resting_beds(const Rest& rest) {
  return rest.main && rest.second ? "both beds" : rest.main ? "the main bed" : "the second bed";
}
std::string other_bed(const Rest& rest) {
  return rest.main ? "the second bed" : "the main bed";
}

}  // namespace

Told tell_hold(const Telling& t) {
  Told told;
  std::string sentence;
  const Noun noun = t.noun("needle");
  const Rest rest = rest_of(t, &SizeRecord::before);
  if (one_on(t, Selection::Where::far)) {
    sentence = "at the end away from the carriage put the last needle in work in HP";
  } else if (one_on(t, Selection::Where::carriage)) {
    sentence = "put the last needle in work on the carriage side in HP";
  } else if (rest.others || !(rest.main || rest.second)) {
    sentence = fmt::format("put {} in HP", noun.text);
  }
  const bool sets = !t.memory().in_fold && t.always([](const SizeRecord& r) { return r.before.held == 0; });
  if (!sentence.empty()) {
    if (sets) sentence += " and set the carriage to hold";
    told.sentences = {std::move(sentence)};
  }
  if (rest.main || rest.second) {
    const bool both = rest.main && rest.second, alone = told.sentences.empty();
    std::string slips = fmt::format("set {} to slip both ways, so that {} sts rest", resting_beds(rest), both ? "their" : "its");
    // In rounds each bed knits one way only; what follows is rows.
    if (sets && alone && !both) slips += fmt::format(", and {} to knit both ways and to hold", other_bed(rest));
    told.sentences.push_back(std::move(slips));
  }
  if (sets) told.sentences.push_back("keep a weight under the needles in work and move it up as the fabric grows");
  return told;
}

Told tell_release(const Telling& t) {
  Told told;
  std::string sentence;
  const Noun noun = t.noun("needle");
  const Rest rest = rest_of(t, &SizeRecord::after);
  if (one_on(t, Selection::Where::far)) {
    sentence = "at the end away from the carriage put the held needle next to the work in UWP";
  } else if (one_on(t, Selection::Where::carriage)) {
    sentence = "put the held needle next to the work on the carriage side in UWP";
  } else if (rest.others || !(rest.main || rest.second)) {
    const bool held = first_selection(t) != nullptr && first_selection(t)->kind == Selection::Kind::held;
    const std::string of_bed = rest.second ? " of the main bed" : rest.main ? " of the second bed" : "";
    sentence = fmt::format("put {}{} in UWP", noun.text, held ? of_bed : "");
  }
  const bool none_left = !t.memory().in_fold && t.always([](const SizeRecord& r) { return r.after.held == 0; });
  if (!sentence.empty()) {
    if (none_left) sentence += " and set the carriage to knit all needles";
    told.sentences = {std::move(sentence)};
  }
  if (rest.main || rest.second) {
    const bool both = rest.main && rest.second, alone = told.sentences.empty();
    std::string again = fmt::format("set {} to knit again", resting_beds(rest));
    if (none_left && alone && !both) again += fmt::format(", and {} to knit all needles", other_bed(rest));
    told.sentences.push_back(std::move(again));
  }
  return told;
}

Told tell_wrap(const Telling& t) {
  Told told;
  const Noun noun = t.noun("needle");
  const bool beside = one_on(t, Selection::Where::carriage);
  told.sentences = {beside ? std::string("wrap the needle in HP next to the last st knitted") : "wrap " + noun.text};
  return told;
}

Told tell_bring(const Telling& t) {
  Told told;
  const Selection* s = first_selection(t);
  if (s != nullptr && s->name.empty() && s->kind == Selection::Kind::empties) {
    const bool one = t.amount_is(1);
    told.sentences = {one ? std::string("bring the empty needle to WP")
                          : fmt::format("bring the {} empty needles to WP", t.amount())};
    return told;
  }
  told.sentences = {fmt::format("bring {} to WP", t.noun("needle").text)};
  return told;
}

Told tell_put(const Telling& t) {
  Told told;
  told.sentences = {fmt::format("put {} in NWP", t.noun("needle").text)};
  return told;
}

std::string row_of(const std::vector<bool>& tile) {
  std::vector<knit::DrawnNeedle> needles(tile.size());
  for (std::size_t i = 0; i < tile.size(); ++i) {
    needles[i].position = tile[i] ? knit::DrawnNeedle::Position::work : knit::DrawnNeedle::Position::out;
  }
  return tile_text(needles);
}

// "set the needles [| .] over L12–R13, ending [|]: 13 needles in WP".
Told tell_set_needles(const Telling& t) {
  Told told;
  const knit::Operation& o = t.operation();
  const bool two_beds = !o.second_tile.empty();
  std::string sentence = "set the needles over " + t.needles() + ", from the left ";
  if (two_beds) sentence += "main bed ";
  sentence += row_of(o.tile);
  if (!o.ending.empty()) sentence += ", ending " + row_of(o.ending) + " on the right";
  if (two_beds) sentence += ", second bed " + row_of(o.second_tile);
  if (two_beds || o.tile.size() > 1) {
    const bool alike = t.always([](const SizeRecord& r) { return r.amount == r.second_amount; });
    const std::string second = t.run(t.each([](const SizeRecord& r) { return fmt::format("{}", r.second_amount); }));
    sentence += fmt::format(": {} needles in WP{}", t.amount(),
                            !two_beds ? ""
                            : alike   ? " on each bed"
                                      : fmt::format(" on the main bed and {} on the second", second));
  }
  told.sentences = {std::move(sentence)};
  if (o.tile.size() > 1 && !two_beds) told.chart = "needle setting";
  told.both_beds = two_beds && o.tile.size() > 1;
  return told;
}

Told tell_pitch(const Telling& t) {
  Told told;
  const bool full = t.operation().method == Method::full;
  told.sentences = {full ? "set the beds at full pitch" : "set the beds at half pitch"};
  return told;
}

Told tell_carriage_knits(const Telling& t) {
  Told told;
  switch (t.operation().method) {
    case Method::to_left:
      told.sentences = {"set the carriage to knit to the left only and to slip on the way back"};
      break;
    case Method::to_right:
      told.sentences = {"set the carriage to knit to the right only and to slip on the way back"};
      break;
    default:
      told.sentences = {"set the carriage to knit both ways again"};
      break;
  }
  return told;
}

}  // namespace stk::document
