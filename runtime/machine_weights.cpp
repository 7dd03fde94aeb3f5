// Comb and weights: where they may hang, and how far they pull.
#include <algorithm>

#include "runtime/machine.hpp"

namespace stk::runtime {

namespace {
constexpr std::int64_t rows_before_weights = 2;
constexpr int widest_cord = 6;   // stitches
}

void Machine::run(const HangComb& hang, Outcome& outcome) {
  if (nothing_on_needles() || (hang.on.given() && !fabric_->has(hang.on))) {
    raise(outcome, FaultKind::comb_without_fabric);
    return;
  }
  const EdgeId edge = hang.on.given() ? hang.on : cast_on_edge_;
  if (cast_on_method_ && edge == cast_on_edge_ && !comb_seen_) {
    int needed = 0;
    switch (*cast_on_method_) {
      case CastOnMethod::e_wrap:
      case CastOnMethod::every_other_with_weave: needed = 3; break;
      case CastOnMethod::closed_by_latch:
      case CastOnMethod::closed_by_crochet: needed = 1; break;
      case CastOnMethod::open_on_waste: break;  // it hangs there already
      case CastOnMethod::zigzag:
        if (rows_since_cast_on_ > 0) raise(outcome, FaultKind::comb_too_late, Bed::main, {}, cast_on_tag_);
        break;
    }
    if (rows_since_cast_on_ < needed) {
      Fault& fault = raise(outcome, FaultKind::comb_too_early, Bed::main, {}, cast_on_tag_);
      fault.a = rows_since_cast_on_;
      fault.b = needed;
    }
  }
  comb_ = comb_seen_ = true;
  comb_edge_ = edge;
  comb_tag_ = tag_;
  hang_weights();
}

void Machine::run(const HangWeights&, Outcome& outcome) {
  if (nothing_on_needles()) {
    raise(outcome, FaultKind::comb_without_fabric);
    return;
  }
  for (BedState& bed : beds_) {
    for (const int needle : bed.held) bed.held_since[static_cast<std::size_t>(needle)] = passes_;
    bed.quiet_long = {};
  }
  hang_weights();
}

void Machine::run(const RemoveComb&, Outcome& outcome) {
  if (!comb_) raise(outcome, FaultKind::no_comb);
  comb_ = false;
  comb_edge_ = {};
  weights_ = Weights{.tag = tag_, .since = passes_};
}

// Weights hang from the fabric that is there: from its first wale to its last.
void Machine::hang_weights() {
  const NeedleSet fabric = carrying(Bed::main) | carrying(Bed::second);
  weights_ = Weights{.hang = true, .first = fabric.first(), .last = fabric.last(), .tag = tag_, .since = passes_};
}

// A loop too far from the weights is not drawn down when it is knitted, and jumps off its needle. The wales that an
// increase, a cast-on or loops picked up add stand outside them. Two rows are free: new fabric must be there before a
// weight can hang on it.
void Machine::check_weights(Outcome& outcome, const std::array<NeedleSet, 2>& worked) {
  if (!weights_.hang || weights_.said) return;
  const int first = weights_.first - spec_.weights_reach, last = weights_.last + spec_.weights_reach;
  for (const Bed bed : {Bed::main, Bed::second}) {
    const NeedleSet& here = worked[static_cast<std::size_t>(bed)];
    if (here.empty() || (here.first() >= first && here.last() <= last)) continue;
    if (weights_.outgrown < 0) weights_.outgrown = passes_;
    if (passes_ - weights_.outgrown < rows_before_weights) continue;
    Fault& fault = raise(outcome, FaultKind::weights_do_not_reach, bed,
                         here - NeedleSet::range(std::max(first, 0), std::min(last, spec_.needles - 1)), weights_.tag);
    fault.a = std::max(weights_.first - here.first(), here.last() - weights_.last);
    fault.b = spec_.weights_reach;
    weights_.said = true;
  }
}

// A cord is drawn down by hand.
void Machine::check_no_weights(Outcome& outcome) {
  if (weights_.hang || weights_.said || passes_ - weights_.since <= spec_.rows_without_weights) return;
  if (stitches() <= widest_cord) return;
  Fault& fault = raise(outcome, FaultKind::no_weights, Bed::main, {}, weights_.tag);
  fault.a = passes_ - weights_.since;
  fault.b = spec_.rows_without_weights;
  weights_.said = true;
}

}  // namespace stk::runtime
