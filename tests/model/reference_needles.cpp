// The slow machine: needles in and out of work and hold.
#include <algorithm>

#include "tests/model/reference.hpp"

namespace stk::model {

namespace {

Needles both_sides_of(int needle) { return {needle - 1, needle + 1}; }

}  // namespace

void SlowMachine::run(const SetNeedles& op) {
  if (!bed_there(op.bed, op.in_work)) return;
  const Needles asked = there(op.bed, op.in_work);
  Needles stuck;
  for (int n = 0; n < spec_.needles; ++n) {
    Needle& needle = at(op.bed, n);
    if (needle.carries() && asked.count(n) == 0) stuck.insert(n);
  }
  if (!stuck.empty()) say(FaultKind::loops_out_of_work, op.bed, stuck);
  for (int n = 0; n < spec_.needles; ++n) {
    Needle& needle = at(op.bed, n);
    if (needle.held()) continue;
    if (asked.count(n) || stuck.count(n)) {
      if (!needle.in_work() && !needle.carries()) needle.cause = tag_;
      needle.position = Needle::Position::work;
    } else {
      needle.position = Needle::Position::out;
      needle.eyelet = false;
    }
  }
}

void SlowMachine::run(const BringIntoWork& op) {
  Needles held;
  for (const int n : there(op.bed, op.needles)) {
    Needle& needle = at(op.bed, n);
    if (needle.held()) held.insert(n);
    if (needle.held() || needle.carries()) continue;
    needle.position = Needle::Position::work;
    needle.eyelet = false;
    needle.cause = tag_;
  }
  if (!held.empty()) say(FaultKind::needles_held, op.bed, held);
}

void SlowMachine::run(const PutOutOfWork& op) {
  Needles stuck;
  for (const int n : there(op.bed, op.needles)) {
    Needle& needle = at(op.bed, n);
    if (needle.carries()) {
      stuck.insert(n);
    } else {
      needle.position = Needle::Position::out;
      needle.eyelet = false;
    }
  }
  if (!stuck.empty()) say(FaultKind::loops_out_of_work, op.bed, stuck);
}

void SlowMachine::run(const Hold& op) {
  Needles idle, busy;
  for (const int n : there(op.bed, op.needles)) (at(op.bed, n).in_work() ? busy : idle).insert(n);
  if (!idle.empty()) say(FaultKind::not_in_work, op.bed, idle);
  const Needles needles = loaded(op.bed, busy);
  if (needles.empty()) return;
  bool whole_bed = !carrying(other(op.bed)).empty();
  for (int n = 0; n < spec_.needles; ++n) {
    if (at(op.bed, n).held() || (at(op.bed, n).in_work() && needles.count(n) == 0)) whole_bed = false;
  }
  bool first_hold = needles.size() > 1;
  for (int n = 0; n < spec_.needles; ++n) first_hold = first_hold && !at(op.bed, n).held();
  const auto last = place(threaded());
  const bool closed = last && last->bed == op.bed && needles.count(last->needle) > 0;
  for (const int n : needles) {
    Needle& needle = at(op.bed, n);
    needle.cause = tag_;
    needle.held_since = passes_;
    if (whole_bed) continue;
    needle.position = Needle::Position::held;
    needle.closed = closed;
    needle.waiting = first_hold;
  }
  if (whole_bed) bed_of(op.bed).rests = true;
  if (!whole_bed && closed) turn_closed(op.bed);
}

void SlowMachine::run(const Release& op) {
  const Needles needles = there(op.bed, op.needles);
  bool wakes = bed_of(op.bed).rests && !needles.empty();
  for (int n = 0; wakes && n < spec_.needles; ++n) {
    const Needle& needle = at(op.bed, n);
    if (needle.carries() && !needle.held() && needles.count(n) == 0) wakes = false;
  }
  if (wakes) bed_of(op.bed).rests = false;
  Needles loose;
  for (const int n : needles) {
    Needle& needle = at(op.bed, n);
    if (needle.held()) {
      needle.position = Needle::Position::work;
      needle.closed = needle.waiting = needle.told_gap = needle.told_long = false;
    } else if (!wakes || !needle.in_work()) {
      loose.insert(n);
    }
  }
  if (!loose.empty()) say(FaultKind::not_held, op.bed, loose);
}

void SlowMachine::run(const Wrap& op) {
  Needles loose, held;
  for (const int n : there(op.bed, op.needles)) (at(op.bed, n).held() ? held : loose).insert(n);
  if (!loose.empty()) say(FaultKind::not_held, op.bed, loose);
  if (held.empty()) return;
  if (feeder_.empty()) {
    if (!told_no_yarn_) say(FaultKind::no_yarn_threaded, op.bed, held);
    told_no_yarn_ = true;
    return;
  }
  Needles beside;
  int expected = -1;
  if (const auto last = place(threaded()); last && last->bed == op.bed) {
    int left = last->needle - 1, right = last->needle + 1;
    while (left >= 0 && !at(op.bed, left).carries()) --left;
    while (right < spec_.needles && !at(op.bed, right).carries()) ++right;
    if (right == spec_.needles) right = -1;
    beside = {left, last->needle, right};
    expected = carriage_ == Side::left ? left : right;
  }
  Needles away, wrapped;
  for (const int n : held) (beside.count(n) ? wrapped : away).insert(n);
  if (!away.empty()) say(FaultKind::wrap_away_from_yarn, op.bed, away).a = expected;
  for (const int n : wrapped) {
    at(op.bed, n).loops.push_back(Loop{Loop::Kind::wrap});
    at(op.bed, n).closed = true;
    ++ledger_.wrapped;
    ++sock_.yarn_loops[threaded().value];
  }
  if (!wrapped.empty()) turn_closed(op.bed);
  say_full(op.bed, wrapped);
}

// Short rows of one piece belong on the same stitches; the first closed turn says which.
void SlowMachine::turn_closed(Bed bed) {
  if (short_rows_seen_) return;
  short_rows_seen_ = true;
  section_begun();
  Needles busy;
  for (int n = 0; n < bed_size(bed); ++n) {
    if (at(bed, n).in_work() && at(bed, n).carries()) busy.insert(n);
  }
  if (busy.empty()) return;
  for (const Section& section : sock_.sections) {
    if (section.piece != piece_ || section.short_row_needles.empty()) continue;
    bool apart = true;
    for (const int n : busy) apart = apart && !(section.short_row_bed == bed && section.short_row_needles.contains(n));
    if (apart) say(FaultKind::short_rows_apart, bed, busy, section.short_rows_made);
    break;
  }
  Section& here = sock_.sections[section_.value];
  if (!here.short_row_needles.empty()) return;
  here.short_row_bed = bed;
  here.short_rows_made = tag_;
  for (const int n : busy) here.short_row_needles.insert(n);
}

void SlowMachine::run(const Lift& op) {
  const Needles needles = loaded(op.bed, there(op.bed, op.needles));
  const Needles layer = carrying(op.bed);
  Needles alone, lifted;
  for (const int n : needles) {
    bool found = false;
    for (const int beside : both_sides_of(n))
      found = found || (layer.count(beside) > 0 && !op.needles.contains(beside));
    if (tube_ && !carrying(other(op.bed)).empty()) {
      const bool left_end = n == *layer.begin(), right_end = n == *layer.rbegin();
      found = found || left_end || right_end;
      if (left_end && turn_bed_ == op.bed) turns_[0] = {};
      if (right_end && turn_bed_ == op.bed) turns_[1] = {};
    }
    (found ? lifted : alone).insert(n);
  }
  for (const int n : lifted) {
    at(op.bed, n).loops.push_back(Loop{Loop::Kind::lifted});
    ++ledger_.lifted;
  }
  if (!alone.empty()) say(FaultKind::nothing_to_lift, op.bed, alone);
  say_full(op.bed, lifted);
}

}  // namespace stk::model
