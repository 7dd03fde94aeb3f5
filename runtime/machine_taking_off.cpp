// Loops leave the needles: on waste, on a holder, bound, gathered, dropped; slots are opened, waste is drawn, a piece
// ends.
#include <algorithm>
#include <cstdlib>

#include "runtime/machine.hpp"

namespace stk::runtime {

// The edge of these needles' loops, which come off; the tail that hangs among them, if one does, is the edge's.
EdgeId Machine::take_to_edge(Bed bed, const NeedleSet& needles, EdgeKind kind, EdgeState state, bool live) {
  Edge edge;
  edge.kind = kind;
  edge.state = state;
  edge.live = live;
  edge.waste_in = state == EdgeState::on_waste;
  edge.whole = needles.count();
  edge.bed = bed;
  edge.needles = needles;
  edge.piece = piece_;
  edge.section = section_;
  edge.passes = passes_;
  edge.made = tag_;
  const EdgeId id = fabric_->add(edge);
  for (const FreeEnd& free : free_ends_) {
    if (free.bed != bed || !needles.contains(free.needle)) continue;
    fabric_->ends_[free.end].edge = id;
    fabric_->ends_[free.end].needle = free.needle;   // where its loop is now
    fabric_->edges_[id.value].yarn = fabric_->ends_[free.end].yarn;
  }
  const std::int64_t loops = loops_on(bed, needles);
  (live ? ledger_.to_edges : ledger_.secured) += loops;
  empty_out(bed, needles);
  return id;
}

void Machine::run(const ScrapOff& scrap, Outcome& outcome) {
  if (!fabric_->has(scrap.waste)) {
    raise(outcome, FaultKind::no_such_yarn, scrap.bed);
    return;
  }
  std::vector<NeedleSet> parts;
  NeedleSet all;
  for (const NeedleSet& part : scrap.parts) {
    const NeedleSet there = on_bed(outcome, scrap.bed, part);
    const NeedleSet twice = there & all;
    raise_by_cause(outcome, FaultKind::without_loops, scrap.bed, twice);
    parts.push_back(with_loops(outcome, scrap.bed, there - twice));
    all |= parts.back();
  }
  if (all.empty()) return;
  free_feeder(outcome, {}, {});
  BedState& bed = bed_of(scrap.bed);
  const int rows = scrap.rows > 0 ? scrap.rows : spec_.usual_waste_rows;
  if (rows < spec_.least_waste_rows) {
    Fault& fault = raise(outcome, FaultKind::too_little_waste, scrap.bed, all);
    fault.a = rows;
    fault.b = spec_.least_waste_rows;
  }
  ensure_section();
  outcome.set_aside = (bed.in_work & bed.carrying) - all;
  const std::int64_t loops = std::int64_t{all.count()} * rows;
  const NeedleSet joined = all & bed.several;   // knitted as one by the first row of waste
  ledger_.merged += loops_on(scrap.bed, joined) - joined.count();
  bed.several -= joined;
  for (const NeedleSet& part : parts) {
    outcome.edges.push_back(take_to_edge(scrap.bed, part, EdgeKind::live, EdgeState::on_waste, true));
  }
  fabric_->yarns_[scrap.waste.value].loops += loops;
  outcome.loops = loops;
  outcome.needles = all;
  outcome.waste_rows = rows;
  outcome.passes = rows;
  zigzag_at_ = -1;
  passes_ += rows;
  counter_ += rows;
  if (carriage_ && rows % 2 != 0) carriage_ = opposite(*carriage_);
}

void Machine::run(const TakeOff& take, Outcome& outcome) {
  const NeedleSet needles = with_loops(outcome, take.bed, on_bed(outcome, take.bed, take.needles));
  if (needles.empty()) return;
  ensure_section();
  outcome.needles = needles;
  outcome.edges.push_back(take_to_edge(take.bed, needles, EdgeKind::live, EdgeState::on_holder, true));
}

// The yarn is at an end of what is bound off where it hangs at the end stitch, or outside it with no other loop between:
// there an earlier binding off left it; or at the end of the other bed, round the corner.
bool Machine::yarn_at_end(Bed bed, const NeedleSet& needles, Side side) const {
  const std::optional<YarnPlace> place = this->place(first_yarn_);
  if (!place || needles.empty()) return false;
  const int end = side == Side::left ? needles.first() : needles.last();
  if (place->bed == bed && place->needle == end) return true;
  if (std::abs(place->needle - end) > spec_.float_limit) return false;
  if (place->bed == bed) {
    const bool outside = side == Side::left ? place->needle < end : place->needle > end;
    return outside && !carrying(bed).contains(place->needle) && carrying(bed).count_between(place->needle, end) == 0;
  }
  const int beyond = side == Side::left ? -1 : needle_limit;
  return carrying(bed).count_between(beyond, end) == 0 && carrying(place->bed).count_between(beyond, place->needle) == 0;
}

void Machine::run(const BindOff& bind, Outcome& outcome) {
  std::array<NeedleSet, 2> needles;   // of the bed begun on, and of the other
  needles[0] = with_loops(outcome, bind.bed, on_bed(outcome, bind.bed, bind.needles));
  if (!bind.facing.empty()) needles[1] = with_loops(outcome, other(bind.bed), on_bed(outcome, other(bind.bed), bind.facing));
  std::array<Bed, 2> beds{bind.bed, other(bind.bed)};
  if (needles[0].empty() || (!needles[1].empty() && place(first_yarn_) && place(first_yarn_)->bed == beds[1])) {
    std::swap(needles[0], needles[1]);
    std::swap(beds[0], beds[1]);
  }
  if (needles[0].empty()) return;
  ensure_section();
  const bool from_left = yarn_at_end(beds[0], needles[0], Side::left);
  if (!from_left && !yarn_at_end(beds[0], needles[0], Side::right)) {
    const std::optional<YarnPlace> at = place(first_yarn_);
    raise(outcome, FaultKind::yarn_not_at_end, beds[0], needles[0]).needle = at ? at->needle : -1;
  }
  // Along one bed, or across both, it ends at the other side; round a tube where it began.
  const bool round = tube_ && !needles[1].empty();
  const std::size_t last = round ? 1 : 0;
  const bool ends_right = from_left != round;
  const YarnPlace end{beds[last], ends_right ? needles[last].last() : needles[last].first(), passes_};
  outcome.needles = needles[0];
  for (const std::size_t each : {std::size_t{0}, std::size_t{1}}) {
    if (needles[each].empty()) continue;
    const EdgeId edge = take_to_edge(beds[each], needles[each], EdgeKind::bound_off, EdgeState::secure, false);
    outcome.edges.push_back(edge);
    if (first_yarn_.given()) fabric_->edges_[edge.value].yarn = first_yarn_;
  }
  if (first_yarn_.given()) set_place(first_yarn_, end);
}

void Machine::run(const Gather& gather, Outcome& outcome) {
  const NeedleSet needles = with_loops(outcome, gather.bed, on_bed(outcome, gather.bed, gather.needles));
  NeedleSet facing;
  if (!gather.facing.empty())
    facing = with_loops(outcome, other(gather.bed), on_bed(outcome, other(gather.bed), gather.facing));
  if (needles.empty()) return;
  ensure_section();
  const auto ends_of = [](const NeedleSet& set) { return NeedleSet::one(set.first()) | NeedleSet::one(set.last()); };
  const FreeEnd* free = end_among(gather.bed, ends_of(needles));
  if (free == nullptr) free = end_among(other(gather.bed), ends_of(facing));
  if (free != nullptr) {
    YarnEnd& end = fabric_->ends_[free->end];
    if (end.tail_micrometres < gather.tail_needed_micrometres) {
      Fault& fault = raise(outcome, FaultKind::tail_too_short, gather.bed, needles);
      fault.a = end.tail_micrometres;
      fault.b = gather.tail_needed_micrometres;
      fault.yarn = end.yarn;
    }
    end.used = true;
  } else if (free_ends_.empty()) {
    Fault& fault = raise(outcome, FaultKind::yarn_not_cut, gather.bed, needles);
    fault.yarn = first_yarn_;
  } else {
    Fault& fault = raise(outcome, FaultKind::tail_elsewhere, gather.bed, needles);
    fault.needle = free_ends_.back().needle;
    fault.a = needles.last();
    fault.yarn = fabric_->ends_[free_ends_.back().end].yarn;
  }
  outcome.needles = needles;
  outcome.edges.push_back(take_to_edge(gather.bed, needles, EdgeKind::gathered, EdgeState::secure, false));
  if (facing.empty()) return;
  outcome.edges.push_back(take_to_edge(other(gather.bed), facing, EdgeKind::gathered, EdgeState::secure, false));
}

void Machine::run(const Drop& drop, Outcome& outcome) {
  const NeedleSet needles = with_loops(outcome, drop.bed, on_bed(outcome, drop.bed, drop.needles));
  ledger_.dropped += loops_on(drop.bed, needles);
  outcome.needles = needles;
  if (!needles.empty()) empty_out(drop.bed, needles);
}

void Machine::run(const OpenSlot& open, Outcome& outcome) {
  if (!fabric_->has(open.slot)) {
    raise(outcome, FaultKind::edge_not_open).a = -1;
    return;
  }
  Slot& slot = fabric_->slots_[open.slot.value];
  if (slot.opened) {
    Fault& fault = raise(outcome, FaultKind::edge_already_used, Bed::main, {}, slot.opened_by);
    fault.slot = open.slot;
    fault.edge = slot.lower;
    return;
  }
  if (!slot.knitted_over) raise(outcome, FaultKind::slot_not_knitted, Bed::main, {}, slot.made).slot = open.slot;
  Edge& lower = fabric_->edges_[slot.lower.value];
  Edge& upper = fabric_->edges_[slot.upper.value];
  const auto held = [](const Edge& edge) {
    return edge.state == EdgeState::used || edge.state == EdgeState::on_holder;
  };
  if (!held(lower)) {
    Fault& fault = raise(outcome, FaultKind::loops_hang_free, Bed::main, {}, slot.made);
    fault.a = 0;
    fault.slot = open.slot;
  }
  if (!held(upper) && !open.upper_on_holder) {
    Fault& fault = raise(outcome, FaultKind::loops_hang_free, Bed::main, {}, slot.made);
    fault.a = 1;
    fault.slot = open.slot;
  }
  for (Edge* edge : {&lower, &upper}) {   // loops left free are taken to have been caught on a holder after all
    if (!held(*edge)) edge->state = EdgeState::on_holder;
    edge->waste_in = false;
  }
  slot.opened = true;
  slot.opened_by = tag_;
  outcome.slot = open.slot;
  outcome.waste_drawn = true;
}

void Machine::take_comb_from(EdgeId edge, Outcome& outcome) {
  if (!comb_ || comb_edge_ != edge || !edge.given()) return;
  raise(outcome, FaultKind::comb_hangs_in_edge, Bed::main, {}, comb_tag_).edge = edge;
  comb_ = false;
  comb_edge_ = {};
  weights_ = Weights{.tag = tag_, .since = passes_};
}

// What needs the fabric alone, done while a piece is on the machine.
void Machine::finish_here(const FinishingOperation& operation, Outcome& outcome) {
  Outcome done = fabric_->apply(operation);
  for (Fault& fault : done.faults) {
    fault.counter = counter_;
    fault.pass = passes_;
    outcome.faults.push_back(fault);
  }
  outcome.waste_drawn = done.waste_drawn;
  outcome.edges = done.edges;
}

void Machine::run(const DrawWaste& draw, Outcome& outcome) {
  take_comb_from(draw.edge, outcome);
  finish_here(FinishingOperation{tag_, draw}, outcome);
}

void Machine::run(const DivideEdge& divide, Outcome& outcome) {
  take_comb_from(divide.edge, outcome);
  finish_here(FinishingOperation{tag_, divide}, outcome);
}

void Machine::run(const EndPiece&, Outcome& outcome) {
  for (const Bed bed : {Bed::main, Bed::second}) {
    const NeedleSet left = carrying(bed);
    if (left.empty()) continue;
    raise(outcome, FaultKind::loops_on_needles, bed, left);
    ledger_.dropped += loops_on(bed, left);
    empty_out(bed, left);
  }
  for (std::uint32_t yarn = 0; yarn < places_.size(); ++yarn) {
    if (!places_[yarn]) continue;
    add_end(YarnId{yarn}, true, *places_[yarn], 0);
    places_[yarn].reset();
    outcome.yarn_cut = true;
  }
  first_yarn_ = second_yarn_ = {};
  free_ends_.clear();
  comb_ = false;
  comb_edge_ = {};
}

}  // namespace stk::runtime
