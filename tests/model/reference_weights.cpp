// The slow machine hangs its comb and weights.
#include <algorithm>

#include "tests/model/reference.hpp"

namespace stk::model {

void SlowMachine::run(const HangComb& op) {
  if (nothing_on_needles() || (op.on.given() && !sock_.has(op.on))) {
    say(FaultKind::comb_without_fabric);
    return;
  }
  const EdgeId edge = op.on.given() ? op.on : began_edge_;
  if (began_with_ && edge == began_edge_ && !comb_was_hung_) {
    const bool zigzag = *began_with_ == CastOnMethod::zigzag;
    const bool closed =
        *began_with_ == CastOnMethod::closed_by_latch || *began_with_ == CastOnMethod::closed_by_crochet;
    const int needed = zigzag ? 0 : closed ? 1 : 3;
    if (zigzag && rows_since_ > 0) say(FaultKind::comb_too_late, Bed::main, {}, began_tag_);
    if (rows_since_ < needed) {
      Fault& fault = say(FaultKind::comb_too_early, Bed::main, {}, began_tag_);
      fault.a = rows_since_;
      fault.b = needed;
    }
  }
  comb_ = comb_was_hung_ = true;
  comb_in_ = edge;
  comb_tag_ = tag_;
  weights_on();
}

void SlowMachine::run(const HangWeights&) {
  if (nothing_on_needles()) {
    say(FaultKind::comb_without_fabric);
    return;
  }
  weights_on();
  for (BedOfNeedles& bed : beds_) {
    for (Needle& needle : bed.needles) {
      if (needle.held()) needle.held_since = passes_;
      needle.told_long = false;
    }
  }
}

void SlowMachine::run(const RemoveComb&) {
  if (!comb_) say(FaultKind::no_comb);
  comb_ = false;
  comb_in_ = {};
  weights_off();
}

void SlowMachine::weights_on() {
  weighed_ = carrying(Bed::main);
  for (const int n : carrying(Bed::second)) weighed_.insert(n);
  weighed_by_ = tag_;
  told_weights_ = false;
  outgrew_weights_.reset();
}

void SlowMachine::weights_off() {
  weighed_.clear();
  weighed_by_ = tag_;
  without_weights_since_ = passes_;
  told_weights_ = false;
  outgrew_weights_.reset();
}

// The nearest needle with a weight below it is too far away.
void SlowMachine::too_far_from_weights(const std::array<Needles, 2>& worked) {
  if (weighed_.empty() || told_weights_) return;
  for (const Bed bed : {Bed::main, Bed::second}) {
    Needles far;
    std::int64_t farthest = 0;
    for (const int n : worked[static_cast<std::size_t>(bed)]) {
      const std::int64_t away = std::max({0, *weighed_.begin() - n, n - *weighed_.rbegin()});
      if (away > spec_.weights_reach) far.insert(n);
      farthest = std::max(farthest, away);
    }
    if (far.empty()) continue;
    if (!outgrew_weights_) outgrew_weights_ = passes_;
    if (passes_ < *outgrew_weights_ + 2) continue;
    Fault& fault = say(FaultKind::weights_do_not_reach, bed, far, weighed_by_);
    fault.a = farthest;
    fault.b = spec_.weights_reach;
    told_weights_ = true;
  }
}

void SlowMachine::too_long_without_weights() {
  if (!weighed_.empty() || told_weights_ || carrying(Bed::main).size() + carrying(Bed::second).size() < 7) return;
  const std::int64_t rows = passes_ - without_weights_since_;
  if (rows <= spec_.rows_without_weights) return;
  Fault& fault = say(FaultKind::no_weights, Bed::main, {}, weighed_by_);
  fault.a = rows;
  fault.b = spec_.rows_without_weights;
  told_weights_ = true;
}

}  // namespace stk::model
