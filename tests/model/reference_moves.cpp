// The slow machine: moves and shaping.
#include <algorithm>

#include "tests/model/reference.hpp"

namespace stk::model {

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
  const std::int64_t for_each_side = std::int64_t{inset} + 2;
  const std::int64_t least = op.sides == 2 ? for_each_side + for_each_side : for_each_side;
  if (static_cast<std::int64_t>(work.size()) < least) {
    Fault& fault = say(FaultKind::too_few_to_shape, op.bed, work);
    fault.a = static_cast<std::int64_t>(work.size());
    fault.b = least;
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
  const std::int64_t needed = std::max<std::int64_t>(1, op.sides == 2 ? inset + inset : inset);
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
