// Sections, counter, tension, pitch, yarns in the feeder.
#include <algorithm>

#include "runtime/machine.hpp"

namespace stk::runtime {

void Machine::run(const BeginSection&, Outcome& outcome) {
  section_ = outcome.section = fabric_->add_section(piece_, tag_);
  short_rows_ = false;
}

void Machine::run(const ResetCounter& reset, Outcome&) { counter_ = reset.to; }

void Machine::run(const SetTension& set, Outcome& outcome) {
  if (set.beds != Beds::main && spec_.beds < 2) raise(outcome, FaultKind::no_second_bed, Bed::second);
  for (const Bed bed : {Bed::main, Bed::second}) {
    const bool meant = set.beds == Beds::both || set.beds == (bed == Bed::main ? Beds::main : Beds::second);
    if (!meant || bed_of(bed).tension == set.offset_tenths) continue;
    bed_of(bed).tension = set.offset_tenths;
    tensions_set_ = tag_;
  }
  if (set.offset_tenths >= tension_least_ && set.offset_tenths <= tension_most_) return;
  // MT itself is on the dial, so the least is never above 0 and the most never below.
  const std::int64_t least = std::min(tension_least_, set.offset_tenths);
  const std::int64_t most = std::max(tension_most_, set.offset_tenths);
  if (most - least > spec_.dial_span_tenths) {
    Fault& fault = raise(outcome, FaultKind::tension_beyond_dial, set.beds == Beds::second ? Bed::second : Bed::main);
    fault.a = most - least;
    fault.b = spec_.dial_span_tenths;
    return;  // the others are still held to what fits
  }
  tension_least_ = static_cast<int>(least);
  tension_most_ = static_cast<int>(most);
}

void Machine::run(const SetPitch& set, Outcome&) { pitch_ = set.pitch; }

void Machine::run(const SetCarriage& set, Outcome&) { carriage_knits_ = set.knits; }

void Machine::run(const ThreadYarn& thread, Outcome& outcome) {
  if (!fabric_->has(thread.yarn) || (thread.second.given() && !fabric_->has(thread.second))) {
    raise(outcome, FaultKind::no_such_yarn);
    return;
  }
  free_feeder(outcome, thread.yarn, thread.second);
  first_yarn_ = thread.yarn;
  second_yarn_ = thread.second == thread.yarn ? YarnId{} : thread.second;
  quiet_no_yarn_ = false;
}

void Machine::run(const RestYarn& rest, Outcome& outcome) {
  const bool threaded = rest.yarn.given() && (rest.yarn == first_yarn_ || rest.yarn == second_yarn_);
  if (!threaded) raise(outcome, FaultKind::yarn_not_threaded).yarn = rest.yarn;
  if (threaded) leave_feeder(rest.yarn);
}

void Machine::run(const CutYarn& cut, Outcome& outcome) {
  const bool threaded = cut.yarn.given() && (cut.yarn == first_yarn_ || cut.yarn == second_yarn_);
  const std::optional<YarnPlace> last = place(cut.yarn);
  if (!threaded && !last) {
    raise(outcome, FaultKind::yarn_not_threaded).yarn = cut.yarn;
    return;
  }
  if (last) {
    add_end(cut.yarn, true, *last, cut.tail_micrometres);
    outcome.first_needle = outcome.last_needle = last->needle;
    outcome.last_bed = last->bed;
  }
  leave_feeder(cut.yarn);
  set_place(cut.yarn, std::nullopt);
  outcome.yarn_cut = true;
}

}  // namespace stk::runtime
