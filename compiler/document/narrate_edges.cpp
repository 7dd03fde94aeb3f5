// Rows marked, edges hung on the needles and taken off them: rehanging, picking up, scrapping off, binding off, gathering.
#include <fmt/core.h>

#include <algorithm>

#include "compiler/document/telling.hpp"

namespace stk::document {

namespace {

using knit::Method;
using knit::SizeRecord;

// The comb must not hang in fabric that leaves the machine.
void unhang(const Telling& t, Told& told) {
  if (t.memory().comb_hung && t.always([](const SizeRecord& r) { return r.after.stitches == 0; })) {
    told.sentences.push_back(t.memory().only_weights ? "unhang the weights" : "unhang the comb and the weights");
  }
}

// Of two beds one is left: the carriage must leave the bare one alone.
void one_bed_left(const Telling& t, Told& told) {
  const auto on_main = [](const knit::MachineState& state) { return state.stitches - state.second_bed; };
  const bool both = t.always([&](const SizeRecord& r) { return r.before.second_bed > 0 && on_main(r.before) > 0; });
  if (!both) return;
  for (const bool main : {true, false}) {
    const bool alone = t.always([&](const SizeRecord& r) {
      return r.after.stitches > 0 && (main ? r.after.second_bed : on_main(r.after)) == 0;
    });
    if (alone) told.sentences.push_back(fmt::format("set the carriage to knit the {} bed alone", main ? "main" : "second"));
  }
}

bool all_that_is_left(const Telling& t) {
  return t.always([](const SizeRecord& r) { return r.after.stitches == 0; });
}

// So many needles have no name of their own; on a bare bed they were named when they were put in work.
std::string on_needles(const Telling& t) {
  const auto& selections = t.operation().selections;
  const bool beside = t.always([](const SizeRecord& r) { return r.before.stitches > 0 && r.needles.first.number != 0; });
  if (beside && !selections.empty() && selections.front().kind == knit::Selection::Kind::span) {
    return "needles" + std::string(no_break) + t.needles();
  }
  return t.noun("needle").text;
}

// Beside stitches, needles that were out of work come in first.
void brought_in(const Telling& t, Told& told) {
  if (t.always([](const SizeRecord& r) { return r.before.stitches > 0 && r.after.in_work > r.before.in_work; })) {
    std::string needles = on_needles(t);
    if (needles == "the main bed" || needles == "the second bed") {
      needles = (t.side_by_side() ? t.needles() : "the needles") + " of " + needles;
    }
    told.sentences.push_back(fmt::format("bring {} to WP", needles));
  }
}

// Where needles lie wholly to one side of the work on the same bed: "left", "right"; else nothing.
std::string side_of_work(const Telling& t) {
  const auto place = [](knit::Needle needle) { return needle.number < 0 ? needle.number : needle.number - 1; };
  const auto lies = [=](const SizeRecord& r, bool left) {
    const knit::NeedleSpan& work = r.before.span;
    if (r.before.stitches == 0 || work.first.bed != r.needles.first.bed) return false;
    return left ? place(r.needles.last) < place(work.first) : place(r.needles.first) > place(work.last);
  };
  if (t.always([&](const SizeRecord& r) { return lies(r, true); })) return "left";
  return t.always([&](const SizeRecord& r) { return lies(r, false); }) ? "right" : "";
}

bool in_all(const Telling& t, bool SizeRecord::*flag) {
  return t.always([=](const SizeRecord& r) { return r.*flag; });
}

// On a bare bed: the needles are named before hands are full of loops, and no other may catch the yarn.
void bare_bed(const Telling& t, Told& told) {
  if (!t.always([](const SizeRecord& r) { return r.before.stitches == 0; }) || t.memory().needles_set) return;
  const bool second = t.always([](const SizeRecord& r) { return r.needles.first.bed == knit::Bed::second; });
  told.sentences.push_back(
      fmt::format("put {}{} in WP and all other needles in NWP", t.needles(), second ? " of the second bed" : ""));
}

// Turned over, the yarn comes to the other side, and the carriage goes there before anything hangs again: with the needles
// full it would drop what it passed, and slid along the bed it would count a row.
bool carriage_follows(const Telling& t, Told& told) {
  const bool goes = t.always([](const SizeRecord& r) { return r.before.carriage != r.after.carriage; });
  if (!goes || t.memory().threaded.empty() || t.memory().yarn_cut) return false;
  const bool left = t.always([](const SizeRecord& r) { return r.after.carriage == knit::Side::left; });
  told.sentences.push_back(fmt::format("take the yarn out of the feeder, lift the carriage off the bed and set it on again on the {}",
                                       left ? "left" : "right"));
  return true;
}

// The lower edge of a slot while its waste is still in it.
bool below_a_line(const Telling& t) {
  const auto& edges = t.operation().edges;
  return edges.size() == 1 && edges.front().ends_with("_slot.lower");
}

// What is left of an edge whose other sts were taken in while rows were knitted.
bool rest_of_joined(const Telling& t) {
  const std::vector<std::string>& edges = t.operation().edges;
  return std::any_of(edges.begin(), edges.end(), [&](const std::string& edge) { return t.memory().taken_in.count(edge) > 0; });
}

}  // namespace

Told tell_mark_row(const Telling& t) {
  Told told;
  const auto& selections = t.operation().selections;
  const std::string sts = selections.empty() || selections.front().kind == knit::Selection::Kind::all
                              ? fmt::format("the {} on the needles", t.amount("st"))
                              : sts_of(t.noun("st").text);
  told.sentences = {fmt::format("mark this row: run a length of contrasting yarn through {}, and leave it in", sts)};
  return told;
}

Told tell_hang_edge(const Telling& t) {
  Told told;
  told.breaks = true;
  std::string edge = t.edges(t.operation().edges);
  if (below_a_line(t)) edge += fmt::format(", the sts just below {},", t.waste());
  const bool comb = in_all(t, &SizeRecord::comb_moved), waste = in_all(t, &SizeRecord::waste_drawn);
  const bool hem = t.always([](const SizeRecord& r) { return r.before.stitches > 0; });
  const bool open_hem = hem && t.memory().cast_on == Method::open_on_waste;
  if (comb && !waste) told.sentences.push_back("unhang the comb and the weights");   // it hangs in the edge that is wanted
  const bool follows = carriage_follows(t, told);
  switch (t.operation().method) {
    case Method::by_loops_between:
      if (t.always([](const SizeRecord& r) { return r.amount < r.before.stitches - 1; })) {   // a 2x1 rib, say
        told.sentences.push_back("find the first row of the fabric, just above the waste: below each empty needle it passes "
                                 "in a long loop from st to st");
        told.sentences.push_back(
            fmt::format("from left to right hang each long loop on the empty needle straight above it, {} in all; the short "
                        "loops between neighbours stay as they are",
                        t.amount("loop")));
        break;
      }
      told.sentences.push_back("find the first row of the fabric, just above the waste: it makes a short loop between each "
                               "two sts");
      told.sentences.push_back(
          fmt::format("from left to right hang each loop on the empty needle straight above it, {} in all; "
                      "none may be left over",
                      t.amount("loop")));
      break;
    case Method::folded: {
      const bool right = t.operation().side.value_or(knit::Side::right) == knit::Side::right;
      told.sentences.push_back(fmt::format("fold {} in half, the side that faced you inside, with the fold on the {}", edge,
                                           right ? "left" : "right"));
      told.sentences.push_back(
          fmt::format("hang its {} half on the main bed and its {} half on the second bed, {} in all",
                      right ? "right" : "left", right ? "left" : "right", t.amount("st")));
      break;
    }
    case Method::marked_row: {
      const bool shown = t.always([](const SizeRecord& r) { return r.target > 0; });
      const std::string row =
          shown ? fmt::format("row marked at RC{}{}", no_break,
                              t.run(t.each([](const SizeRecord& r) { return counter_digits(r.target); })))
                : "marked row";
      told.sentences.push_back(fmt::format(
          "fold the fabric up towards you, the purl side inside, and from left to right hang the loops of the {} on {}, one on "
          "each; none may be left over, and each needle then holds 2 loops",
          row, on_needles(t)));
      told.sentences.push_back("draw the marking yarn out");
      break;
    }
    case Method::reversed:
      bare_bed(t, told);
      brought_in(t, told);
      if (const std::string side = side_of_work(t); !side.empty()) {   // the fabric folds: its purl side still faces her
        told.sentences.push_back(fmt::format("swing {} round to the {}, the purl side still towards you, and hang it on {}, one "
                                             "st on each: {}",
                                             edge, side, on_needles(t), t.amount("st")));
        told.sentences.push_back("begin with the st nearest to the work, on the needle nearest to the work, and go outwards");
        break;
      }
      if (!hem) {   // the whole piece hangs from it
        told.sentences.push_back(fmt::format("turn the fabric over, the side that faced you away from you, and from left to right hang {} on {}, one st on each: {}", edge,
                                             on_needles(t), t.amount("st")));
        break;
      }
      told.sentences.push_back(
          fmt::format("turn {} over and hang it on {}, one st on each: {}", edge, on_needles(t), t.amount("st")));
      break;
    default:
      if (!hem) bare_bed(t, told);
      brought_in(t, told);
      if (rest_of_joined(t)) {
        const bool one = t.always([](const SizeRecord& r) { return r.amount == 1; });
        told.sentences.push_back(one ? fmt::format("hang the last of {} on {}, with the st there", edge, on_needles(t))
                                     : fmt::format("from left to right hang what is left of {} on {}, one loop on each", edge, on_needles(t)));
      } else if (open_hem) {
        told.sentences.push_back(fmt::format(
            "from left to right hang the sts of the first row, just above the waste, on {}, one on each needle; none may be "
            "left over",
            on_needles(t)));
      } else {
        told.sentences.push_back(fmt::format("{}from left to right hang {} on {}, one loop on each; none may be left over",
                                             hem ? "" : "with the purl side towards you, ", edge, on_needles(t)));
      }
      break;
  }
  if (comb && waste) {
    told.sentences.push_back(
        fmt::format("move the comb and the weights from {} to the fold, then draw out the cord: {} comes away",
                    t.waste(), t.waste()));
  } else if (comb) {
    told.sentences.push_back("hang the comb and the weights in the fold");
  } else if (waste) {
    told.sentences.push_back(t.in_part() ? fmt::format("draw {} out of these sts and leave it in the others", t.waste())
                                         : fmt::format("draw out {}", t.waste()));
  }
  if (follows) told.sentences.push_back("thread the yarn again");
  const bool second_alone = t.always([](const SizeRecord& r) {
    return r.before.stitches == 0 && r.after.second_bed > 0 && r.after.second_bed == r.after.stitches;
  });
  if (second_alone) told.sentences.push_back("set the carriage to knit the second bed alone");
  told.side = t.operation().method != Method::folded && !hem;
  return told;
}

Told tell_pick_up(const Telling& t) {
  Told told;
  told.breaks = true;
  const knit::Operation& o = t.operation();
  const std::string side = o.side ? " on the " + side_word(*o.side) : "";
  if (t.memory().on_other_side) {
    told.sentences = {fmt::format("in the same way pick up {}{}, along {}", t.amount("loop"), side, t.edges(o.edges))};
    return told;
  }
  told.sentences = {fmt::format("along {}, from the work outwards, pick up {} on the needles beside the work{}, which come to WP",
                                t.edges(o.edges), t.amount("loop"), side)};
  const std::string loops = o.rate_loops == 1 ? "one loop" : fmt::format("{} loops", o.rate_loops);
  told.sentences.push_back(fmt::format("take {} for every {}{}", loops,
                                       o.rate_rows == 1 ? "row" : fmt::format("{}", o.rate_rows),
                                       o.rate_rows == 1 ? "" : std::string(no_break) + "rows"));
  return told;
}

Told tell_open(const Telling& t) {
  Told told;
  const std::string slot = t.parts(t.operation().edges);
  if (t.operation().upper_on_holder) {
    told.sentences.push_back(fmt::format("slip the loops above {} in {} onto a holder: one loop between each two sts, and "
                                         "half a loop at each end",
                                         t.waste(), slot));
  }
  told.sentences.push_back(fmt::format("draw {} out of {}", t.waste(), slot));
  return told;
}

namespace {

// The needles that wait while waste is knitted over the chosen ones.
std::string others(const Telling& t) {
  if (t.operation().selections.size() == 1) {
    const std::string chosen = t.noun("needle").text;
    if (chosen == "the right half") return "the left half";
    if (chosen == "the left half") return "the right half";
    return "all needles but " + chosen;
  }
  return "the needles of all other sts";
}

}  // namespace

// "the right half is the sole end, the left half the instep end: 12 (14, 16) sts each".
Told tell_scrap_off(const Telling& t) {
  Told told;
  told.breaks = true;
  const knit::Operation& o = t.operation();
  const std::string waste = o.yarns.empty() ? t.waste() : t.yarn();
  const bool aside = !t.always([](const SizeRecord& r) { return r.set_aside == 0; });
  if (aside) told.sentences.push_back(fmt::format("put {} in HP and set the carriage to hold", others(t)));
  const std::string over = all_that_is_left(t) || o.selections.size() != 1 ? "" : " over " + t.noun("needle").text;
  const bool tube = t.always([](const SizeRecord& r) { return r.before.second_bed > 0; }) && o.selections.size() > 1;
  if (tube && !t.memory().rounds) told.sentences.push_back("set the carriage for rounds");
  told.sentences.push_back(tube ? fmt::format("thread {} and knit {}{}rounds, so that the waste of the two beds stays apart",
                                              waste, o.waste_rows, no_break)
                                : fmt::format("thread {} and knit {}{}rows{}", waste, o.waste_rows, no_break, over));
  unhang(t, told);
  std::string drop = "drop the fabric off the needles";
  if (!all_that_is_left(t)) drop = "drop these sts off the needles and put the needles in NWP";
  if (o.selections.size() == 1 && o.edges.size() == 1) {
    // "the 12 heel sts", but "the toe end, 12 sts".
    const std::string edge = t.edge();
    const bool names_sts = edge.size() > 8 && edge.substr(edge.size() - 4) == " sts";
    told.sentences.push_back(names_sts ? fmt::format("{}: the {} {}", drop, t.amount(), edge.substr(4))
                                       : fmt::format("{}: {}, {}", drop, edge, t.amount("st")));
  } else {
    told.sentences.push_back(drop);
    std::vector<std::string> parts;
    for (std::size_t i = 0; i < o.selections.size() && i < o.edges.size(); ++i) {
      std::string what = noun_of(o.selections[i], "st", t.printed(), t.scope()).text;
      if (what == "the main bed" || what == "the second bed") what = (i == 0 ? "the sts of " : "those of ") + what;
      const bool several = what.size() > 3 && (what.substr(what.size() - 3) == "sts" || what.substr(0, 7) == "the sts");
      parts.push_back(what + (i > 0 ? " " : several ? " are " : " is ") + t.edge(i));
    }
    std::string sentence = joined(parts);
    if (t.always([](const SizeRecord& r) {
          return !r.part_counts.empty() && std::all_of(r.part_counts.begin(), r.part_counts.end(),
                                                       [&](std::int32_t n) { return n == r.part_counts.front(); });
        })) {
      const PerSize counts = t.each([](const SizeRecord& r) { return fmt::format("{}", r.part_counts.front()); });
      sentence += fmt::format(": {} each", counted(counts, "st", t.printed(), t.scope()));
    }
    told.sentences.push_back(std::move(sentence));
  }
  if (!all_that_is_left(t)) told.stitches_intro = "remaining:";
  one_bed_left(t, told);
  if (aside) told.sentences.push_back("put the held needles in UWP and set the carriage to knit all needles");
  return told;
}

Told tell_take_off(const Telling& t) {
  Told told;
  told.breaks = true;
  unhang(t, told);
  const std::string what = all_that_is_left(t) ? "all " + t.amount("st") : sts_of(t.noun("st").text);
  const std::string name = t.operation().edges.empty() ? "" : ": " + t.edges(t.operation().edges);
  told.sentences.push_back(fmt::format("take {} off the needles onto a thread{}", what, name));
  if (!all_that_is_left(t)) told.sentences.push_back("put the emptied needles in NWP");
  one_bed_left(t, told);
  if (!all_that_is_left(t)) told.stitches_intro = "remaining:";
  return told;
}

namespace {

std::string from_yarn(const Telling& t, bool back) {
  return t.run(t.each([=](const SizeRecord& r) {
    return std::string((r.yarn_side == knit::Side::right) != back ? "from right to left" : "from left to right");
  }));
}

// Round a tube, beginning on the bed where the yarn hangs; a rib in the order of its stitches.
std::string both_beds_bound_off(const Telling& t) {
  if (!t.memory().rounds) return ", the sts of both beds in their order, " + from_yarn(t, false);
  const bool second = t.always([](const SizeRecord& r) { return r.yarn_needle.bed == knit::Bed::second; });
  return fmt::format(", along the {} bed {}, then back along the {} bed {}", second ? "second" : "main", from_yarn(t, false),
                     second ? "main" : "second", from_yarn(t, true));
}

}  // namespace

Told tell_bind_off(const Telling& t) {
  Told told;
  told.breaks = true;
  unhang(t, told);
  std::string sentence = all_that_is_left(t) ? "bind off all " + t.amount("st") : "bind off " + t.amount("st");
  if (!all_that_is_left(t)) {
    std::string which = sts_of(t.noun("st").text);
    if (which.starts_with("the sts of ")) which.replace(0, 7, "those");
    sentence += fmt::format(", {},", which);
  }
  if (t.operation().loose) sentence += " loosely";
  if (t.operation().method == Method::by_latch) sentence += " with the yarn and the latch tool";
  if (t.operation().method == Method::by_crochet) sentence += " with the yarn and a crochet hook";
  if (t.always([](const SizeRecord& r) { return r.second_amount > 0 && r.second_amount < r.amount; })) {
    sentence += both_beds_bound_off(t);
  } else {
    const std::string way = from_yarn(t, false);   // by sizes: the last loop must lie where the yarn is not
    sentence += way.find('(') == std::string::npos ? ", " + way : ", beginning where the yarn hangs";
    if (!t.operation().edges.empty()) sentence += ": " + t.edge();   // it is called by this name when it is sewn
  }
  told.sentences.push_back(std::move(sentence));
  told.sentences.push_back(all_that_is_left(t) ? "cut the yarn and draw its end through the last loop"
                                               : "put the emptied needles in NWP");
  one_bed_left(t, told);
  return told;
}

Told tell_gather(const Telling& t) {
  Told told;
  told.breaks = true;
  unhang(t, told);
  const std::string thread = t.memory().yarn_cut ? "tail" : "yarn";
  if (t.always([](const SizeRecord& r) { return r.second_amount > 0 && r.second_amount < r.amount; })) {   // a tube
    told.sentences.push_back(fmt::format("thread the {} on a needle and draw it through the sts of the main bed {}, then back "
                                         "through those of the second bed {}, {} in all",
                                         thread, from_yarn(t, false), from_yarn(t, true), t.amount("st")));
  } else {
    told.sentences.push_back(fmt::format("thread the {} on a needle and draw it through {}, {}", thread,
                                         all_that_is_left(t) ? "all " + t.amount("st") : sts_of(t.noun("st").text),
                                         from_yarn(t, false)));
  }
  told.sentences.push_back("take the sts off the machine, pull the tail tight and fasten it off");
  return told;
}

}  // namespace stk::document
