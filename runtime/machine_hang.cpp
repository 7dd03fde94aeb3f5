// Edges come back on the needles: rehung, a marked row among them, or picked up along a selvedge.
#include <algorithm>
#include <cstdlib>
#include <utility>
#include <vector>

#include "runtime/machine.hpp"

namespace stk::runtime {

namespace {

// A hem knitted on 2 needles of each 3, say, is hung by the long loops that pass the needles out of work: one needle over
// each of them. The short loops between neighbours are held by the stitches beside them.
bool one_in_each_gap(const Edge& edge, const NeedleSet& needles) {
  int gaps = 0, taken = 0;
  for (int stitch = edge.needles.first(); stitch >= 0;) {
    const int next = edge.needles.next(stitch + 1);
    if (next < 0) break;
    if (next > stitch + 1) {
      ++gaps;
      const NeedleSet here = needles & NeedleSet::range(stitch + 1, next - 1);
      if (here.count() != 1) return false;
      ++taken;
    }
    stitch = next;
  }
  return gaps > 0 && taken == needles.count();
}

// How far the loops of a cast-on are hung from the needles straight above them, at most. A loop between two stitches lies between their needles, and a half loop below its own.
int hung_aside(const Edge& edge, const NeedleSet& needles, bool by_between) {
  std::vector<int> stitches, targets;
  for (const int needle : edge.needles) stitches.push_back(needle);
  for (const int needle : needles) targets.push_back(needle);
  int worst = 0;
  for (std::size_t i = 0; i < targets.size() && i < stitches.size(); ++i) {
    const int low = stitches[i], high = by_between && i + 1 < stitches.size() ? stitches[i + 1] : low;
    const int by = targets[i] > high ? targets[i] - high : targets[i] < low ? targets[i] - low : 0;
    if (std::abs(by) > std::abs(worst)) worst = by;
  }
  return worst;
}

bool within(const NeedleSet& needles, const NeedleSet& work) {
  return !work.empty() && !needles.empty() && needles.first() >= work.first() && needles.last() <= work.last();
}

}  // namespace

void Machine::run(const MarkRow& mark, Outcome& outcome) {
  const NeedleSet needles = with_loops(outcome, mark.bed, on_bed(outcome, mark.bed, mark.needles));
  if (needles.empty()) {
    if (outcome.clean()) raise(outcome, FaultKind::nothing_in_work, mark.bed);
    return;
  }
  ensure_section();
  Edge edge;
  edge.kind = EdgeKind::row;
  edge.whole = needles.count();
  edge.bed = mark.bed;
  edge.needles = needles;
  edge.counter = counter_;
  edge.pass = passes_;
  edge.piece = piece_;
  edge.section = section_;
  edge.made = tag_;
  const EdgeId id = fabric_->add(edge);
  marks_.push_back({id, mark.bed, needles});
  outcome.edges.push_back(id);
  outcome.needles = needles;
}

// Anywhere but on the needles above it a marked row would fold the fabric into a shape that is not followed here.
bool Machine::marked_row_fits(Outcome& outcome, const Hang& hang, const NeedleSet& here) {
  const auto mark = std::find_if(marks_.begin(), marks_.end(), [&](const Mark& at) { return at.edge == hang.edge; });
  NeedleSet unfit = here;
  int why = -1;
  if (hang.order == HangOrder::folded || hang.loops == Loops::between) {
    why = 3;
  } else if (mark == marks_.end()) {
    why = 1;
  } else if (hang.bed != mark->bed || !(here - carrying(hang.bed)).empty()) {
    why = 2;
    if (hang.bed == mark->bed) unfit = here - carrying(hang.bed);
  } else if (here.intersects(mark->waiting)) {
    why = 0;
    unfit = here & mark->waiting;
  }
  if (why < 0) return true;
  Fault& fault = raise(outcome, FaultKind::marked_row_unfit, hang.bed, unfit, fabric_->edge(hang.edge).made);
  fault.a = why;
  fault.edge = hang.edge;
  return false;
}

// The cast-on of the fabric that hangs from the needles, or a marked row of it. A hem lies over its own stitches, and so
// does the edge hung on the bed that faces them: straight up. Beside the work the fabric is folded sideways, and its order
// turns round.
void Machine::check_order_hung(Outcome& outcome, const Hang& hang, const NeedleSet& here, bool in_gaps) {
  const Edge& edge = fabric_->edge(hang.edge);
  if ((edge.kind != EdgeKind::cast_on && edge.kind != EdgeKind::row) || edge.piece != piece_ || here.count() < 2) return;
  const NeedleSet& work = carrying(edge.bed);
  const bool reversed = hang.order == HangOrder::reversed, own_bed = edge.bed == hang.bed;
  const bool hem = own_bed && within(here, work);
  const bool hangs_below = cast_on_method_ && hang.edge == cast_on_edge_ && work.intersects(edge.needles);
  const bool beside = own_bed && !work.empty() && (here.last() < work.first() || here.first() > work.last());
  const bool crossed = hem ? reversed : hangs_below && (own_bed ? beside && !reversed : reversed);
  if (crossed) {
    Fault& fault = raise(outcome, FaultKind::hung_crossed, hang.bed, here, edge.made);
    fault.a = hem ? 0 : own_bed ? 2 : 1;
    fault.edge = hang.edge;
    return;
  }
  const bool by_between = hang.loops == Loops::between || edge.whole == 0;
  const int aside = !hem || in_gaps ? 0 : hung_aside(edge, here, by_between);
  if (aside == 0) return;
  Fault& fault = raise(outcome, FaultKind::hung_aside, hang.bed, here, edge.made);
  fault.a = aside;
  fault.edge = hang.edge;
}

// A yarn that hangs from a loop of the edge goes where that loop is hung: turned over, it comes to the other side.
void Machine::bring_yarn(const Edge& edge, const Hang& hang, const std::array<NeedleSet, 2>& needles) {
  if (edge.kind != EdgeKind::live || edge.piece != piece_) return;
  std::vector<std::pair<Bed, int>> targets;   // of the edge's loops from its left
  const auto add = [&](Bed bed, bool leftwards) {
    const std::size_t before = targets.size();
    for (const int needle : needles[static_cast<std::size_t>(bed)]) targets.emplace_back(bed, needle);
    if (leftwards) std::reverse(targets.begin() + static_cast<std::ptrdiff_t>(before), targets.end());
  };
  if (hang.order == HangOrder::folded) {
    add(Bed::second, hang.open_side == Side::right);
    add(Bed::main, hang.open_side == Side::left);
  } else {
    add(hang.bed, hang.order == HangOrder::reversed);
  }
  for (std::optional<YarnPlace>& place : places_) {
    if (!place || place->bed != edge.bed || place->pass > edge.passes || !edge.needles.contains(place->needle)) continue;
    const auto loop = static_cast<std::size_t>((edge.needles & NeedleSet::range(0, place->needle - 1)).count());
    if (loop < targets.size()) place = YarnPlace{targets[loop].first, targets[loop].second, place->pass};
  }
}

void Machine::run(const Hang& hang, Outcome& outcome) {
  if (!fabric_->has(hang.edge)) {
    raise(outcome, FaultKind::edge_not_open).a = -1;
    return;
  }
  const Edge edge = fabric_->edge(hang.edge);
  if (edge.state == EdgeState::used) {
    raise(outcome, FaultKind::edge_already_used, Bed::main, {}, edge.used).edge = hang.edge;
    return;
  }
  const bool loops_there = edge.kind != EdgeKind::selvedge && edge.kind != EdgeKind::gathered;
  if (!loops_there || edge.state == EdgeState::forming) {
    Fault& fault = raise(outcome, FaultKind::edge_not_open);
    fault.a = static_cast<std::int64_t>(edge.state);
    fault.edge = hang.edge;
    return;
  }
  const bool folded = hang.order == HangOrder::folded;
  if (folded && spec_.beds < 2) {
    raise(outcome, FaultKind::no_second_bed, Bed::second, hang.second_needles);
    return;
  }
  const Bed first_bed = folded ? Bed::main : hang.bed;
  std::array<NeedleSet, 2> needles;
  needles[static_cast<std::size_t>(first_bed)] = on_bed(outcome, first_bed, hang.needles);
  if (folded) needles[1] = on_bed(outcome, Bed::second, hang.second_needles);
  const NeedleSet& here = needles[static_cast<std::size_t>(first_bed)];
  const int count = needles[0].count() + needles[1].count();
  if (count == 0) {
    Fault& fault = raise(outcome, FaultKind::hang_counts_differ, first_bed, {}, edge.made);
    fault.b = hang.loops == Loops::between ? 0 : edge.whole;
    fault.c = edge.between;
    fault.d = edge.half;
    fault.edge = hang.edge;
    return;
  }
  if (edge.kind == EdgeKind::row && !marked_row_fits(outcome, hang, here)) return;
  const bool bare = nothing_on_needles();
  // The cast-on of what hangs on one bed is hung on the other, bare so far: two layers, joined below.
  const bool closes_ring = !folded && fabric_->edge(hang.edge).kind == EdgeKind::cast_on && cast_on_method_ &&
                           hang.edge == cast_on_edge_ && edge.bed != first_bed && carrying(first_bed).empty() &&
                           !carrying(edge.bed).empty();
  if (hang.carriage) carriage_to(outcome, *hang.carriage, bare || !in_use(first_yarn_));

  // n whole loops for n needles; between loops, to which one half may come at an end. The halves of a cast-on lie under
  // its end stitches: a needle outside those has none below it.
  const bool by_between = hang.loops == Loops::between || edge.whole == 0;
  const NeedleSet beyond = edge.kind == EdgeKind::cast_on && edge.bed == first_bed
                               ? here - NeedleSet::range(edge.needles.first(), edge.needles.last())
                               : NeedleSet{};
  const bool in_gaps = by_between && edge.kind == EdgeKind::cast_on && edge.bed == first_bed && one_in_each_gap(edge, here);
  const bool with_half = edge.half > 0 && beyond.empty() && count == edge.between + 1;
  const bool fits = by_between ? count == edge.between || with_half || in_gaps : count == edge.whole;
  if (!fits) {
    const int there = by_between ? edge.between : edge.whole;
    NeedleSet left;
    int rest = count - there;
    for (int needle = here.last(); needle >= 0 && rest > 0; needle = here.previous(needle - 1), --rest)
      left.insert(needle);
    if (by_between && beyond.count() == left.count()) left = beyond;
    Fault& fault = raise(outcome, FaultKind::hang_counts_differ, first_bed, left, edge.made);
    fault.a = count;
    fault.b = by_between ? 0 : edge.whole;
    fault.c = edge.between;
    fault.d = edge.half;
    fault.edge = hang.edge;
  }
  if (!folded && fits) check_order_hung(outcome, hang, here, in_gaps);
  const NeedleSet full = here & carrying(first_bed);
  if (!folded && !full.empty() && full != here && !within(here, carrying(first_bed)))
    raise(outcome, FaultKind::needles_carry, first_bed, full);
  if (comb_ && comb_edge_ == hang.edge) {
    if (!hang.moves_comb) raise(outcome, FaultKind::comb_hangs_in_edge, Bed::main, {}, comb_tag_).edge = hang.edge;
    outcome.comb_moved = hang.moves_comb;
    comb_ = hang.moves_comb;
    comb_edge_ = {};
    weights_ = Weights{.tag = tag_, .since = passes_};
  }
  for (const Bed each : {Bed::main, Bed::second}) {
    BedState& bed = bed_of(each);
    const NeedleSet& on = needles[static_cast<std::size_t>(each)];
    for (const int needle : on) {
      Hook taken = hook(each, needle);
      if (bed.carrying.contains(needle)) ++taken.loops;
      set_hook(each, needle, taken);
    }
    bed.in_work |= on - bed.held;
    bed.fresh -= on;      // an edge has its row below it, and lasts
    bed.fleeting -= on;
    bed.tension_yarn = {};
    check_hooks(outcome, each, on);
  }
  bring_yarn(edge, hang, needles);
  if (outcome.comb_moved) hang_weights();
  ledger_.hung += count;
  outcome.loops += count;
  outcome.needles = here;
  ensure_section();
  if (bare) cast_on_method_.reset();
  if (closes_ring) tube_ = outcome.tube = true;
  if (folded) {
    tube_ = outcome.tube = true;
    bed_of(Bed::main).last_pass = bed_of(Bed::second).last_pass = -1;
  }
  Edge& used = fabric_->edges_[hang.edge.value];
  const bool of_slot = used.kind == EdgeKind::slot_lower || used.kind == EdgeKind::slot_upper;
  if (!of_slot && used.waste_in) {   // a slot's waste is drawn when it is opened
    used.waste_in = false;
    outcome.waste_drawn = true;
  }
  used.state = EdgeState::used;
  used.used = tag_;
}

void Machine::run(const PickUp& pick_up, Outcome& outcome) {
  std::int64_t rows = 0;
  for (const EdgeId id : pick_up.along) {
    const bool selvedge = fabric_->has(id) && fabric_->edge(id).kind == EdgeKind::selvedge;
    if (!selvedge) {
      Fault& fault = raise(outcome, FaultKind::edge_not_open);
      fault.a = fabric_->has(id) ? static_cast<std::int64_t>(fabric_->edge(id).state) : -1;
      fault.edge = id;
      return;
    }
    const Edge& edge = fabric_->edge(id);
    if (edge.state == EdgeState::used) {
      raise(outcome, FaultKind::edge_already_used, Bed::main, {}, edge.used).edge = id;
      return;
    }
    rows += edge.rows - edge.joined;
  }
  for (const EdgeId id : pick_up.along) {
    const Edge& edge = fabric_->edge(id);
    if (edge.piece != piece_ || edge.side == pick_up.onto) continue;
    Fault& fault = raise(outcome, FaultKind::pick_up_from_far_end);
    fault.edge = fault.other_edge = id;
    fault.a = 1;
    break;
  }
  for (std::size_t next = 1; next < pick_up.along.size(); ++next) {
    const Edge& first = fabric_->edge(pick_up.along[next - 1]);
    const Edge& then = fabric_->edge(pick_up.along[next]);
    if (first.piece != then.piece || first.section >= then.section) continue;
    Fault& fault = raise(outcome, FaultKind::pick_up_from_far_end);
    fault.edge = pick_up.along[next - 1];
    fault.other_edge = pick_up.along[next];
    break;
  }
  NeedleSet needles = on_bed(outcome, pick_up.bed, pick_up.needles);
  BedState& bed = bed_of(pick_up.bed);
  const NeedleSet full = needles & bed.carrying;
  if (!full.empty()) raise(outcome, FaultKind::needles_carry, pick_up.bed, full);
  needles -= full;
  if (needles.empty()) return;
  const int count = needles.count();
  if (!bed.carrying.empty()) {
    const bool adjoins = pick_up.onto == Side::left ? needles.last() + 1 == bed.carrying.first()
                                                    : needles.first() - 1 == bed.carrying.last();
    if (!adjoins || !needles.side_by_side()) raise(outcome, FaultKind::pick_up_apart, pick_up.bed, needles);
  }
  const std::int64_t loops = std::clamp(pick_up.loops, 1, needle_limit), per = std::max(pick_up.rows, 1);
  const std::int64_t there = rows * loops / per;
  if (count != there) {
    const FaultKind kind = count > there ? FaultKind::pick_up_too_many : FaultKind::pick_up_leaves_rows;
    Fault& fault = raise(outcome, kind, pick_up.bed, needles);
    fault.a = count;
    fault.b = there;
    fault.c = rows;
    if (!pick_up.along.empty()) fault.edge = pick_up.along.front();
  }
  for (const int needle : needles) set_hook(pick_up.bed, needle, Hook{});
  bed.in_work |= needles;
  bed.fresh |= needles;
  for (const int needle : needles) bed.cause[static_cast<std::size_t>(needle)] = tag_;
  ledger_.picked_up += count;
  outcome.loops += count;
  outcome.needles = needles;
  ensure_section();
  for (const EdgeId id : pick_up.along) {
    Edge& edge = fabric_->edges_[id.value];
    edge.state = EdgeState::used;
    edge.used = tag_;
  }
}

}  // namespace stk::runtime
