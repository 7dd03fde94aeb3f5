// Rows that are more than passes: joined to another piece, or knitted by hand.
#include <algorithm>

#include "runtime/machine_knitting.hpp"

namespace stk::runtime {

// What is joined on one side while rows are knitted.
struct Machine::Join {
  Side side;
  const std::vector<EdgeId>& along;
  bool live = false;                    // whole loops, off their needles; else selvedges
  std::int64_t there = 0, passes = 0;   // rows or loops left of what is joined; passes that join
  std::int64_t hung = 0, hung_before = 0;   // loops hung; when the third pass began
  EdgeId own{};
  std::int64_t own_before = 0;
};

// Whether these edges can be joined, all of one sort and each once; and how much of them is there.
bool Machine::can_join(Outcome& outcome, std::vector<Join>& joins) {
  std::vector<EdgeId> named;
  for (Join& join : joins) {
    for (const EdgeId id : join.along) {
      const bool there = fabric_->has(id);
      const EdgeKind kind = there ? fabric_->edge(id).kind : EdgeKind::gathered;
      if (kind != EdgeKind::selvedge && kind != EdgeKind::live) {
        Fault& fault = raise(outcome, FaultKind::edge_not_open);
        fault.a = there ? static_cast<std::int64_t>(fabric_->edge(id).state) : -1;
        fault.edge = id;
        return false;
      }
      const Edge& edge = fabric_->edge(id);
      const bool twice = std::find(named.begin(), named.end(), id) != named.end();
      if (edge.state == EdgeState::used || twice) {
        raise(outcome, FaultKind::edge_already_used, Bed::main, {}, twice ? tag_ : edge.used).edge = id;
        return false;
      }
      named.push_back(id);
      const bool live = kind == EdgeKind::live;
      if (id == join.along.front()) join.live = live;
      if (live != join.live) {
        Fault& fault = raise(outcome, FaultKind::join_sorts_differ);
        fault.edge = join.along.front();
        fault.other_edge = id;
        return false;
      }
      join.there += live ? edge.whole : edge.rows - edge.joined;
    }
  }
  return true;
}

// Two passes are one turn: out from the side that is joined, and back. As with plain rows, the third and fourth passes
// stand for all that follow while there is something left to join on every joined side.
void Machine::run(const KnitJoined& knit, Outcome& outcome) {
  std::vector<Join> joins;
  if (!knit.on_left.empty()) joins.push_back({Side::left, knit.on_left});
  if (!knit.on_right.empty()) joins.push_back({Side::right, knit.on_right});
  if (!can_join(outcome, joins)) {   // meant to be joined: what is open of it is not said to be open once more at the end
    for (const Join& join : joins) {
      for (const EdgeId id : join.along) {
        if (!fabric_->has(id) || fabric_->edge(id).kind != EdgeKind::live || fabric_->edge(id).state == EdgeState::used) continue;
        fabric_->edges_[id.value].state = EdgeState::used;
        fabric_->edges_[id.value].used = tag_;
      }
    }
    return;
  }
  const std::int64_t passes = std::clamp<std::int64_t>(knit.passes, 0, most_passes);
  std::int64_t together = passes, joined = 0;   // passes that join on every side; on any
  for (Join& join : joins) {
    // A live edge gives a loop to every pass that starts from its side, and lasts until the next one that would.
    const std::int64_t free_pass = carriage_.value_or(Side::right) == join.side ? 0 : 1;
    const std::int64_t needed = join.live ? (passes + 1 - free_pass) / 2 : passes;
    if (needed > join.there) {
      Fault& fault = raise(outcome, FaultKind::join_runs_out);
      fault.a = needed;
      fault.b = join.there;
      fault.edge = join.along.front();
    }
    join.passes = std::min(passes, join.live ? 2 * join.there + free_pass : join.there);
    together = std::min(together, join.passes);
    joined = std::max(joined, join.passes);
  }
  ensure_section();
  for (Join& join : joins) {
    join.own = join.side == Side::left ? fabric_->section(section_).left : fabric_->section(section_).right;
    join.own_before = fabric_->edge(join.own).rows;
  }
  Knitting knitting{outcome};
  Counts before;
  for (std::int64_t done = 0; done < joined; ++done) {
    if (done == 2) {
      before = counts(outcome);
      for (Join& join : joins) join.hung_before = join.hung;
    }
    const std::int64_t came = ledger_.picked_up + ledger_.hung - before.picked_up - before.hung;
    if (done == 4 && together > 6 && ledger_.merged - before.merged == came) {
      const std::int64_t pairs = (together - done) / 2;   // every loop hung is knitted off: nothing piles up
      repeat_passes(outcome, before, pairs);
      done += 2 * pairs;
      for (Join& join : joins) join.hung += (join.hung - join.hung_before) * pairs;
      if (done == joined) break;
    }
    for (Join& join : joins) {
      if (done < join.passes && carriage_.value_or(Side::right) == join.side) hang_joined(knitting, join);
    }
    pass(knitting);
  }
  if (passes > joined) {
    Outcome rest;
    run(Knit{passes - joined}, rest);
    outcome.passes += rest.passes;
    outcome.loops += rest.loops;
    outcome.faults.insert(outcome.faults.end(), rest.faults.begin(), rest.faults.end());
  } else {
    check_long_holds(outcome);
    check_no_weights(outcome);
  }
  for (const Join& join : joins) {
    Edge& own = fabric_->edges_[join.own.value];
    own.joined += own.rows - join.own_before;   // those beyond the other edge's last row have been said
    if (join.live) {
      take_from_live(join, outcome);
      continue;
    }
    std::int64_t left = std::max<std::int64_t>(join.passes, 0);   // an edge joined to itself may have fewer than none left
    for (const EdgeId id : join.along) {
      Edge& edge = fabric_->edges_[id.value];
      const std::int64_t taken = std::clamp<std::int64_t>(edge.rows - edge.joined, 0, left);
      edge.joined += taken;
      left -= taken;
      if (edge.joined < edge.rows || edge.section == section_) continue;
      edge.state = EdgeState::used;
      edge.used = tag_;
    }
  }
}

// The loops hung are gone from their live edges: those nearest to the work, so the right end of what lies on its left.
void Machine::take_from_live(const Join& join, Outcome& outcome) {
  std::int64_t left = join.hung;
  for (const EdgeId id : join.along) {
    Edge& edge = fabric_->edges_[id.value];
    for (; left > 0 && edge.whole > 0; --left, --edge.whole, ++edge.joined)
      edge.needles.erase(join.side == Side::left ? edge.needles.last() : edge.needles.first());
    if (edge.whole > 0) return;
    outcome.waste_drawn = outcome.waste_drawn || edge.waste_in;
    edge.waste_in = false;
    edge.state = EdgeState::used;
    edge.used = tag_;
  }
}

// One loop of what is joined on the end stitch: the two are knitted as one by the pass that begins here.
void Machine::hang_joined(Knitting& knitting, Join& join) {
  const NeedleSet& stitches = carrying(Bed::main);
  const int end = join.side == Side::left ? stitches.first() : stitches.last();
  if (end < 0) {
    if (!knitting.join) raise(knitting.outcome, FaultKind::without_loops);
    knitting.join = true;
    return;
  }
  if (!in_work(Bed::main).contains(end)) {
    if (!knitting.join) raise(knitting.outcome, FaultKind::not_in_work, Bed::main, NeedleSet::one(end));
    knitting.join = true;
    return;
  }
  Hook taken = hook(Bed::main, end);
  ++taken.loops;
  set_hook(Bed::main, end, taken);
  ++(join.live ? ledger_.hung : ledger_.picked_up);
  ++join.hung;
  ++knitting.outcome.loops;
  check_hooks(knitting.outcome, Bed::main, NeedleSet::one(end));
}

// The row stands still: carriage, counter and the yarn in the feeder have no part in it.
void Machine::run(const KnitByHand& knit, Outcome& outcome) {
  if (!fabric_->has(knit.yarn)) {
    raise(outcome, FaultKind::no_such_yarn, knit.bed);
    return;
  }
  NeedleSet needles = on_bed(outcome, knit.bed, knit.needles);
  const NeedleSet idle = needles - in_work(knit.bed);
  if (!idle.empty()) raise(outcome, FaultKind::not_in_work, knit.bed, idle);
  needles = with_loops(outcome, knit.bed, needles - idle);
  if (needles.empty()) return;
  ensure_section();
  Knitting knitting{outcome};
  std::array<NeedleSet, 2> taking;
  taking[static_cast<std::size_t>(knit.bed)] = needles;
  const std::int64_t last_pass = bed_of(knit.bed).last_pass;
  lead_yarn(knitting, 0, knit.yarn, taking, Side::left);
  make_loops(outcome, knit.bed, needles, knit.yarn);
  bed_of(knit.bed).last_pass = last_pass;
  outcome.needles = needles;
  outcome.first_needle = needles.first();
  outcome.last_needle = needles.last();
  outcome.last_bed = knit.bed;
  if (lasting(knit.yarn)) return;
  set_place(knit.yarn, std::nullopt);
  Edge edge;
  edge.kind = EdgeKind::slot_lower;
  edge.state = EdgeState::on_waste;
  edge.live = edge.waste_in = true;
  edge.whole = needles.count();
  edge.bed = knit.bed;
  edge.needles = needles;
  edge.piece = piece_;
  edge.section = section_;
  edge.made = tag_;
  Slot slot;
  slot.made = tag_;
  slot.lower = fabric_->add(edge);
  edge.kind = EdgeKind::slot_upper;
  edge.state = EdgeState::forming;
  edge.between = edge.whole - 1;
  edge.whole = 0;
  edge.half = 2;
  slot.upper = fabric_->add(edge);
  outcome.edges = {slot.lower, slot.upper};
  outcome.slot = SlotId{static_cast<std::uint32_t>(fabric_->slots_.size())};
  forming_slots_.push_back({outcome.slot.value, knit.bed, needles});
  fabric_->slots_.push_back(slot);
}

}  // namespace stk::runtime
