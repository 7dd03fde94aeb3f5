// The slow machine: rows joined to another piece, rows by hand.
#include <algorithm>

#include "tests/model/reference.hpp"

namespace stk::model {

void SlowMachine::run(const KnitJoined& op) {
  std::map<Side, std::vector<EdgeId>> joins;
  if (!op.on_left.empty()) joins[Side::left] = op.on_left;
  if (!op.on_right.empty()) joins[Side::right] = op.on_right;
  std::map<Side, std::int64_t> there;
  std::map<Side, bool> of_loops;
  std::set<std::uint32_t> met;
  for (const auto& [side, along] : joins) {
    for (const EdgeId id : along) {
      if (!sock_.has(id) ||
          (sock_.edges[id.value].kind != EdgeKind::selvedge && sock_.edges[id.value].kind != EdgeKind::live)) {
        Fault& fault = say(FaultKind::edge_not_open);
        fault.a = sock_.has(id) ? static_cast<std::int64_t>(sock_.edges[id.value].state) : -1;
        fault.edge = id;
        refused(joins);
        return;
      }
      if (sock_.edges[id.value].state == EdgeState::used) {
        say(FaultKind::edge_already_used, Bed::main, {}, sock_.edges[id.value].used).edge = id;
        refused(joins);
        return;
      }
      if (!met.insert(id.value).second) {
        say(FaultKind::edge_already_used, Bed::main, {}, tag_).edge = id;
        refused(joins);
        return;
      }
      const bool loops = sock_.edges[id.value].kind == EdgeKind::live;
      if (of_loops.emplace(side, loops).first->second != loops) {
        Fault& fault = say(FaultKind::join_sorts_differ);
        fault.edge = along[0];
        fault.other_edge = id;
        refused(joins);
        return;
      }
      there[side] += loops ? sock_.edges[id.value].whole : sock_.edges[id.value].rows - sock_.edges[id.value].joined;
    }
  }
  for (const auto& [side, along] : joins) {
    std::int64_t wanted = 0;   // rows, or passes that will start from this side
    Side from = carriage_.value_or(Side::right);
    for (std::int64_t row = 0; row < op.passes; ++row, from = opposite(from)) wanted += !of_loops[side] || from == side;
    if (wanted <= there[side]) continue;
    Fault& fault = say(FaultKind::join_runs_out);
    fault.a = wanted;
    fault.b = there[side];
    fault.edge = along[0];
  }
  section_begun();
  std::map<Side, std::int64_t> rows_before;
  for (const auto& [side, along] : joins) {
    const Section& section = sock_.sections[section_.value];
    rows_before[side] = sock_.edges[(side == Side::left ? section.left : section.right).value].rows;
  }
  Row joining, alone;
  std::map<Side, std::int64_t> offered;   // passes that have started from each side
  for (std::int64_t done = 0; done < op.passes; ++done) {
    bool any = false;
    for (const auto& [side, along] : joins) {
      const bool starts = carriage_.value_or(Side::right) == side;
      if (of_loops[side] ? starts && offered[side]++ >= there[side] : done >= there[side]) continue;
      any = any || !of_loops[side] || offered[side] <= there[side];
      if (!starts) continue;
      const Needles stitches = carrying(Bed::main);
      if (stitches.empty()) {
        if (joining.told.insert("join").second) say(FaultKind::without_loops);
      } else if (const int end = side == Side::left ? *stitches.begin() : *stitches.rbegin();
                 !at(Bed::main, end).in_work()) {
        if (joining.told.insert("join").second) say(FaultKind::not_in_work, Bed::main, {end});
      } else {
        at(Bed::main, end).loops.push_back(Loop{Loop::Kind::lifted});
        ++(of_loops[side] ? ledger_.hung : ledger_.picked_up);
        if (of_loops[side]) take_loop(side, along);
        say_full(Bed::main, {end});
      }
    }
    one_pass(any ? joining : alone);
  }
  long_holds();
  too_long_without_weights();
  settle_joins(joins, there, rows_before, op.passes);
}

// What is refused is not told again as left open.
void SlowMachine::refused(const std::map<Side, std::vector<EdgeId>>& joins) {
  for (const auto& [side, along] : joins) {
    for (const EdgeId id : along) {
      if (!sock_.has(id) || sock_.edges[id.value].kind != EdgeKind::live) continue;
      Edge& edge = sock_.edges[id.value];
      if (edge.state != EdgeState::used) edge.used = tag_;
      edge.state = EdgeState::used;
    }
  }
}

// The loop nearest to the work goes from a live edge.
void SlowMachine::take_loop(Side side, const std::vector<EdgeId>& along) {
  for (const EdgeId id : along) {
    Edge& edge = sock_.edges[id.value];
    if (edge.whole == 0) continue;
    std::vector<int> order;
    for (const int n : edge.needles) order.push_back(n);
    edge.needles.erase(side == Side::left ? order.back() : order.front());
    --edge.whole;
    ++edge.joined;
    return;
  }
}

// The rows that were joined, on the piece at hand and on those it was joined to.
void SlowMachine::settle_joins(const std::map<Side, std::vector<EdgeId>>& joins,
                               const std::map<Side, std::int64_t>& there,
                               const std::map<Side, std::int64_t>& rows_before, std::int64_t passes) {
  const Section section = sock_.sections[section_.value];
  for (const auto& [side, along] : joins) {
    std::int64_t left = std::min(passes, there.at(side));
    Edge& own = sock_.edges[(side == Side::left ? section.left : section.right).value];
    own.joined += own.rows - rows_before.at(side);
    for (const EdgeId id : along) {
      Edge& edge = sock_.edges[id.value];
      if (edge.kind == EdgeKind::live) {
        if (edge.whole > 0) break;
        edge.waste_in = false;
        edge.state = EdgeState::used;
        edge.used = tag_;
        continue;
      }
      while (left > 0 && edge.joined < edge.rows) ++edge.joined, --left;
      if (edge.joined < edge.rows || edge.section == section_) continue;
      edge.state = EdgeState::used;
      edge.used = tag_;
    }
  }
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
