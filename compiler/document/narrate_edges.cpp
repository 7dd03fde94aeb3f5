// Edges hung on the needles and taken off them: rehanging, picking up, scrapping off, binding off, gathering.
#include <fmt/core.h>

#include "compiler/document/telling.hpp"

namespace stk::document {

namespace {

using knit::Method;
using knit::SizeRecord;

// The comb must not hang in fabric that leaves the machine.
void unhang(const Telling& t, Told& told) {
  if (t.memory().comb_hung && t.always([](const SizeRecord& r) { return r.after.stitches == 0; })) {
    told.sentences.push_back("unhang the comb and the weights");
  }
}

bool all_that_is_left(const Telling& t) {
  return t.always([](const SizeRecord& r) { return r.after.stitches == 0; });
}

std::string on_needles(const Telling& t) { return t.noun("needle").text; }

}  // namespace

Told tell_hang_edge(const Telling& t) {
  Told told;
  told.breaks = true;
  const std::string edge = t.edges(t.operation().edges);
  switch (t.operation().method) {
    case Method::by_loops_between:
      told.sentences = {"find the first row of the fabric, just above the waste: it makes a short loop between each two sts",
                        fmt::format("from left to right hang each loop on the empty needle straight above it, {} in all; "
                                    "none may be left over",
                                    t.amount("loop"))};
      break;
    case Method::folded:
      told.sentences = {fmt::format("fold {} in half, the side that faced you inside", edge),
                        fmt::format("hang its right half on the main bed and its left half on the second bed, {} in all",
                                    t.amount("st"))};
      break;
    case Method::reversed:
      told.sentences = {fmt::format("turn {} over and hang it on {}, one st on each: {}", edge, on_needles(t),
                                    t.amount("st"))};
      break;
    default:
      told.sentences = {fmt::format("from left to right hang {} on {}, one loop on each; none may be left over", edge,
                                    on_needles(t))};
      break;
  }
  if (t.memory().comb_hung && t.memory().cast_on == Method::open_on_waste) {
    told.sentences.push_back(
        fmt::format("move the comb and the weights from {} to the fold, then draw out the cord: {} comes away", t.waste(),
                    t.waste()));
  } else if (t.memory().comb_hung) {
    told.sentences.push_back("hang the comb and the weights in the fold");
  }
  return told;
}

Told tell_pick_up(const Telling& t) {
  Told told;
  told.breaks = true;
  const std::string rate = t.run(t.each([](const SizeRecord& r) { return fmt::format("{}", r.second_amount); }));
  std::string sentence = fmt::format("along {} pick up {} on the needles beside the work", t.edges(t.operation().edges),
                                     t.amount("loop"));
  if (!t.always([](const SizeRecord& r) { return r.second_amount <= 1; })) {
    sentence += fmt::format(", one for every {} rows", rate);
  }
  told.sentences = {std::move(sentence)};
  return told;
}

Told tell_open(const Telling& t) {
  Told told;
  told.sentences = {fmt::format("draw out {} along {}", t.waste(), t.edges(t.operation().edges))};
  return told;
}

// "the right half is the sole end, the left half the instep end: 12 (14, 16) sts each".
Told tell_scrap_off(const Telling& t) {
  Told told;
  told.breaks = true;
  const knit::Operation& o = t.operation();
  const std::string waste = o.yarns.empty() ? t.waste() : t.yarn();
  told.sentences.push_back(fmt::format("thread {} and knit {}{}rows", waste, o.waste_rows, no_break));
  unhang(t, told);
  std::string drop = "drop the fabric off the needles";
  if (!all_that_is_left(t) && o.selections.size() == 1) drop = fmt::format("drop {} off the needles", t.noun("st").text);
  if (o.edges.size() < 2 || o.selections.size() != o.edges.size()) {
    const std::string name = o.edges.empty() ? "" : ": " + t.edges(o.edges);
    told.sentences.push_back(fmt::format("{}{}, {}", drop, name, t.amount("st")));
    return told;
  }
  told.sentences.push_back(drop);
  std::vector<std::string> parts;
  bool equal = true;
  PerSize first;
  for (std::size_t i = 0; i < o.selections.size(); ++i) {
    const std::string what = noun_of(o.selections[i], "st", t.printed(), t.scope()).text;
    parts.push_back(what + (i == 0 ? (what.back() == 's' ? " are " : " is ") : " ") + t.edge(i));
    PerSize counts;
    for (const std::int64_t n : o.selections[i].came_to) counts.push_back(fmt::format("{}", n));
    if (i == 0) first = counts;
    equal = equal && !counts.empty() && counts == first;
  }
  std::string sentence = joined(parts);
  if (equal) sentence += fmt::format(": {} each", counted(first, "st", t.printed(), t.scope()));
  told.sentences.push_back(std::move(sentence));
  return told;
}

Told tell_take_off(const Telling& t) {
  Told told;
  told.breaks = true;
  unhang(t, told);
  const std::string what = all_that_is_left(t) ? "all " + t.amount("st") : t.noun("st").text;
  const std::string name = t.operation().edges.empty() ? "" : ": " + t.edges(t.operation().edges);
  told.sentences.push_back(fmt::format("take {} off the needles onto a thread{}", what, name));
  return told;
}

Told tell_bind_off(const Telling& t) {
  Told told;
  told.breaks = true;
  unhang(t, told);
  std::string sentence = all_that_is_left(t) ? "bind off all " + t.amount("st") : "bind off " + t.amount("st");
  if (!all_that_is_left(t)) sentence += fmt::format(", {}", t.noun("st").text);
  if (t.operation().loose) sentence += " loosely";
  if (t.operation().method == Method::by_latch) sentence += " with the latch tool";
  if (t.operation().method == Method::by_crochet) sentence += " with a crochet hook";
  told.sentences.push_back(std::move(sentence));
  if (all_that_is_left(t)) told.sentences.push_back("draw the end of the yarn through the last loop");
  return told;
}

Told tell_gather(const Telling& t) {
  Told told;
  told.breaks = true;
  unhang(t, told);
  const std::string way = t.run(t.each([](const SizeRecord& r) {
    return std::string(r.yarn_side == knit::Side::right ? "from right to left" : "from left to right");
  }));
  told.sentences.push_back(fmt::format("thread the {} on a needle and draw it through {}, {}",
                                       t.memory().yarn_cut ? "tail" : "yarn",
                                       all_that_is_left(t) ? "all " + t.amount("st") : t.noun("st").text, way));
  told.sentences.push_back("take the sts off the machine, pull the tail tight and fasten it off");
  return told;
}

}  // namespace stk::document
