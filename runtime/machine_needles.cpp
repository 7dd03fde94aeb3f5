// Needles in and out of work and hold, wraps and lifted loops: nothing here moves a stitch.
#include "runtime/machine.hpp"

namespace stk::runtime {

void Machine::run(const SetNeedles& set, Outcome& outcome) {
  const NeedleSet asked = on_bed(outcome, set.bed, set.in_work);
  if (set.bed == Bed::second && spec_.beds < 2) return;
  BedState& bed = bed_of(set.bed);
  const NeedleSet stuck = bed.carrying - asked;
  if (!stuck.empty()) raise(outcome, FaultKind::loops_out_of_work, set.bed, stuck);
  const NeedleSet before = bed.in_work;
  bed.in_work = (asked | stuck) - bed.held;
  const NeedleSet empty = bed.in_work - bed.carrying;
  for (const int needle : empty - before) bed.cause[static_cast<std::size_t>(needle)] = tag_;
  bed.eyelets &= empty;
  outcome.needles = bed.in_work;
}

void Machine::run(const BringIntoWork& bring, Outcome& outcome) {
  NeedleSet needles = on_bed(outcome, bring.bed, bring.needles);
  BedState& bed = bed_of(bring.bed);
  const NeedleSet held = needles & bed.held;
  if (!held.empty()) raise(outcome, FaultKind::needles_held, bring.bed, held);
  needles = needles - bed.held - bed.carrying;
  for (const int needle : needles) bed.cause[static_cast<std::size_t>(needle)] = tag_;
  bed.in_work |= needles;
  bed.eyelets -= needles;
  outcome.needles = needles;
}

void Machine::run(const PutOutOfWork& put, Outcome& outcome) {
  NeedleSet needles = on_bed(outcome, put.bed, put.needles);
  BedState& bed = bed_of(put.bed);
  const NeedleSet stuck = needles & bed.carrying;
  if (!stuck.empty()) raise(outcome, FaultKind::loops_out_of_work, put.bed, stuck);
  needles -= stuck;
  bed.in_work -= needles;
  bed.eyelets -= needles;
  outcome.needles = needles;
}

// A needle that was knitted last when it went into hold is closed: the yarn leaves it on its own side, so no hole opens
// beside it. The others of the same hold are closed with it; whether the yarn reaches over them is the float's affair.
void Machine::run(const Hold& hold, Outcome& outcome) {
  NeedleSet needles = on_bed(outcome, hold.bed, hold.needles);
  BedState& bed = bed_of(hold.bed);
  const NeedleSet idle = needles - bed.in_work;
  if (!idle.empty()) raise(outcome, FaultKind::not_in_work, hold.bed, idle);
  needles = with_loops(outcome, hold.bed, needles & bed.in_work);
  if (needles.empty()) return;
  outcome.needles = needles;
  for (const int needle : needles) {
    bed.cause[static_cast<std::size_t>(needle)] = tag_;
    bed.held_since[static_cast<std::size_t>(needle)] = passes_;
  }
  if (bed.held.empty() && needles.contains_all(bed.in_work) && !carrying(other(hold.bed)).empty()) {
    bed.rests = true;
    outcome.bed_rested = true;
    return;
  }
  if (bed.held.empty() && needles.count() > 1) bed.waiting |= needles;
  bed.in_work -= needles;
  bed.held |= needles;
  const std::optional<YarnPlace> last = place(first_yarn_);
  if (last && last->bed == hold.bed && needles.contains(last->needle)) {
    bed.closed |= needles;
    note_short_rows(outcome, hold.bed);
  } else {
    bed.closed -= needles;
  }
}

void Machine::run(const Release& release, Outcome& outcome) {
  NeedleSet needles = on_bed(outcome, release.bed, release.needles);
  BedState& bed = bed_of(release.bed);
  if (bed.rests && !needles.empty() && needles.contains_all(bed.carrying - bed.held)) {
    bed.rests = false;
    outcome.needles = needles & bed.in_work;
    needles -= bed.in_work;
  }
  const NeedleSet loose = needles - bed.held;
  if (!loose.empty()) raise(outcome, FaultKind::not_held, release.bed, loose);
  needles &= bed.held;
  bed.held -= needles;
  bed.in_work |= needles;
  bed.closed -= needles;
  bed.waiting -= needles;
  bed.quiet_gap -= needles;
  bed.quiet_long -= needles;
  outcome.needles |= needles;
}

void Machine::run(const Wrap& wrap, Outcome& outcome) {
  NeedleSet needles = on_bed(outcome, wrap.bed, wrap.needles);
  BedState& bed = bed_of(wrap.bed);
  const NeedleSet loose = needles - bed.held;
  if (!loose.empty()) raise(outcome, FaultKind::not_held, wrap.bed, loose);
  needles &= bed.held;
  if (needles.empty()) return;
  if (!first_yarn_.given()) {
    if (!quiet_no_yarn_) raise(outcome, FaultKind::no_yarn_threaded, wrap.bed, needles);
    quiet_no_yarn_ = true;
    return;
  }
  NeedleSet beside;
  int expected = -1;  // the one on the carriage's side
  if (const std::optional<YarnPlace> last = place(first_yarn_); last && last->bed == wrap.bed) {
    const int left = bed.carrying.previous(last->needle - 1), right = bed.carrying.next(last->needle + 1);
    beside.insert(last->needle);
    beside.insert(left);
    beside.insert(right);
    expected = carriage_ == Side::left ? left : right;
  }
  const NeedleSet away = needles - beside;
  if (!away.empty()) raise(outcome, FaultKind::wrap_away_from_yarn, wrap.bed, away).a = expected;
  needles &= beside;
  for (const int needle : needles) {
    Hook on = hook(wrap.bed, needle);
    ++on.loops;
    ++on.wraps;
    set_hook(wrap.bed, needle, on);
  }
  bed.closed |= needles;
  if (!needles.empty()) note_short_rows(outcome, wrap.bed);
  const int count = needles.count();
  ledger_.wrapped += count;
  fabric_->yarns_[first_yarn_.value].loops += count;
  outcome.loops += count;
  outcome.needles = needles;
  check_hooks(outcome, wrap.bed, needles);
}

// In a tube the loop comes from below the other bed's end stitch on the same side; anywhere else from the needle
// beside.
void Machine::run(const Lift& lift, Outcome& outcome) {
  const NeedleSet needles = with_loops(outcome, lift.bed, on_bed(outcome, lift.bed, lift.needles));
  BedState& bed = bed_of(lift.bed);
  NeedleSet alone;
  for (const int needle : needles) {
    bool found = !lift.needles.contains(needle - 1) && bed.carrying.contains(needle - 1);
    found = found || (!lift.needles.contains(needle + 1) && bed.carrying.contains(needle + 1));
    if (tube_ && !carrying(other(lift.bed)).empty()) {
      for (const Side side : {Side::left, Side::right}) {
        if (needle != (side == Side::left ? bed.carrying.first() : bed.carrying.last())) continue;
        found = true;
        if (corner_bed_ == lift.bed) corners_[static_cast<std::size_t>(side)] = {};
      }
    }
    if (!found) {
      alone.insert(needle);
      continue;
    }
    Hook on = hook(lift.bed, needle);
    ++on.loops;
    set_hook(lift.bed, needle, on);
    ++ledger_.lifted;
    ++outcome.loops;
  }
  if (!alone.empty()) raise(outcome, FaultKind::nothing_to_lift, lift.bed, alone);
  outcome.needles = needles - alone;
  check_hooks(outcome, lift.bed, outcome.needles);
}

}  // namespace stk::runtime
