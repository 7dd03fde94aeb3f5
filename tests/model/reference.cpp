// The slow machine: its words, settings and yarns.
#include <algorithm>

#include "tests/model/reference.hpp"

namespace stk::model {

YarnId Sock::add_yarn(YarnKind kind) {
  yarns.push_back(kind);
  yarn_loops.push_back(0);
  return YarnId{static_cast<std::uint32_t>(yarns.size() - 1)};
}

SlowMachine::SlowMachine(const MachineSpec& spec, Sock& sock) : spec_(spec), sock_(sock), piece_{sock.pieces++} {
  for (int b = 0; b < spec.beds; ++b)
    beds_[static_cast<std::size_t>(b)].needles.resize(static_cast<std::size_t>(spec.needles));
}

std::vector<Fault> SlowMachine::apply(const Operation& operation) {
  faults_.clear();
  tag_ = operation.tag;
  std::visit([&](const auto& op) { run(op); }, operation.what);
  if (nothing_on_needles()) {
    weights_off();
    weighed_by_ = no_tag;
    rounds_since_zigzag_.reset();
    told_bare_.clear();
  } else if (weighed_by_ == no_tag) {
    weighed_by_ = tag_;
  }
  return faults_;
}

// ------------------------------------------------------------------------------------------------------------- words

Needles SlowMachine::carrying(Bed bed) {
  Needles all;
  for (int n = 0; n < bed_size(bed); ++n) {
    if (at(bed, n).carries()) all.insert(n);
  }
  return all;
}

Needles SlowMachine::working(Bed bed) {
  Needles all;
  for (int n = 0; n < bed_size(bed); ++n) {
    if (at(bed, n).in_work()) all.insert(n);
  }
  return all;
}

Fault& SlowMachine::say(FaultKind kind, Bed bed, const Needles& needles, Tag cause) {
  Fault fault;
  fault.kind = kind;
  fault.tag = tag_;
  fault.cause = cause;
  fault.bed = bed;
  for (const int n : needles) fault.needles.insert(n);
  fault.needle = needles.empty() ? -1 : *needles.begin();
  fault.counter = counter_;
  fault.pass = passes_;
  faults_.push_back(fault);
  return faults_.back();
}

void SlowMachine::say_by_cause(FaultKind kind, Bed bed, const Needles& needles) {
  std::set<Tag> done;
  for (const int n : needles) {
    const Tag cause = at(bed, n).cause;
    if (!done.insert(cause).second) continue;
    Needles group;
    for (const int m : needles) {
      if (at(bed, m).cause == cause) group.insert(m);
    }
    say(kind, bed, group, cause);
  }
}

bool SlowMachine::bed_there(Bed bed, const NeedleSet& needles) {
  if (bed == Bed::main || spec_.beds == 2) return true;
  Needles all;
  for (const int n : needles) all.insert(n);
  say(FaultKind::no_second_bed, bed, all);
  return false;
}

Needles SlowMachine::there(Bed bed, const NeedleSet& needles) {
  if (!bed_there(bed, needles)) return {};
  Needles on, off;
  for (const int n : needles) (n < spec_.needles ? on : off).insert(n);
  if (!off.empty()) say(FaultKind::off_the_bed, bed, off).a = spec_.needles;
  return on;
}

Needles SlowMachine::loaded(Bed bed, const Needles& needles) {
  Needles with, without;
  for (const int n : needles) (at(bed, n).carries() ? with : without).insert(n);
  say_by_cause(FaultKind::without_loops, bed, without);
  return with;
}

void SlowMachine::say_full(Bed bed, const Needles& needles) {
  Needles full;
  std::int64_t most = 0;
  for (const int n : needles) {
    Needle& needle = at(bed, n);
    std::int64_t loops = 0;
    for (const Loop& loop : needle.loops) loops += loop.kind == Loop::Kind::tuck ? 0 : 1;
    if (loops <= spec_.hook_limit || needle.loops.size() < 2 || needle.told_full) continue;
    needle.told_full = true;
    full.insert(n);
    most = std::max(most, loops);
  }
  if (full.empty()) return;
  Fault& fault = say(FaultKind::hook_too_full, bed, full);
  fault.a = most;
  fault.b = spec_.hook_limit;
}

void SlowMachine::move_one(Bed from, int n, Bed to, int target) {
  Needle& source = at(from, n);
  Needle& goal = at(to, target);
  goal.loops.insert(goal.loops.end(), source.loops.begin(), source.loops.end());
  goal.told_full = goal.told_full || source.told_full;
  goal.eyelet = false;
  source.loops.clear();
  source.told_full = false;
  for (auto& place : places_) {
    if (place && place->bed == from && place->needle == n) place->bed = to, place->needle = target;
  }
  for (HangingEnd& end : hanging_) {
    if (end.bed == from && end.needle == n) end.bed = to, end.needle = target;
  }
}

void SlowMachine::emptied(Bed bed, const Needles& needles, Empties empties) {
  Needles alone, filled;
  for (const int n : needles) {
    Needle& needle = at(bed, n);
    needle.eyelet = empties == Empties::in_work;
    if (empties == Empties::out_of_work) needle.position = Needle::Position::out;
    if (empties != Empties::filled_from_left && empties != Empties::filled_from_right) continue;
    const int from = empties == Empties::filled_from_left ? n - 1 : n + 1;
    bool row_below = false;
    if (from >= 0 && from < spec_.needles && needles.count(from) == 0) {
      for (const Loop& loop : at(bed, from).loops)
        row_below = row_below || (loop.kind == Loop::Kind::stitch && !loop.fresh);
    }
    (row_below ? filled : alone).insert(n);
  }
  for (const int n : alone) at(bed, n).position = Needle::Position::out;
  for (const int n : filled) {
    at(bed, n).loops.push_back(Loop{Loop::Kind::stitch, true, false});
    ++ledger_.increased;
  }
  say_by_cause(FaultKind::nothing_to_fill_from, bed, alone);
}

void SlowMachine::clear_needle(Bed bed, int n) {
  at(bed, n) = Needle{};
  at(bed, n).cause = tag_;
  std::erase_if(hanging_, [&](const HangingEnd& end) { return end.bed == bed && end.needle == n; });
}

// No stitch on it has a row below it.
bool SlowMachine::fresh(Bed bed, int n) {
  if (!at(bed, n).carries()) return false;
  for (const Loop& loop : at(bed, n).loops) {
    if (loop.kind == Loop::Kind::stitch && !loop.fresh) return false;
  }
  return true;
}

bool SlowMachine::nothing_on_needles() { return carrying(Bed::main).empty() && carrying(Bed::second).empty(); }

void SlowMachine::after_taking_off() {
  for (const Bed bed : {Bed::main, Bed::second}) {
    if (!carrying(bed).empty()) continue;
    tube_ = false;
    turns_ = {};
    bed_of(bed).rests = false;
  }
  if (!nothing_on_needles()) return;
  comb_ = false;
  waiting_edges_.clear();
  open_slots_.clear();
  marked_rows_.clear();
}

void SlowMachine::section_begun() {
  if (!section_.given()) run(BeginSection{});
}

void SlowMachine::carriage_at(Side side, bool granted) {
  if (!granted && carriage_.has_value() && *carriage_ != side) {
    say(FaultKind::carriage_elsewhere).a = side == Side::right;
  }
  carriage_ = side;
}

// ---------------------------------------------------------------------------------------------------- settings, yarn

void SlowMachine::run(const BeginSection&) {
  const bool before = short_rows_;
  const bool first = !section_.given();
  section_ = SectionId{static_cast<std::uint32_t>(sock_.sections.size())};
  short_rows_ = first && before;
  Section section;
  section.piece = piece_;
  section.made = tag_;
  section.left = EdgeId{static_cast<std::uint32_t>(sock_.edges.size())};
  section.right = EdgeId{section.left.value + 1};
  for (const Side side : {Side::left, Side::right}) {
    Edge edge;
    edge.kind = EdgeKind::selvedge;
    edge.side = side;
    edge.piece = piece_;
    edge.section = section_;
    edge.made = tag_;
    sock_.edges.push_back(edge);
  }
  sock_.sections.push_back(section);
}

void SlowMachine::run(const SetTension& op) {
  const std::pair<int, int> before{bed_of(Bed::main).tension, bed_of(Bed::second).tension};
  if (op.beds != Beds::main) {
    if (spec_.beds < 2) say(FaultKind::no_second_bed, Bed::second);
    bed_of(Bed::second).tension = op.offset_tenths;
  }
  if (op.beds != Beds::second) bed_of(Bed::main).tension = op.offset_tenths;
  if (before != std::make_pair(bed_of(Bed::main).tension, bed_of(Bed::second).tension)) tensions_by_ = tag_;
  std::vector<int> all = tensions_;
  all.push_back(op.offset_tenths);
  const std::int64_t most = *std::max_element(all.begin(), all.end());
  const std::int64_t least = *std::min_element(all.begin(), all.end());
  const bool new_extreme = op.offset_tenths == most || op.offset_tenths == least;
  if (new_extreme && most - least > spec_.dial_span_tenths) {
    Fault& fault = say(FaultKind::tension_beyond_dial, op.beds == Beds::second ? Bed::second : Bed::main);
    fault.a = most - least;
    fault.b = spec_.dial_span_tenths;
  } else {
    tensions_ = all;
  }
}

void SlowMachine::place_yarn(YarnId yarn, std::optional<YarnPlace> place) {
  places_.resize(sock_.yarns.size());
  places_[yarn.value] = place;
}

std::optional<YarnPlace> SlowMachine::place(YarnId yarn) const {
  return yarn.given() && yarn.value < places_.size() ? places_[yarn.value] : std::nullopt;
}

void SlowMachine::make_end(YarnId yarn, bool last, YarnPlace place, std::int64_t tail) {
  if (!sock_.lasting(yarn)) return;
  YarnEnd end;
  end.yarn = yarn;
  end.piece = piece_;
  end.section = section_;
  end.bed = place.bed;
  end.needle = place.needle;
  end.pass = place.pass;
  end.tail_micrometres = tail;
  end.last = last;
  end.made = tag_;
  if (last) hanging_.push_back({sock_.ends.size(), place.bed, place.needle});
  sock_.ends.push_back(end);
}

void SlowMachine::free_feeder(YarnId keep, YarnId keep_too) {
  std::vector<YarnId> stays;
  for (const YarnId yarn : feeder_) {
    if (yarn == keep || yarn == keep_too) {
      stays.push_back(yarn);
    } else if (place(yarn)) {
      say(FaultKind::feeder_busy).yarn = yarn;
    }
  }
  feeder_ = stays;
}

void SlowMachine::run(const ThreadYarn& op) {
  if (!sock_.has(op.yarn) || (op.second.given() && !sock_.has(op.second))) {
    say(FaultKind::no_such_yarn);
    return;
  }
  free_feeder(op.yarn, op.second);
  feeder_ = {op.yarn};
  if (op.second.given() && op.second != op.yarn) feeder_.push_back(op.second);
  told_no_yarn_ = false;
}

void SlowMachine::run(const RestYarn& op) {
  const auto found = std::find(feeder_.begin(), feeder_.end(), op.yarn);
  if (!op.yarn.given() || found == feeder_.end()) {
    say(FaultKind::yarn_not_threaded).yarn = op.yarn;
  } else {
    feeder_.erase(found);
  }
}

void SlowMachine::run(const CutYarn& op) {
  const auto found = std::find(feeder_.begin(), feeder_.end(), op.yarn);
  const bool threaded = op.yarn.given() && found != feeder_.end();
  if (!threaded && !place(op.yarn)) {
    say(FaultKind::yarn_not_threaded).yarn = op.yarn;
    return;
  }
  if (threaded) feeder_.erase(found);
  if (place(op.yarn)) make_end(op.yarn, true, *place(op.yarn), op.tail_micrometres);
  place_yarn(op.yarn, std::nullopt);
}

}  // namespace stk::model
