// Full-fashioned shaping at one edge: `inset` whole stitches travel with the edge.
//
//   decrease, 2 in, left     e . . . . .        increase, 2 in, left    o e . . . .
//                            └>└>└>                                     <┘<┘
//                            . 1 1 2 1 1                                1 1 f 1 1     f: filled, or an eyelet
#include "runtime/machine.hpp"

namespace stk::runtime {

void Machine::run(const Decrease& decrease, Outcome& outcome) {
  on_bed(outcome, decrease.bed, {});
  if (decrease.bed == Bed::second && spec_.beds < 2) return;
  BedState& bed = bed_of(decrease.bed);
  const NeedleSet work = bed.in_work & bed.carrying;
  const int inset = decrease.inset < 0 ? 0 : decrease.inset;
  const std::int64_t needed = (decrease.sides == 2 ? 2 : 1) * (static_cast<std::int64_t>(inset) + 2);
  if (work.count() < needed) {
    Fault& fault = raise(outcome, FaultKind::too_few_to_shape, decrease.bed, work);
    fault.a = work.count();
    fault.b = needed;
    return;
  }
  const bool left = decrease.side == Side::left;
  const int edge = left ? work.first() : work.last(), inward = left ? 1 : -1;
  const NeedleSet group = left ? NeedleSet::range(edge, edge + inset + 1) : NeedleSet::range(edge - inset - 1, edge);
  if (const NeedleSet gaps = group - work; !gaps.empty()) {
    raise(outcome, FaultKind::gap_in_shaping, decrease.bed, gaps);
    return;
  }
  const NeedleSet moving = left ? NeedleSet::range(edge, edge + inset) : NeedleSet::range(edge - inset, edge);
  if (inset + 1 > spec_.tool_prongs) {
    Fault& fault = raise(outcome, FaultKind::tool_too_narrow, decrease.bed, moving);
    fault.a = inset + 1;
    fault.b = spec_.tool_prongs;
  }
  shift_loops(decrease.bed, moving, inward, outcome);
  outcome.needles = moving;
  check_hooks(outcome, decrease.bed, moving.shifted(inward));
  dispose(outcome, decrease.bed, outcome.emptied, Empties::out_of_work);
}

void Machine::run(const Increase& increase, Outcome& outcome) {
  on_bed(outcome, increase.bed, {});
  if (increase.bed == Bed::second && spec_.beds < 2) return;
  BedState& bed = bed_of(increase.bed);
  const NeedleSet work = bed.in_work & bed.carrying;
  const int inset = increase.inset < 0 ? 0 : increase.inset;
  const std::int64_t needed = inset == 0 ? 1 : (increase.sides == 2 ? 2 : 1) * static_cast<std::int64_t>(inset);
  if (work.count() < needed) {
    Fault& fault = raise(outcome, FaultKind::too_few_to_shape, increase.bed, work);
    fault.a = work.count();
    fault.b = needed;
    return;
  }
  const bool left = increase.side == Side::left;
  const int edge = left ? work.first() : work.last(), outward = left ? -1 : 1, outer = edge + outward;
  NeedleSet moving;
  if (inset > 0) moving = left ? NeedleSet::range(edge, edge + inset - 1) : NeedleSet::range(edge - inset + 1, edge);
  if (const NeedleSet gaps = moving - work; !gaps.empty()) {
    raise(outcome, FaultKind::gap_in_shaping, increase.bed, gaps);
    return;
  }
  if (outer < 0 || outer >= spec_.needles) {
    raise(outcome, FaultKind::moved_off_bed, increase.bed, NeedleSet::one(edge)).a = outward;
    return;
  }
  if (bed.carrying.contains(outer)) {
    raise(outcome, FaultKind::needle_occupied, increase.bed, NeedleSet::one(outer));
    return;
  }
  if (inset > spec_.tool_prongs) {
    Fault& fault = raise(outcome, FaultKind::tool_too_narrow, increase.bed, moving);
    fault.a = inset;
    fault.b = spec_.tool_prongs;
  }
  bed.in_work.insert(outer);
  int gap = outer;  // inset 0: the new needle itself, filled from the stitch that was outermost
  if (inset > 0) {
    shift_loops(increase.bed, moving, outward, outcome);
    gap = outcome.emptied.first();
  } else {
    bed.cause[static_cast<std::size_t>(outer)] = tag_;
    outcome.emptied.insert(outer);
  }
  outcome.needles = moving;
  const Empties from_left = Empties::filled_from_left, from_right = Empties::filled_from_right;
  const bool source_on_left = left == (inset > 0);   // the outer neighbour; with inset 0 the inner one
  dispose(outcome, increase.bed, NeedleSet::one(gap),
          increase.eyelet ? Empties::in_work : source_on_left ? from_left : from_right);
}

}  // namespace stk::runtime
