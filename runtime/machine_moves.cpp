// Loops from needle to needle: moves, empties, crossings, transfers between the beds.
#include <algorithm>

#include "runtime/machine.hpp"

namespace stk::runtime {

// In the order that never lands on a loop still to be moved.
void Machine::shift_loops(Bed bed, const NeedleSet& needles, int distance, Outcome& outcome) {
  if (distance > 0) {
    for (int needle = needles.last(); needle >= 0; needle = needles.previous(needle - 1)) {
      move_loop(bed, needle, bed, needle + distance);
    }
  } else {
    for (const int needle : needles) move_loop(bed, needle, bed, needle + distance);
  }
  const NeedleSet targets = needles.shifted(distance);
  const NeedleSet emptied = needles - targets;
  for (const int needle : emptied) bed_of(bed).cause[static_cast<std::size_t>(needle)] = tag_;
  bed_of(bed).in_work |= targets - bed_of(bed).held;
  outcome.emptied |= emptied;
}

void Machine::run(const Move& move, Outcome& outcome) {
  NeedleSet needles = with_loops(outcome, move.bed, on_bed(outcome, move.bed, move.needles));
  BedState& bed = bed_of(move.bed);
  const NeedleSet held = needles & bed.held;
  if (!held.empty()) raise(outcome, FaultKind::needles_held, move.bed, held);
  needles -= held;
  const int distance = std::clamp(move.distance, -needle_limit, needle_limit);
  if (distance == 0 || needles.empty()) return;
  NeedleSet off;
  if (distance > 0) off = needles - NeedleSet::range(0, spec_.needles - 1 - distance);
  if (distance < 0) off = needles - NeedleSet::range(-distance, spec_.needles - 1);
  if (!off.empty()) raise(outcome, FaultKind::moved_off_bed, move.bed, off).a = move.distance;
  needles -= off;
  if (needles.empty()) return;
  const NeedleSet targets = needles.shifted(distance);
  const NeedleSet outside = targets - bed.in_work - bed.held;
  if (!outside.empty() && !move.brings) raise(outcome, FaultKind::lands_outside_work, move.bed, outside);
  const int far = distance < 0 ? -distance : distance;
  if (far > spec_.move_reach && needles != bed.carrying) {
    Fault& fault = raise(outcome, FaultKind::move_too_far, move.bed, needles);
    fault.a = move.distance;
    fault.b = spec_.move_reach;
  }
  shift_loops(move.bed, needles, distance, outcome);
  outcome.needles = needles;
  check_hooks(outcome, move.bed, targets);
  dispose(outcome, move.bed, outcome.emptied, move.empties);
}

void Machine::dispose(Outcome& outcome, Bed where, const NeedleSet& emptied, Empties empties) {
  BedState& bed = bed_of(where);
  bed.eyelets -= emptied;
  switch (empties) {
    case Empties::unsaid: return;
    case Empties::in_work: bed.eyelets |= emptied; return;
    case Empties::out_of_work: bed.in_work -= emptied; return;
    case Empties::filled_from_left:
    case Empties::filled_from_right: break;
  }
  const int neighbour = empties == Empties::filled_from_left ? -1 : 1;
  NeedleSet alone;
  NeedleSet filled;
  for (const int needle : emptied) {
    const int from = needle + neighbour;
    if (bed.carrying.contains(from) && !bed.fresh.contains(from) && !emptied.contains(from)) {
      filled.insert(needle);
    } else {
      alone.insert(needle);
    }
  }
  for (const int needle : filled) {
    set_hook(where, needle, Hook{});
    bed.fresh.insert(needle);
  }
  ledger_.increased += filled.count();
  outcome.loops += filled.count();
  bed.in_work -= alone;   // what cannot be filled is said here, and not once more at the next row
  if (!alone.empty()) raise_by_cause(outcome, FaultKind::nothing_to_fill_from, where, alone);
}

void Machine::run(const SayEmpties& say, Outcome& outcome) {
  NeedleSet needles = on_bed(outcome, say.bed, say.needles);
  const BedState& bed = bed_of(say.bed);
  const NeedleSet full = needles - (bed.in_work - bed.carrying);
  if (!full.empty()) raise(outcome, FaultKind::not_empty, say.bed, full);
  needles -= full;
  outcome.needles = needles;
  dispose(outcome, say.bed, needles, say.empties);
}

void Machine::run(const Cross& cross, Outcome& outcome) {
  if (cross.left < 1 || cross.right < 1) return;  // nothing changes places
  if (cross.bed == Bed::second && spec_.beds < 2) {
    raise(outcome, FaultKind::no_second_bed, cross.bed);
    return;
  }
  const std::int64_t past = std::int64_t{cross.first} + cross.left + cross.right;
  if (cross.first < 0 || past > spec_.needles) {
    raise(outcome, FaultKind::off_the_bed, cross.bed).a = spec_.needles;
    return;
  }
  const NeedleSet asked = NeedleSet::range(cross.first, static_cast<int>(past) - 1);
  BedState& bed = bed_of(cross.bed);
  const NeedleSet loops = with_loops(outcome, cross.bed, asked);
  const NeedleSet idle = loops - bed.in_work;
  if (!idle.empty()) raise(outcome, FaultKind::not_in_work, cross.bed, idle);
  if ((loops & bed.in_work) != asked) return;
  if (cross.left + cross.right > spec_.crossing_reach) {
    Fault& fault = raise(outcome, FaultKind::crossing_too_wide, cross.bed, asked);
    fault.a = cross.left + cross.right;
    fault.b = spec_.crossing_reach;
  }
  // Each hook's loops, marks and yarn go to their new needle together: written out once, then laid down in new order.
  std::vector<Hook> hooks;
  NeedleSet fresh, fleeting, full;
  const auto target = [&](int needle) {
    return needle < cross.first + cross.left ? needle + cross.right : needle - cross.left;
  };
  for (const int needle : asked) {
    hooks.push_back(hook(cross.bed, needle));
    if (bed.fresh.contains(needle)) fresh.insert(target(needle));
    if (bed.fleeting.contains(needle)) fleeting.insert(target(needle));
    if (bed.quiet_hook.contains(needle)) full.insert(target(needle));
  }
  for (const int needle : asked) {
    set_hook(cross.bed, target(needle), hooks[static_cast<std::size_t>(needle - cross.first)]);
  }
  bed.fresh = (bed.fresh - asked) | fresh;
  bed.fleeting = (bed.fleeting - asked) | fleeting;
  bed.quiet_hook = (bed.quiet_hook - asked) | full;
  for (std::optional<YarnPlace>& place : places_) {
    if (place && place->bed == cross.bed && asked.contains(place->needle)) place->needle = target(place->needle);
  }
  for (FreeEnd& end : free_ends_) {
    if (end.bed == cross.bed && asked.contains(end.needle)) end.needle = target(end.needle);
  }
  outcome.needles = asked;
}

void Machine::run(const Transfer& transfer, Outcome& outcome) {
  if (spec_.beds < 2) {
    raise(outcome, FaultKind::no_second_bed, transfer.from, transfer.needles);
    return;
  }
  const Bed to = other(transfer.from);
  NeedleSet needles = with_loops(outcome, transfer.from, on_bed(outcome, transfer.from, transfer.needles));
  const NeedleSet held = needles & bed_of(transfer.from).held;
  if (!held.empty()) raise(outcome, FaultKind::needles_held, transfer.from, held);
  needles -= held;
  if (!transfer.onto) {
    const NeedleSet occupied = needles & carrying(to);
    if (!occupied.empty()) raise(outcome, FaultKind::needle_occupied, to, occupied);
    needles -= occupied;
  }
  if (needles.empty()) return;
  if (pitch_ == Pitch::half) raise(outcome, FaultKind::transfer_at_half_pitch, transfer.from, needles);
  if (carrying(to).empty()) bed_of(to).last_pass = bed_of(transfer.from).last_pass;
  for (const int needle : needles) move_loop(transfer.from, needle, to, needle);
  bed_of(to).in_work |= needles - bed_of(to).held;
  empty_out(transfer.from, needles);
  outcome.needles = outcome.emptied = needles;
  check_hooks(outcome, to, needles);
}

void Machine::run(const LatchUp& latch, Outcome& outcome) {
  outcome.needles = with_loops(outcome, latch.bed, on_bed(outcome, latch.bed, latch.needles));
}

}  // namespace stk::runtime
