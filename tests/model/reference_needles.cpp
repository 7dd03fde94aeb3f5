// The slow machine: settings, yarns, needles, moves and shaping.
#include <algorithm>

#include "tests/model/reference.hpp"

namespace stk::model {

namespace {

Needles both_sides_of(int needle) { return {needle - 1, needle + 1}; }

}  // namespace

YarnId Sock::add_yarn(YarnKind kind) {
  yarns.push_back(kind);
  yarn_loops.push_back(0);
  return YarnId{static_cast<std::uint32_t>(yarns.size() - 1)};
}

SlowMachine::SlowMachine(const MachineSpec& spec, Sock& sock) : spec_(spec), sock_(sock), piece_{sock.pieces++} {
  for (int b = 0; b < spec.beds; ++b) beds_[static_cast<std::size_t>(b)].needles.resize(static_cast<std::size_t>(spec.needles));
}

std::vector<Fault> SlowMachine::apply(const Operation& operation) {
  faults_.clear();
  tag_ = operation.tag;
  std::visit([&](const auto& op) { run(op); }, operation.what);
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
      for (const Loop& loop : at(bed, from).loops) row_below = row_below || (loop.kind == Loop::Kind::stitch && !loop.fresh);
    }
    (row_below ? filled : alone).insert(n);
  }
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
  if (op.beds != Beds::main) {
    if (spec_.beds < 2) say(FaultKind::no_second_bed, Bed::second);
    bed_of(Bed::second).tension = op.offset_tenths;
  }
  if (op.beds != Beds::second) bed_of(Bed::main).tension = op.offset_tenths;
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

// ----------------------------------------------------------------------------------------------------------- needles

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
  const auto last = place(threaded());
  const bool closed = last && last->bed == op.bed && needles.count(last->needle) > 0;
  for (const int n : needles) {
    Needle& needle = at(op.bed, n);
    needle.cause = tag_;
    needle.held_since = passes_;
    if (whole_bed) continue;
    needle.position = Needle::Position::held;
    needle.closed = closed;
  }
  if (whole_bed) bed_of(op.bed).rests = true;
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
      needle.closed = needle.told_gap = needle.told_long = false;
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
  say_full(op.bed, wrapped);
}

void SlowMachine::run(const Lift& op) {
  const Needles needles = loaded(op.bed, there(op.bed, op.needles));
  const Needles layer = carrying(op.bed);
  Needles alone, lifted;
  for (const int n : needles) {
    bool found = false;
    for (const int beside : both_sides_of(n)) found = found || (layer.count(beside) > 0 && !op.needles.contains(beside));
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

// ------------------------------------------------------------------------------------------------- moves and shaping

void SlowMachine::run(const Move& op) {
  Needles held, off, moving, outside, targets;
  for (const int n : loaded(op.bed, there(op.bed, op.needles))) (at(op.bed, n).held() ? held : moving).insert(n);
  if (!held.empty()) say(FaultKind::needles_held, op.bed, held);
  if (op.distance == 0) return;
  for (const int n : Needles(moving)) {
    const std::int64_t target = std::int64_t{n} + op.distance;
    if (target >= 0 && target < spec_.needles) continue;
    off.insert(n);
    moving.erase(n);
  }
  if (!off.empty()) say(FaultKind::moved_off_bed, op.bed, off).a = op.distance;
  if (moving.empty()) return;
  for (const int n : moving) {
    targets.insert(n + op.distance);
    if (at(op.bed, n + op.distance).position == Needle::Position::out) outside.insert(n + op.distance);
  }
  if (!outside.empty() && !op.brings) say(FaultKind::lands_outside_work, op.bed, outside);
  if (std::abs(op.distance) > spec_.move_reach && moving != carrying(op.bed)) {
    Fault& fault = say(FaultKind::move_too_far, op.bed, moving);
    fault.a = op.distance;
    fault.b = spec_.move_reach;
  }
  std::vector<int> order(moving.begin(), moving.end());
  if (op.distance > 0) std::reverse(order.begin(), order.end());
  for (const int n : order) {
    move_one(op.bed, n, op.bed, n + op.distance);
    Needle& goal = at(op.bed, n + op.distance);
    if (goal.position == Needle::Position::out) goal.position = Needle::Position::work;
  }
  Needles empty;
  for (const int n : moving) {
    if (targets.count(n)) continue;
    at(op.bed, n).cause = tag_;
    empty.insert(n);
  }
  say_full(op.bed, targets);
  emptied(op.bed, empty, op.empties);
}

void SlowMachine::run(const SayEmpties& op) {
  Needles full, empty;
  for (const int n : there(op.bed, op.needles)) {
    (at(op.bed, n).in_work() && !at(op.bed, n).carries() ? empty : full).insert(n);
  }
  if (!full.empty()) say(FaultKind::not_empty, op.bed, full);
  emptied(op.bed, empty, op.empties);
}

void SlowMachine::run(const Decrease& op) {
  if (!bed_there(op.bed, {})) return;
  Needles work;
  for (const int n : working(op.bed)) {
    if (at(op.bed, n).carries()) work.insert(n);
  }
  const int inset = std::max(op.inset, 0);
  if (static_cast<std::int64_t>(work.size()) < 2 * (std::int64_t{inset} + 2)) {
    Fault& fault = say(FaultKind::too_few_to_shape, op.bed, work);
    fault.a = static_cast<std::int64_t>(work.size());
    fault.b = 2 * (std::int64_t{inset} + 2);
    return;
  }
  const int edge = op.side == Side::left ? *work.begin() : *work.rbegin();
  const int inwards = op.side == Side::left ? 1 : -1;
  Needles gaps;
  for (int step = 0; step <= inset + 1; ++step) {
    if (work.count(edge + step * inwards) == 0) gaps.insert(edge + step * inwards);
  }
  if (!gaps.empty()) {
    say(FaultKind::gap_in_shaping, op.bed, gaps);
    return;
  }
  Needles moving, targets;
  for (int step = 0; step <= inset; ++step) moving.insert(edge + step * inwards);
  if (inset + 1 > spec_.tool_prongs) {
    Fault& fault = say(FaultKind::tool_too_narrow, op.bed, moving);
    fault.a = inset + 1;
    fault.b = spec_.tool_prongs;
  }
  for (int step = inset; step >= 0; --step) {
    move_one(op.bed, edge + step * inwards, op.bed, edge + (step + 1) * inwards);
    targets.insert(edge + (step + 1) * inwards);
  }
  say_full(op.bed, targets);
  at(op.bed, edge).cause = tag_;
  at(op.bed, edge).position = Needle::Position::out;
}

void SlowMachine::run(const Increase& op) {
  if (!bed_there(op.bed, {})) return;
  Needles work;
  for (const int n : working(op.bed)) {
    if (at(op.bed, n).carries()) work.insert(n);
  }
  const int inset = std::max(op.inset, 0);
  const std::int64_t needed = std::max<std::int64_t>(1, 2 * std::int64_t{inset});
  if (static_cast<std::int64_t>(work.size()) < needed) {
    Fault& fault = say(FaultKind::too_few_to_shape, op.bed, work);
    fault.a = static_cast<std::int64_t>(work.size());
    fault.b = needed;
    return;
  }
  const int edge = op.side == Side::left ? *work.begin() : *work.rbegin();
  const int outwards = op.side == Side::left ? -1 : 1;
  Needles gaps, moving;
  for (int step = 0; step < inset; ++step) {
    const int n = edge - step * outwards;
    moving.insert(n);
    if (work.count(n) == 0) gaps.insert(n);
  }
  if (!gaps.empty()) {
    say(FaultKind::gap_in_shaping, op.bed, gaps);
    return;
  }
  const int outer = edge + outwards;
  if (outer < 0 || outer >= spec_.needles) {
    say(FaultKind::moved_off_bed, op.bed, {edge}).a = outwards;
    return;
  }
  if (at(op.bed, outer).carries()) {
    say(FaultKind::needle_occupied, op.bed, {outer});
    return;
  }
  if (inset > spec_.tool_prongs) {
    Fault& fault = say(FaultKind::tool_too_narrow, op.bed, moving);
    fault.a = inset;
    fault.b = spec_.tool_prongs;
  }
  at(op.bed, outer).position = Needle::Position::work;
  for (int step = 0; step < inset; ++step) {
    move_one(op.bed, edge - step * outwards, op.bed, edge - (step - 1) * outwards);
  }
  const int gap = inset == 0 ? outer : edge - (inset - 1) * outwards;
  const int source = inset == 0 ? edge : gap + outwards;
  at(op.bed, gap).cause = tag_;
  emptied(op.bed, {gap},
          op.eyelet ? Empties::in_work : source < gap ? Empties::filled_from_left : Empties::filled_from_right);
}

void SlowMachine::run(const Cross& op) {
  if (op.left < 1 || op.right < 1) return;
  if (op.bed == Bed::second && spec_.beds < 2) {
    say(FaultKind::no_second_bed, op.bed);
    return;
  }
  const std::int64_t end = std::int64_t{op.first} + op.left + op.right;
  if (op.first < 0 || end > spec_.needles) {
    say(FaultKind::off_the_bed, op.bed).a = spec_.needles;
    return;
  }
  Needles asked, idle;
  for (int n = op.first; n < end; ++n) asked.insert(n);
  const Needles there = loaded(op.bed, asked);
  for (const int n : there) {
    if (!at(op.bed, n).in_work()) idle.insert(n);
  }
  if (!idle.empty()) say(FaultKind::not_in_work, op.bed, idle);
  if (there != asked || !idle.empty()) return;
  if (op.left + op.right > spec_.crossing_reach) {
    Fault& fault = say(FaultKind::crossing_too_wide, op.bed, asked);
    fault.a = op.left + op.right;
    fault.b = spec_.crossing_reach;
  }
  std::vector<std::pair<std::vector<Loop>, bool>> taken;
  for (int n = op.first; n < end; ++n) taken.emplace_back(at(op.bed, n).loops, at(op.bed, n).told_full);
  const auto target = [&](int n) { return n < op.first + op.left ? n + op.right : n - op.left; };
  for (int n = op.first; n < end; ++n) {
    at(op.bed, target(n)).loops = taken[static_cast<std::size_t>(n - op.first)].first;
    at(op.bed, target(n)).told_full = taken[static_cast<std::size_t>(n - op.first)].second;
  }
  for (auto& place : places_) {
    if (place && place->bed == op.bed && asked.count(place->needle)) place->needle = target(place->needle);
  }
  for (HangingEnd& hanging : hanging_) {
    if (hanging.bed == op.bed && asked.count(hanging.needle)) hanging.needle = target(hanging.needle);
  }
}

void SlowMachine::run(const Transfer& op) {
  if (spec_.beds < 2) {
    Needles all;
    for (const int n : op.needles) all.insert(n);
    say(FaultKind::no_second_bed, op.from, all);
    return;
  }
  const Bed to = other(op.from);
  Needles held, occupied, moving;
  for (const int n : loaded(op.from, there(op.from, op.needles))) (at(op.from, n).held() ? held : moving).insert(n);
  if (!held.empty()) say(FaultKind::needles_held, op.from, held);
  for (const int n : Needles(moving)) {
    if (op.onto || !at(to, n).carries()) continue;
    occupied.insert(n);
    moving.erase(n);
  }
  if (!occupied.empty()) say(FaultKind::needle_occupied, to, occupied);
  if (moving.empty()) return;
  if (pitch_ == Pitch::half) say(FaultKind::transfer_at_half_pitch, op.from, moving);
  if (carrying(to).empty()) bed_of(to).last_pass = bed_of(op.from).last_pass;
  for (const int n : moving) {
    move_one(op.from, n, to, n);
    if (!at(to, n).held()) at(to, n).position = Needle::Position::work;
    clear_needle(op.from, n);
  }
  after_taking_off();
  say_full(to, moving);
}

void SlowMachine::run(const LatchUp& op) { loaded(op.bed, there(op.bed, op.needles)); }

}  // namespace stk::model
