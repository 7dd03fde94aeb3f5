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

}  // namespace

Told tell_hold(const Telling& t) {
  Told told;
  std::string sentence;
  if (one_on(t, Selection::Where::far)) {
    sentence = "at the end away from the carriage put the last needle in work in HP";
  } else if (one_on(t, Selection::Where::carriage)) {
    sentence = "put the last needle in work on the carriage side in HP";
  } else {
    sentence = fmt::format("put {} in HP", t.noun("needle").text);
  }
  if (t.always([](const SizeRecord& r) { return r.before.held == 0; })) sentence += " and set the carriage to hold";
  told.sentences = {std::move(sentence)};
  return told;
}

Told tell_release(const Telling& t) {
  Told told;
  std::string sentence;
  if (one_on(t, Selection::Where::far)) {
    sentence = "at the end away from the carriage put the held needle next to the work in UWP";
  } else if (one_on(t, Selection::Where::carriage)) {
    sentence = "put the held needle next to the work on the carriage side in UWP";
  } else {
    sentence = fmt::format("put {} in UWP", t.noun("needle").text);
  }
  if (t.always([](const SizeRecord& r) { return r.after.held == 0; })) {
    sentence += " and set the carriage to knit all needles";
  }
  told.sentences = {std::move(sentence)};
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

// "set the needles [| | .] over L18–R17, ending [|], 25 of them in WP".
Told tell_set_needles(const Telling& t) {
  Told told;
  std::vector<const knit::DrawnBed*> beds;
  for (std::size_t i = 0; i < t.step().records.size(); ++i) {
    const SizeRecord& r = t.step().records[i];
    if (knit::has(t.scope(), i) && knit::has(t.step().sizes, i) && !r.idle && r.drawn) beds.push_back(&*r.drawn);
  }
  const std::optional<Setting> setting = common_setting(beds);
  const std::string in_work = t.run(t.each([](const SizeRecord& r) { return fmt::format("{}", r.after.in_work); }));
  std::string sentence = "set the needles";
  if (setting) sentence += " " + tile_text(setting->tile);
  sentence += " over " + t.needles();
  if (setting && !setting->lead.empty()) sentence += ", beginning " + tile_text(setting->lead) + " on the left";
  if (setting && !setting->tail.empty()) sentence += ", ending " + tile_text(setting->tail) + " on the right";
  if (setting && setting->tile.size() > 1) sentence += fmt::format(": {} needles in WP", in_work);
  told.sentences = {std::move(sentence)};
  if (setting && setting->tile.size() > 1) told.chart = "needle setting";
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
    case Method::to_left: told.sentences = {"set the carriage to knit to the left only and to slip on the way back"}; break;
    case Method::to_right: told.sentences = {"set the carriage to knit to the right only and to slip on the way back"}; break;
    default: told.sentences = {"set the carriage to knit both ways"}; break;
  }
  return told;
}

}  // namespace stk::document
