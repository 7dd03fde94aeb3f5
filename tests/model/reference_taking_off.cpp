// The slow machine takes loops off: waste, holders, bound, gathered, slots.
#include <algorithm>

#include "tests/model/reference.hpp"

namespace stk::model {

EdgeId SlowMachine::take_off_as(Bed bed, const Needles& needles, EdgeKind kind, EdgeState state, bool live) {
  Edge edge;
  edge.kind = kind;
  edge.state = state;
  edge.live = live;
  edge.waste_in = state == EdgeState::on_waste;
  edge.whole = static_cast<int>(needles.size());
  edge.bed = bed;
  for (const int n : needles) edge.needles.insert(n);
  edge.piece = piece_;
  edge.section = section_;
  edge.passes = passes_;
  edge.made = tag_;
  const EdgeId id{static_cast<std::uint32_t>(sock_.edges.size())};
  for (const HangingEnd& hanging : hanging_) {
    if (hanging.bed != bed || needles.count(hanging.needle) == 0) continue;
    YarnEnd& end = sock_.ends[hanging.end];
    end.edge = id;
    end.needle = hanging.needle;
    edge.yarn = end.yarn;
  }
  sock_.edges.push_back(edge);
  for (const int n : needles) {
    (live ? ledger_.to_edges : ledger_.secured) += static_cast<std::int64_t>(at(bed, n).loops.size());
    clear_needle(bed, n);
  }
  if (!needles.empty()) after_taking_off();
  return id;
}

void SlowMachine::run(const ScrapOff& op) {
  if (!sock_.has(op.waste)) {
    say(FaultKind::no_such_yarn, op.bed);
    return;
  }
  std::vector<Needles> parts;
  Needles all;
  for (const NeedleSet& part : op.parts) {
    Needles once, twice;
    for (const int n : there(op.bed, part)) (all.count(n) ? twice : once).insert(n);
    say_by_cause(FaultKind::without_loops, op.bed, twice);
    parts.push_back(loaded(op.bed, once));
    all.insert(parts.back().begin(), parts.back().end());
  }
  if (all.empty()) return;
  free_feeder({}, {});
  const int rows = op.rows > 0 ? op.rows : spec_.usual_waste_rows;
  if (rows < spec_.least_waste_rows) {
    Fault& fault = say(FaultKind::too_little_waste, op.bed, all);
    fault.a = rows;
    fault.b = spec_.least_waste_rows;
  }
  section_begun();
  for (const int n : all) {
    Needle& needle = at(op.bed, n);
    ledger_.merged += static_cast<std::int64_t>(needle.loops.size()) - 1;
    needle.loops.resize(1);
    sock_.yarn_loops[op.waste.value] += rows;
  }
  for (const Needles& part : parts) take_off_as(op.bed, part, EdgeKind::live, EdgeState::on_waste, true);
  for (int row = 0; row < rows; ++row) {
    ++passes_;
    rounds_since_zigzag_.reset();
    ++counter_;
    if (carriage_) carriage_ = opposite(*carriage_);
  }
}

void SlowMachine::run(const TakeOff& op) {
  const Needles needles = loaded(op.bed, there(op.bed, op.needles));
  if (needles.empty()) return;
  section_begun();
  take_off_as(op.bed, needles, EdgeKind::live, EdgeState::on_holder, true);
}

// Is the yarn at this end stitch, at a bare needle outside it and not far, or at the end of the other bed?
bool SlowMachine::yarn_beside(Bed bed, int end, int outwards) {
  const auto last = place(threaded());
  if (!last) return false;
  if (last->bed == bed && last->needle == end) return true;
  if (std::abs(last->needle - end) > spec_.float_limit) return false;
  if (last->bed != bed) {
    for (int n = last->needle + outwards; n >= 0 && n < spec_.needles; n += outwards) {
      if (at(last->bed, n).carries()) return false;
    }
    for (int n = end + outwards; n >= 0 && n < spec_.needles; n += outwards) {
      if (at(bed, n).carries()) return false;
    }
    return true;
  }
  for (int n = end + outwards; n >= 0 && n < spec_.needles; n += outwards) {
    if (at(bed, n).carries()) return false;
    if (n == last->needle) return true;
  }
  return false;
}

void SlowMachine::run(const BindOff& op) {
  std::map<Bed, Needles> off;
  off[op.bed] = loaded(op.bed, there(op.bed, op.needles));
  if (!op.facing.empty()) off[other(op.bed)] = loaded(other(op.bed), there(other(op.bed), op.facing));
  const auto last = place(threaded());
  Bed begin = op.bed;
  const bool both = !off[op.bed].empty() && !off[other(op.bed)].empty();
  if (off[op.bed].empty() || (both && last && last->bed != op.bed)) begin = other(op.bed);
  if (off[begin].empty()) return;
  section_begun();
  const bool from_left = yarn_beside(begin, *off[begin].begin(), -1);
  if (!from_left && !yarn_beside(begin, *off[begin].rbegin(), 1))
    say(FaultKind::yarn_not_at_end, begin, off[begin]).needle = last ? last->needle : -1;
  YarnPlace end{begin, from_left ? *off[begin].rbegin() : *off[begin].begin(), passes_};
  if (both && tube_) {
    const Needles& back = off[other(begin)];
    end = YarnPlace{other(begin), from_left ? *back.begin() : *back.rbegin(), passes_};
  }
  for (const Bed bed : {begin, other(begin)}) {
    if (off[bed].empty()) continue;
    const EdgeId edge = take_off_as(bed, off[bed], EdgeKind::bound_off, EdgeState::secure, false);
    if (!feeder_.empty()) sock_.edges[edge.value].yarn = threaded();
  }
  if (!feeder_.empty()) place_yarn(threaded(), end);
}

void SlowMachine::run(const Gather& op) {
  const Needles needles = loaded(op.bed, there(op.bed, op.needles));
  Needles facing;
  if (!op.facing.empty()) facing = loaded(other(op.bed), there(other(op.bed), op.facing));
  if (needles.empty()) return;
  section_begun();
  const HangingEnd* found = nullptr;
  const auto ends_at = [](const Needles& loops, int n) {
    return !loops.empty() && (n == *loops.begin() || n == *loops.rbegin());
  };
  for (const HangingEnd& end : hanging_) {
    if (end.bed != op.bed && ends_at(facing, end.needle) && (found == nullptr || found->bed != op.bed)) found = &end;
    if (end.bed == op.bed && ends_at(needles, end.needle)) found = &end;
  }
  if (found != nullptr) {
    YarnEnd& end = sock_.ends[found->end];
    end.used = true;
    if (end.tail_micrometres < op.tail_needed_micrometres) {
      Fault& fault = say(FaultKind::tail_too_short, op.bed, needles);
      fault.a = end.tail_micrometres;
      fault.b = op.tail_needed_micrometres;
      fault.yarn = end.yarn;
    }
  } else if (hanging_.empty()) {
    say(FaultKind::yarn_not_cut, op.bed, needles).yarn = threaded();
  } else {
    Fault& fault = say(FaultKind::tail_elsewhere, op.bed, needles);
    fault.needle = hanging_.back().needle;
    fault.a = *needles.rbegin();
    fault.yarn = sock_.ends[hanging_.back().end].yarn;
  }
  take_off_as(op.bed, needles, EdgeKind::gathered, EdgeState::secure, false);
  if (!facing.empty()) take_off_as(other(op.bed), facing, EdgeKind::gathered, EdgeState::secure, false);
}

void SlowMachine::run(const Drop& op) {
  const Needles needles = loaded(op.bed, there(op.bed, op.needles));
  for (const int n : needles) {
    ledger_.dropped += static_cast<std::int64_t>(at(op.bed, n).loops.size());
    clear_needle(op.bed, n);
  }
  if (!needles.empty()) after_taking_off();
}

void SlowMachine::run(const OpenSlot& op) {
  if (!sock_.has(op.slot)) {
    say(FaultKind::edge_not_open).a = -1;
    return;
  }
  Slot& slot = sock_.slots[op.slot.value];
  if (slot.opened) {
    Fault& fault = say(FaultKind::edge_already_used, Bed::main, {}, slot.opened_by);
    fault.slot = op.slot;
    fault.edge = slot.lower;
    return;
  }
  if (!slot.knitted_over) say(FaultKind::slot_not_knitted, Bed::main, {}, slot.made).slot = op.slot;
  for (const bool upper : {false, true}) {
    Edge& edge = sock_.edges[(upper ? slot.upper : slot.lower).value];
    edge.waste_in = false;
    if (edge.state == EdgeState::used || edge.state == EdgeState::on_holder) continue;
    edge.state = EdgeState::on_holder;
    if (upper && op.upper_on_holder) continue;
    Fault& fault = say(FaultKind::loops_hang_free, Bed::main, {}, slot.made);
    fault.a = upper;
    fault.slot = op.slot;
  }
  slot.opened = true;
  slot.opened_by = tag_;
}

template <class Op>
void SlowMachine::on_the_fabric(const Op& op) {
  if (comb_ && op.edge.given() && comb_in_ == op.edge) {
    say(FaultKind::comb_hangs_in_edge, Bed::main, {}, comb_tag_).edge = op.edge;
    comb_ = false;
    comb_in_ = {};
    weights_off();
  }
  for (Fault fault : sock_.finish(FinishingOperation{tag_, op})) {
    fault.counter = counter_;
    fault.pass = passes_;
    faults_.push_back(fault);
  }
}

void SlowMachine::run(const DrawWaste& op) { on_the_fabric(op); }
void SlowMachine::run(const DivideEdge& op) { on_the_fabric(op); }

void SlowMachine::run(const EndPiece&) {
  for (const Bed bed : {Bed::main, Bed::second}) {
    const Needles left = carrying(bed);
    if (left.empty()) continue;
    say(FaultKind::loops_on_needles, bed, left);
    for (const int n : left) {
      ledger_.dropped += static_cast<std::int64_t>(at(bed, n).loops.size());
      clear_needle(bed, n);
    }
    after_taking_off();
  }
  for (std::uint32_t yarn = 0; yarn < sock_.yarns.size(); ++yarn) {
    if (const auto last = place(YarnId{yarn})) {
      make_end(YarnId{yarn}, true, *last, 0);
      place_yarn(YarnId{yarn}, std::nullopt);
    }
  }
  feeder_.clear();
  hanging_.clear();
  comb_ = false;
  comb_in_ = {};
}

}  // namespace stk::model
