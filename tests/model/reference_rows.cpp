// The slow machine knits rows, rounds and pattern rows: pass after pass, and what is looked at after the last of them.
#include <algorithm>
#include <map>
#include <utility>

#include "tests/model/reference.hpp"

namespace stk::model {

void SlowMachine::run(const Knit& op) {
  if (op.mode == KnitMode::rounds && spec_.beds < 2) {
    say(FaultKind::no_second_bed, Bed::second);
    return;
  }
  Row row{op.mode, op.main_to, nullptr, 0, {}};
  if (op.mode == KnitMode::rounds && op.passes > 0) {
    for (const Bed bed : {Bed::main, Bed::second}) {
      if (rests(bed)) say(FaultKind::bed_rests_in_round, bed);
    }
    const std::pair<int, int> tensions{bed_of(Bed::main).tension, bed_of(Bed::second).tension};
    if (!carrying(Bed::main).empty() && !carrying(Bed::second).empty() && tensions.first != tensions.second &&
        (!told_tensions_ || *told_tensions_ != tensions)) {
      told_tensions_ = tensions;
      Fault& fault = say(FaultKind::beds_at_two_tensions, Bed::main, {}, tensions_by_);
      fault.a = tensions.first;
      fault.b = tensions.second;
    }
    const bool layers = !carrying(Bed::main).empty() && !carrying(Bed::second).empty();
    const bool one_pass_made_both =
        bed_of(Bed::main).last_pass >= 0 && bed_of(Bed::main).last_pass == bed_of(Bed::second).last_pass;
    if (layers && one_pass_made_both && !zigzag_just_made_) {
      say(FaultKind::tube_shut_below);
      bed_of(Bed::second).last_pass = -1;
      told_ends_ = true;
    }
    if (layers && !zigzag_just_made_ && !rounds_since_zigzag_) {
      const Needles front = carrying(Bed::main), back = carrying(Bed::second);
      const int off_left = std::abs(*front.begin() - *back.begin()), off_right = std::abs(*front.rbegin() - *back.rbegin());
      const bool meet = off_left < 2 && off_right < 2;
      if (!meet && !told_ends_) {
        const bool right = off_right > off_left;
        Fault& fault = say(FaultKind::tube_ends_apart, Bed::main, {right ? *front.rbegin() : *front.begin()});
        fault.a = right;
        fault.b = right ? *back.rbegin() : *back.begin();
      }
      told_ends_ = !meet;
    }
  }
  for (std::int64_t done = 0; done < op.passes; ++done) one_pass(row);
  long_holds();
  too_long_without_weights();
  if (op.mode == KnitMode::rounds && rounds_since_zigzag_ && *rounds_since_zigzag_ > 6) {
    say(FaultKind::tube_shut_by_zigzag, Bed::main, {}, began_tag_);
    rounds_since_zigzag_.reset();
    tube_ = true;
  }
}

void SlowMachine::run(const KnitPattern& op) {
  Row row{KnitMode::rows, Side::left, &op, 0, {}};
  for (; row.index < op.rows.size(); ++row.index) one_pass(row);
  long_holds();
  too_long_without_weights();
}

void SlowMachine::long_holds() {
  for (const Bed bed : {Bed::main, Bed::second}) {
    std::map<Tag, std::pair<Needles, std::int64_t>> by_hold;
    for (int n = 0; n < bed_size(bed); ++n) {
      Needle& needle = at(bed, n);
      const std::int64_t held = passes_ - needle.held_since;
      if (!needle.held() || needle.told_long || held <= spec_.long_hold_passes) continue;
      needle.told_long = true;
      by_hold[needle.cause].first.insert(n);
      by_hold[needle.cause].second = std::max(by_hold[needle.cause].second, held);
    }
    for (const auto& [cause, group] : by_hold) say(FaultKind::long_hold, bed, group.first, cause).a = group.second;
  }
}

}  // namespace stk::model
