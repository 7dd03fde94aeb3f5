// Stitches moved from needle to needle: transfers, full-fashioned shaping, cables; tuck and slip.
#include <fmt/core.h>

#include "compiler/document/telling.hpp"

namespace stk::document {

namespace {

using knit::Act;
using knit::Empties;
using knit::Side;
using knit::SizeRecord;

bool by_one(const Telling& t) {
  return t.always([](const SizeRecord& r) { return r.target == 1; });
}

// "to the needle on its left", "to the left by 2 needles", "one needle inwards".
std::string direction(const Telling& t, const Noun& noun) {
  const PerSize distance = t.each([](const SizeRecord& r) { return fmt::format("{}", r.target); });
  if (t.operation().way != knit::Way::aside) {
    return fmt::format("{} {}", by_one(t) ? "one needle" : counted(distance, "needle", t.printed(), t.scope()),
                       t.operation().way == knit::Way::inward ? "inwards" : "outwards");
  }
  const std::string side = side_word(t.operation().side.value_or(Side::left));
  if (by_one(t)) {
    if (noun.spread || !noun.plural) return "to the needle on its " + side;
    return fmt::format("one needle to the {}", side);
  }
  return fmt::format("to the {} by {}", side, counted(distance, "needle", t.printed(), t.scope()));
}

std::string emptied(const Telling& t) {
  return t.run(t.each([](const SizeRecord& r) { return fmt::format("{}", r.emptied); }));
}
bool one_emptied(const Telling& t) {
  return t.always([](const SizeRecord& r) { return r.emptied == 1; });
}
bool none_emptied(const Telling& t) {
  return t.always([](const SizeRecord& r) { return r.emptied == 0; });
}

// What becomes of the needles left empty: the end of the sentence, or a sentence of its own.
void add_empties(const Telling& t, Told& told) {
  if (none_emptied(t)) return;
  const bool one = one_emptied(t);
  switch (t.operation().empties) {
    case Empties::out_of_work:
      told.sentences.back() +=
          one ? " and put the emptied needle in NWP" : fmt::format(", and put the {} empty needles in NWP", emptied(t));
      break;
    case Empties::in_work:
      told.sentences.push_back(one ? std::string("leave the empty needle in WP: an eyelet")
                                   : fmt::format("leave the {} empty needles in WP: the eyelets", emptied(t)));
      break;
    case Empties::filled: {
      const std::string from = t.operation().filled_from ? " on its " + side_word(*t.operation().filled_from) : " beside it";
      told.sentences.push_back(
          fmt::format("on {} hang the loop below the st{}", one ? "the empty needle" : "each empty needle", from));
      break;
    }
    case Empties::unsaid:
      break;
  }
}

std::string tool(const Telling& t) {
  return t.operation().prongs > 1 ? fmt::format("with the {}-prong transfer tool", t.operation().prongs) : "";
}

// "on each side", "on the right".
std::string place(const Telling& t) {
  return t.operation().each_side ? "on each side" : "on the " + side_word(t.operation().side.value_or(Side::right));
}

// Several at a time (`decrease 2 on each side`) are worked one after the other.
std::string times(const Telling& t) {
  if (t.amount_is(1)) return "";
  return fmt::format(", {}{}times", t.amount(), no_break);
}

}  // namespace

Told tell_move(const Telling& t) {
  Told told;
  told.breaks = true;
  const Noun noun = t.noun("st");
  std::string sentence;
  if (!noun.before.empty()) told.sentences.push_back(noun.before);
  if (noun.in_order) sentence += "from the left, ";
  if (!tool(t).empty()) sentence += tool(t) + ", ";
  const std::string move = fmt::format("move {} {}", noun.text, direction(t, noun));
  told.sentences.push_back(sentence + move);
  // The title of its chart names the group, not where in the work it lies; but which bed.
  Noun group = noun;
  using Kind = knit::Selection::Kind;
  const knit::Selection* chosen = t.operation().selections.empty() ? nullptr : &t.operation().selections.front();
  if (chosen != nullptr && chosen->kind == Kind::of && chosen->parts.size() == 2 && chosen->parts[1].kind != Kind::bed) {
    group = noun_of(chosen->parts.front(), "st", t.printed(), t.scope());
  }
  told.chart = fmt::format("move {} {}", group.text, direction(t, group));
  add_empties(t, told);
  return told;
}

// A whole bed is told by its name; otherwise which of its stitches go over.
Told tell_transfer(const Telling& t) {
  Told told;
  told.breaks = true;
  const bool to_main = t.always([](const SizeRecord& r) { return r.needles.first.bed == knit::Bed::second; });
  const std::string from = to_main ? "second" : "main", to = to_main ? "main" : "second";
  const auto carried = [=](const knit::MachineState& state) {
    return to_main ? state.second_bed : state.stitches - state.second_bed;
  };
  const bool bare = t.always([&](const SizeRecord& r) { return carried(r.after) == 0; });
  std::string sentence;
  if (bare && t.always([&](const SizeRecord& r) { return r.amount == carried(r.before); })) {
    sentence = fmt::format("move each st of the {} bed to", from);
  } else {
    const Noun noun = t.noun("st");
    if (!noun.before.empty()) told.sentences.push_back(noun.before);
    const std::string of_bed = noun.text.find("bed") == std::string::npos ? " of the " + from + " bed" : "";
    sentence = fmt::format("{}move {}{}, each st to", noun.in_order ? "from the left, " : "", sts_of(noun.text), of_bed);
  }
  // Where the facing needles carry, both loops lie on one hook.
  const bool none_met = t.always([](const SizeRecord& r) { return r.second_amount == 0; });
  const bool all_met = t.always([](const SizeRecord& r) { return r.second_amount == r.amount; });
  const bool from_one_bed = t.always([&](const SizeRecord& r) {
    return to_main ? r.before.stitches == r.before.second_bed : r.before.second_bed == 0;
  });
  sentence += fmt::format(" the {}needle of the {} bed that faces it{}: {}", none_met ? "empty " : "", to,
                          none_met  ? from_one_bed ? ", brought to WP for it" : ""
                          : all_met ? ", onto the st there"
                                    : ", onto the st where there is one",
                          t.amount("st"));
  told.sentences.push_back(std::move(sentence));
  if (bare) {
    told.sentences.push_back(
        fmt::format("put all needles of the {} bed in NWP and set the carriage to knit the {} bed alone", from, to));
  } else {
    told.sentences.push_back(fmt::format("put the emptied needle{} in NWP{}", t.amount_is(1) ? "" : "s",
                                         from_one_bed ? " and set the carriage to knit both beds" : ""));
    told.chart = "both beds after this transfer";
  }
  return told;
}

namespace {

// `1 on each side of main bed`: the end needles of a bed; nothing for other selections.
const knit::Selection* end_needles(const Telling& t) {
  const knit::Selection* s = t.operation().selections.empty() ? nullptr : &t.operation().selections.front();
  if (s != nullptr && s->kind == knit::Selection::Kind::of && !s->parts.empty()) s = &s->parts.front();
  const bool on_side = s != nullptr && s->kind == knit::Selection::Kind::on_side;
  return on_side && t.noun("needle").text.starts_with("the last needle") ? s : nullptr;
}

// "L12 and R12 (L14 and R14)": the ends of a bed, or the one at the side.
std::string ends(const Telling& t, knit::Bed bed, knit::Selection::Where where) {
  using Where = knit::Selection::Where;
  return t.run(t.each([=](const SizeRecord& r) {
    const knit::NeedleSpan& span = bed == knit::Bed::main ? r.before.span : r.before.second_span;
    if (where == Where::left) return needle_name(span.first.number);
    if (where == Where::right) return needle_name(span.last.number);
    return needle_name(span.first.number) + " and " + needle_name(span.last.number);
  }));
}

// At a corner of a tube the loop comes from the end of the other bed.
std::string over_the_corner(const Telling& t, const knit::Selection& chosen) {
  using Where = knit::Selection::Where;
  const bool onto_main = t.always([](const SizeRecord& r) { return r.needles.first.bed == knit::Bed::main; });
  const knit::Bed to = onto_main ? knit::Bed::main : knit::Bed::second, from = onto_main ? knit::Bed::second : knit::Bed::main;
  const bool each = chosen.where == Where::each;
  const std::string at = each ? "at each end" : "on the " + side_word(chosen.where == Where::left ? Side::left : Side::right);
  const std::string below = ends(t, from, chosen.where), onto = ends(t, to, chosen.where);
  const std::string lift = fmt::format("to close the corner{}, {} lift the loop below the end st of the {} bed onto the end needle of "
                                       "the {} bed, where a st hangs already",
                                       each ? "s" : "", at, bed_word(from), bed_word(to));
  if (below == onto) return fmt::format("{}: {} on both beds", lift, onto);
  return fmt::format("{}: from {} of the {} bed onto {} of the {} bed", lift, below, bed_word(from), onto, bed_word(to));
}

}  // namespace

Told tell_lift(const Telling& t) {
  using Where = knit::Selection::Where;
  Told told;
  const knit::Selection* chosen = end_needles(t);
  const bool one_bed = t.always([](const SizeRecord& r) { return r.amount == r.second_amount; });
  const bool sided = chosen != nullptr && (chosen->where == Where::each || chosen->where == Where::left || chosen->where == Where::right);
  if (sided && one_bed) {
    told.sentences = {over_the_corner(t, *chosen)};
    return told;
  }
  const std::string corners = chosen == nullptr ? "" : chosen->where == Where::each ? "to close the corners, " : "to close the corner, ";
  told.sentences = {fmt::format("{}beside {} lift the loop below the neighbouring st and hang it on that needle too", corners,
                                t.noun("needle").text)};
  return told;
}

// n in: n edge stitches go outwards, the gap is filled from the loop below the stitch outside it.
Told tell_increase(const Telling& t) {
  Told told;
  told.breaks = true;
  const std::int32_t inset = t.operation().inset;
  const std::string where = place(t) + times(t);
  if (inset == 0) {
    told.sentences = {fmt::format("{} bring the next needle to WP and hang on it the loop below the edge st", where)};
    return told;
  }
  const std::string with = tool(t).empty() ? "" : ", " + tool(t) + ",";
  const std::string sts = inset == 1 ? "edge st" : fmt::format("{} edge sts", inset);
  told.sentences = {
      fmt::format("{} bring the next needle to WP and{} move the {} one needle outwards", where, with, sts)};
  told.sentences.push_back(t.operation().empties == Empties::in_work
                               ? "leave the emptied needle in WP: an eyelet"
                               : "on the emptied needle hang the loop below the st outside it");
  told.chart = fmt::format("increase {}, {} in", place(t), inset == 1 ? "1 st" : fmt::format("{} sts", inset));
  return told;
}

// n in: n whole stitches stay outside the doubled one, so n + 1 of them move.
Told tell_decrease(const Telling& t) {
  Told told;
  told.breaks = true;
  const std::int32_t moved = t.operation().inset + 1;
  std::string sentence = place(t) + times(t);
  if (moved == 1) {
    sentence += " move the edge st to the needle beside it";
  } else {
    const std::string with = tool(t);
    sentence += with.empty() ? " " : ", " + with + ", ";
    sentence += fmt::format("move the {} edge sts one needle inwards", moved);
  }
  sentence += t.operation().empties == Empties::in_work ? " and leave the emptied needle in WP"
                                                        : " and put the emptied needle in NWP";
  told.sentences = {std::move(sentence)};
  if (moved > 1)
    told.chart = fmt::format("decrease {}, {} in", place(t), moved == 2 ? "1 st" : fmt::format("{} sts", moved - 1));
  return told;
}

Told tell_fill(const Telling& t) {
  Told told;
  told.breaks = true;
  const std::string from = t.operation().side ? "on its " + side_word(*t.operation().side) : std::string("beside it");
  told.sentences = {fmt::format("on each of the {} empty needles hang the loop below the st {}", t.amount(), from)};
  if (t.amount_is(1)) told.sentences = {fmt::format("on the empty needle hang the loop below the st {}", from)};
  return told;
}

// "at the middle 4 needles cross 2 sts over 2": the second number has no word of its own.
Told tell_cross(const Telling& t) {
  Told told;
  told.breaks = true;
  const Noun noun = t.noun("needle");
  const std::string second = t.run(t.each([](const SizeRecord& r) { return fmt::format("{}", r.second_amount); }));
  if (!noun.before.empty()) told.sentences.push_back(noun.before);
  told.sentences.push_back(fmt::format("at {} cross {} over {}: lift the left sts and the right sts on a transfer tool "
                                       "each, and hang each on the needles of the other, the left ones first",
                                       noun.text, t.amount("st"), second));
  told.chart = fmt::format("cross {} over {}", t.amount("st"), second);
  return told;
}

namespace {

// Rows in which some needles do something of their own: "knit 2 rows with every second needle set to tuck".
Told tell_set_to(const Telling& t, const char* what) {
  Told told;
  told.makes_fabric = true;
  const Noun noun = t.noun("needle");
  if (!noun.before.empty()) told.sentences.push_back(noun.before);
  told.sentences.push_back(fmt::format("set the carriage to {}", what));
  told.tension_at = told.sentences.size();
  told.sentences.push_back(fmt::format("knit {} with {} set to {}{}", t.amount("row"), noun.text, what,
                                       noun.in_order ? ", counted from the left" : ""));
  told.chart_at = told.sentences.size();
  told.sentences.push_back("set the carriage to knit again");
  told.chart = fmt::format("needles set to {}", what);
  return told;
}

}  // namespace

Told tell_tuck(const Telling& t) {
  return tell_set_to(t, "tuck");
}

Told tell_slip(const Telling& t) {
  return tell_set_to(t, "slip");
}

Told tell_latch_up(const Telling& t) {
  Told told;
  const Noun noun = t.noun("st");
  if (!noun.before.empty()) told.sentences.push_back(noun.before);
  const bool one = t.amount_is(1);
  // "10 rows below": known as long as every row since the casting on was knitted on all needles.
  const auto& rows = t.memory().rows_since_cast_on;
  std::string deep;
  if (t.always([&](const SizeRecord& r) { return rows.count(static_cast<std::size_t>(&r - t.step().records.data())) > 0; })) {
    PerSize counts(t.step().records.size());
    for (const auto& [size, count] : rows) {
      if (size < counts.size() && knit::has(t.scope(), size)) counts[size] = fmt::format("{}", count);
    }
    deep = ", " + counted(counts, "row", t.printed(), t.scope()) + " below,";
  }
  told.sentences.push_back(fmt::format("{}drop {}{}, down to the first row of its column{} and latch the column{} up again "
                                       "from that row on the side that faces you",
                                       noun.in_order ? "from the left, " : "", noun.text,
                                       one ? "" : fmt::format(" ({} in all)", t.amount("st")), deep.empty() ? "," : deep, one ? "" : "s"));
  told.sentences.push_back(one ? "hang its last loop on the needle again" : "hang the last loop of each on its needle again");
  return told;
}

}  // namespace stk::document
