// The slow machine: rows joined to another piece, rows by hand.
#include "tests/model/reference.hpp"

namespace stk::model {

void SlowMachine::run(const KnitJoined& op) {
  std::int64_t there = 0;
  for (const EdgeId id : op.along) {
    if (!sock_.has(id) || sock_.edges[id.value].kind != EdgeKind::selvedge) {
      Fault& fault = say(FaultKind::edge_not_open);
      fault.a = sock_.has(id) ? static_cast<std::int64_t>(sock_.edges[id.value].state) : -1;
      fault.edge = id;
      return;
    }
    if (sock_.edges[id.value].state == EdgeState::used) {
      say(FaultKind::edge_already_used, Bed::main, {}, sock_.edges[id.value].used).edge = id;
      return;
    }
    there += sock_.edges[id.value].rows - sock_.edges[id.value].joined;
  }
  if (op.passes > there) {
    Fault& fault = say(FaultKind::join_runs_out);
    fault.a = op.passes;
    fault.b = there;
    if (!op.along.empty()) fault.edge = op.along[0];
  }
  section_begun();
  const std::size_t own =
      (op.side == Side::left ? sock_.sections[section_.value].left : sock_.sections[section_.value].right).value;
  const std::int64_t own_rows = sock_.edges[own].rows;
  Row joining;
  std::int64_t done = 0;
  for (; done < op.passes && done < there; ++done) {
    if (carriage_.value_or(Side::right) == op.side) {
      const Needles stitches = carrying(Bed::main);
      if (stitches.empty()) {
        if (joining.told.insert("join").second) say(FaultKind::without_loops);
      } else if (const int end = op.side == Side::left ? *stitches.begin() : *stitches.rbegin();
                 !at(Bed::main, end).in_work()) {
        if (joining.told.insert("join").second) say(FaultKind::not_in_work, Bed::main, {end});
      } else {
        at(Bed::main, end).loops.push_back(Loop{Loop::Kind::lifted});
        ++ledger_.picked_up;
        say_full(Bed::main, {end});
      }
    }
    one_pass(joining);
  }
  sock_.edges[own].joined += sock_.edges[own].rows - own_rows;
  std::int64_t left = done;
  for (const EdgeId id : op.along) {
    Edge& edge = sock_.edges[id.value];
    while (left > 0 && edge.joined < edge.rows) ++edge.joined, --left;
    if (edge.joined < edge.rows || edge.section == section_) continue;
    edge.state = EdgeState::used;
    edge.used = tag_;
  }
  Row alone;
  for (; done < op.passes; ++done) one_pass(alone);
  long_holds();
}

void SlowMachine::run(const KnitByHand& op) {
  if (!sock_.has(op.yarn)) {
    say(FaultKind::no_such_yarn, op.bed);
    return;
  }
  Needles idle, busy;
  for (const int n : there(op.bed, op.needles)) (at(op.bed, n).in_work() ? busy : idle).insert(n);
  if (!idle.empty()) say(FaultKind::not_in_work, op.bed, idle);
  const Needles needles = loaded(op.bed, busy);
  if (needles.empty()) return;
  section_begun();
  std::array<Needles, 2> taking;
  taking[static_cast<std::size_t>(op.bed)] = needles;
  Row row;
  thread_along(row, 0, op.yarn, taking, Side::left);
  bool over_waste = false;
  for (const int n : needles) {
    bool waste = true;
    for (const Loop& loop : at(op.bed, n).loops) waste = waste && (loop.waste || loop.kind != Loop::Kind::stitch);
    over_waste = over_waste || waste;
    new_loop(op.bed, n, op.yarn);
  }
  if (sock_.lasting(op.yarn)) {
    if (over_waste) knitted_over_waste(op.bed, needles, op.yarn);
    return;
  }
  place_yarn(op.yarn, std::nullopt);
  Edge lower;
  lower.kind = EdgeKind::slot_lower;
  lower.state = EdgeState::on_waste;
  lower.live = lower.waste_in = true;
  lower.whole = static_cast<int>(needles.size());
  lower.bed = op.bed;
  for (const int n : needles) lower.needles.insert(n);
  lower.piece = piece_;
  lower.section = section_;
  lower.made = tag_;
  Edge upper = lower;
  upper.kind = EdgeKind::slot_upper;
  upper.state = EdgeState::forming;
  upper.whole = 0;
  upper.between = lower.whole - 1;
  upper.half = 2;
  Slot slot;
  slot.lower = EdgeId{static_cast<std::uint32_t>(sock_.edges.size())};
  slot.upper = EdgeId{slot.lower.value + 1};
  slot.made = tag_;
  sock_.edges.push_back(lower);
  sock_.edges.push_back(upper);
  open_slots_.emplace_back(sock_.slots.size(), needles);
  sock_.slots.push_back(slot);
}

}  // namespace stk::model
