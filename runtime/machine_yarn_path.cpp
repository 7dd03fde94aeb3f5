// The path of the yarn: where it comes from, what it passes over, where it turns. Floats, holes at turns, empty needles
// and pattern rows are all judged here, from the path and never from what a technique is called.
#include <algorithm>

#include "runtime/machine_knitting.hpp"

namespace stk::runtime {

// Loops that a yarn passes from its last place to a needle. Along one bed those strictly between; over both beds of a
// flat fabric those of either bed between; in a tube from one bed to the other those outside both, round the nearer
// end.
int Machine::loops_between(const YarnPlace& place, Bed where, int needle, bool both_beds, bool round) const {
  const NeedleSet& there = carrying(place.bed);
  if (place.bed == where && !both_beds) return there.count_between(place.needle, needle);
  if (place.bed == where || !round) {
    return (carrying(Bed::main) | carrying(Bed::second)).count_between(place.needle, needle);
  }
  const NeedleSet& here = carrying(where);
  const int left = there.count_between(-1, place.needle) + here.count_between(-1, needle);
  const int right = there.count_between(needle_limit, place.needle) + here.count_between(needle_limit, needle);
  return std::min(left, right);
}

// Leads one yarn over the needles that take it and leaves it at the last. True when the way to the first was too long.
bool Machine::lead_yarn(Knitting& knitting, int feeder, YarnId yarn, const std::array<NeedleSet, 2>& taking,
                        Side from) {
  const NeedleSet all = taking[0] | taking[1];
  if (all.empty()) return false;
  const int first = from == Side::left ? all.first() : all.last(), last = from == Side::left ? all.last() : all.first();
  const auto bed_at = [&](int needle) { return taking[0].contains(needle) ? Bed::main : Bed::second; };
  const auto say = [&](int at, int where, std::int64_t passed, int within, Tag cause) {
    Fault& fault = raise(knitting.outcome, FaultKind::float_too_long, bed_at(where), NeedleSet::one(where), cause);
    fault.needle = at;
    fault.yarn = yarn;
    fault.a = passed;
    fault.b = spec_.float_limit;
    fault.c = within;
    fault.d = static_cast<std::int64_t>(knitting.row);
  };
  bool floated = false;
  if (const std::optional<YarnPlace> place = this->place(yarn)) {
    const bool both_beds = !taking[0].empty() && !taking[1].empty();
    const bool round = tube_ || knitting.mode == KnitMode::rounds;
    const int passed = loops_between(*place, bed_at(first), first, both_beds, round);
    floated = passed > spec_.float_limit;
    if (floated && !knitting.float_to[feeder]) {
      knitting.float_to[feeder] = true;
      const BedState& bed = bed_of(bed_at(first));
      const int beside = from == Side::left ? bed.carrying.previous(first - 1) : bed.carrying.next(first + 1);
      const auto cause_of = [&](int needle) { return bed.cause[static_cast<std::size_t>(needle)]; };
      if (bed.held.contains(beside)) {
        say(place->needle, first, passed, 0, cause_of(beside));
      } else {
        const bool new_loop = bed.fresh.contains(first);
        say(place->needle, first, passed, new_loop ? 3 : 0, new_loop ? cause_of(first) : no_tag);
      }
    }
  } else {
    add_end(yarn, false, {bed_at(first), first, passes_}, 0);
  }
  set_place(yarn, YarnPlace{bed_at(last), last, passes_});

  // Within the pass: runs of loops that the yarn lies over, between two needles that take it.
  std::array<NeedleSet, 2> over;
  for (std::size_t b = 0; b < 2; ++b) {
    if (!taking[b].empty()) over[b] = (beds_[b].carrying - all) & NeedleSet::range(all.first(), all.last());
  }
  const NeedleSet lain_over = over[0] | over[1];
  int longest = 0, at = -1, again = -1;
  Tag cause = no_tag;
  for (int needle = lain_over.first(); needle >= 0;) {
    const int before = all.previous(needle), after = all.next(needle);
    const NeedleSet gap = NeedleSet::range(before + 1, after - 1);
    const int passed = (lain_over & gap).count();
    needle = lain_over.next(after);
    if (passed <= spec_.float_limit) continue;
    bool quiet = true;   // a gap of held needles that was said in an earlier pass
    Tag held_by = no_tag;
    for (std::size_t b = 0; b < 2; ++b) {
      BedState& bed = beds_[b];
      const NeedleSet here = over[b] & gap;
      quiet = quiet && bed.quiet_gap.contains_all(here);
      bed.quiet_gap |= here & bed.held;
      const NeedleSet held = here & bed.held;
      if (held_by == no_tag && !held.empty()) held_by = bed.cause[static_cast<std::size_t>(held.first())];
    }
    if (quiet || passed < longest || (passed == longest && from == Side::left)) continue;
    longest = passed;
    at = from == Side::left ? before : after;
    again = from == Side::left ? after : before;
    cause = held_by;
  }
  if (longest > 0 && !knitting.float_within[feeder]) {
    knitting.float_within[feeder] = true;
    say(at, again, longest, 1, cause);
  }

  // And bare needles between two stitches: a ladder, where there are more of them than a float may be long.
  if (all.last() - all.first() + 1 - all.count() > spec_.float_limit) {
    longest = 0;
    for (int before = all.first(); before >= 0 && before < all.last();) {
      const int after = all.next(before + 1);
      const NeedleSet gap = NeedleSet::range(before + 1, after - 1);
      const int width = after - before - 1;
      const bool wide = width > spec_.float_limit && !lain_over.intersects(gap) && !quiet_bare_.contains_all(gap);
      if (wide) quiet_bare_ |= gap;
      if (wide && (width > longest || (width == longest && from == Side::right))) {
        longest = width;
        at = from == Side::left ? before : after;
        again = from == Side::left ? after : before;
        cause = bed_of(bed_at(again)).cause[static_cast<std::size_t>(before + 1)];
      }
      before = after;
    }
    if (longest > 0) say(at, again, longest, 2, cause);
  }
  return floated;
}

// The carriage comes back from a turn: the held needle beyond the first one knitted is closed, or a hole opens there.
// `say` is false where the same held needles have already been said to make a float.
void Machine::check_turns(Outcome& outcome, const std::array<NeedleSet, 2>& worked, Side from, bool say) {
  for (const Bed each : {Bed::main, Bed::second}) {
    const NeedleSet& needles = worked[static_cast<std::size_t>(each)];
    if (needles.empty()) continue;
    BedState& bed = bed_of(each);
    const int beside =
        from == Side::left ? bed.carrying.previous(needles.first() - 1) : bed.carrying.next(needles.last() + 1);
    if (!bed.held.contains(beside) || bed.closed.contains(beside)) continue;
    bed.closed.insert(beside);
    if (!say) continue;
    const Tag hold = bed.cause[static_cast<std::size_t>(beside)];
    const FaultKind kind = bed.waiting.contains(beside) ? FaultKind::open_slit : FaultKind::open_turn;
    Fault& fault = raise(outcome, kind, each, NeedleSet::one(beside), hold);
    for (const int needle : bed.held) fault.a += bed.cause[static_cast<std::size_t>(needle)] == hold ? 1 : 0;
  }
}

// Every needle in work that is empty takes the yarn. That is right for an eyelet with fabric on both sides, and for no
// other needle.
void Machine::check_empties(Knitting& knitting, const std::array<NeedleSet, 2>& worked) {
  for (const Bed each : {Bed::main, Bed::second}) {
    const BedState& bed = bed_of(each);
    const NeedleSet empty = worked[static_cast<std::size_t>(each)] - bed.carrying;
    if (empty.empty()) continue;
    const NeedleSet eyelets = empty & bed.eyelets;
    raise_by_cause(knitting.outcome, FaultKind::empty_needles_knitted, each, empty - eyelets);
    fabric_->sections_[section_.value].eyelets += eyelets.count();
    if (tube_) continue;   // round a tube there is no edge
    const NeedleSet fabric = carrying(Bed::main) | carrying(Bed::second);
    NeedleSet on_edge, beside_edge;
    for (const int needle : eyelets) {
      const int left = fabric.count_between(-1, needle), right = fabric.count_between(needle_limit, needle);
      if (left == 0 || right == 0) {
        on_edge.insert(needle);
      } else if (left == 1 || right == 1) {
        beside_edge.insert(needle);
      }
    }
    fabric_->sections_[section_.value].eyelets -= on_edge.count();
    raise_by_cause(knitting.outcome, FaultKind::eyelet_on_edge, each, on_edge);
    raise_by_cause(knitting.outcome, FaultKind::eyelet_beside_edge, each, beside_edge);
  }
}

void Machine::check_long_holds(Outcome& outcome) {
  for (const Bed each : {Bed::main, Bed::second}) {
    BedState& bed = bed_of(each);
    NeedleSet waiting = bed.held - bed.quiet_long;
    for (const int needle : waiting) {
      if (passes_ - bed.held_since[static_cast<std::size_t>(needle)] <= spec_.long_hold_passes) waiting.erase(needle);
    }
    bed.quiet_long |= waiting;
    const std::size_t before = outcome.faults.size();
    raise_by_cause(outcome, FaultKind::long_hold, each, waiting);
    for (std::size_t index = before; index < outcome.faults.size(); ++index) {
      Fault& fault = outcome.faults[index];
      for (const int needle : fault.needles) {
        fault.a = std::max(fault.a, passes_ - bed.held_since[static_cast<std::size_t>(needle)]);
      }
    }
  }
}

// A jump of the dial inside one fabric: same section, same yarn, no edge between.
void Machine::check_tension(Outcome& outcome, const std::array<NeedleSet, 2>& worked) {
  if (!lasting(first_yarn_)) return;
  for (const Bed each : {Bed::main, Bed::second}) {
    if (worked[static_cast<std::size_t>(each)].empty()) continue;
    BedState& bed = bed_of(each);
    const std::int64_t jump = std::int64_t{bed.tension} - bed.tension_knitted;
    const bool same = bed.tension_yarn == first_yarn_ && bed.tension_section == section_;
    if (same && (jump > spec_.abrupt_tension_tenths || -jump > spec_.abrupt_tension_tenths)) {
      Fault& fault = raise(outcome, FaultKind::tension_jumps, each);
      fault.a = bed.tension_knitted;
      fault.b = bed.tension;
    }
    bed.tension_yarn = first_yarn_;
    bed.tension_section = section_;
    bed.tension_knitted = bed.tension;
  }
}

// `tuck` and `slip` are needles of the main bed that carry.
void Machine::check_pattern(Knitting& knitting, const NeedleSet& tuck, const NeedleSet& slip) {
  Outcome& outcome = knitting.outcome;
  BedState& bed = bed_of(Bed::main);
  NeedleSet widest;
  for (int first = tuck.first(); first >= 0;) {
    int last = first;
    while (tuck.contains(last + 1)) ++last;
    if (last - first + 1 > widest.count()) widest = NeedleSet::range(first, last);
    first = tuck.next(last + 1);
  }
  if (widest.count() > spec_.tuck_neighbours && !knitting.tucks) {
    knitting.tucks = true;
    Fault& fault = raise(outcome, FaultKind::tucks_side_by_side, Bed::main, widest);
    fault.a = widest.count();
    fault.b = spec_.tuck_neighbours;
    fault.d = static_cast<std::int64_t>(knitting.row);
  }
  NeedleSet tucked_long, slipped_long;
  for (const int needle : tuck) {
    if (static_cast<int>(hook(Bed::main, needle).tucks) >= spec_.tuck_limit) tucked_long.insert(needle);
  }
  for (const int needle : slip) {
    std::int64_t& slips = bed.slips[static_cast<std::size_t>(needle)];
    slips = bed.slipping.contains(needle) ? slips + 1 : 1;
    if (slips > spec_.slip_limit) slipped_long.insert(needle);
  }
  const auto say = [&](FaultKind kind, NeedleSet needles, int limit) {
    needles -= bed.quiet_pattern;
    bed.quiet_pattern |= needles;
    if (needles.empty()) return;
    Fault& fault = raise(outcome, kind, Bed::main, needles);
    fault.a = limit;
    fault.d = static_cast<std::int64_t>(knitting.row);
  };
  say(FaultKind::tuck_too_long, tucked_long, spec_.tuck_limit);
  say(FaultKind::slip_too_long, slipped_long, spec_.slip_limit);
}

}  // namespace stk::runtime
