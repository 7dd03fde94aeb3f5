// Short rows as a technique works them: hold one needle a row at each end in turn, then release them again.
#pragma once

#include <algorithm>
#include <cstdint>

#include "tests/unit/runtime/support.hpp"

namespace stk::runtime {

struct ShortRows {
  Bench& bench;
  Bed bed;
  NeedleSet part;
  std::int64_t rows = 0, loops = 0;
  int most = 0;   // loops on a hook at any time

  NeedleSet work() const { return bench.machine.in_work(bed) & part; }
  Side carriage() const { return *bench.machine.carriage(); }
  static int end(const NeedleSet& set, Side side) { return side == Side::left ? set.first() : set.last(); }
  int held_beside(Side side) const {
    const int needle = end(work(), side) + (side == Side::left ? -1 : 1);
    return bench.machine.held(bed).contains(needle) ? needle : -1;
  }
  void knit() {
    const Outcome outcome = bench(Knit{1});
    rows += outcome.passes;
    loops += outcome.loops;
  }
  void wrap_if_any() {
    const int needle = held_beside(carriage());
    if (needle >= 0) bench(Wrap{bed, NeedleSet::one(needle)});
    most = std::max(most, bench.machine.most_loops_on_a_hook());
  }
  void run(int down_to, bool by_hand = true) {
    const int steps = part.count() - down_to;
    for (int step = 0; step < steps; ++step) {
      if (by_hand) bench(Hold{bed, NeedleSet::one(end(work(), opposite(carriage())))});
      knit();
      if (by_hand) {
        wrap_if_any();
      } else {
        bench(Hold{bed, NeedleSet::one(end(work(), carriage()))});
      }
    }
    if (steps % 2 != 0) {
      knit();
      wrap_if_any();
    }
    for (int step = 0; step < steps; ++step) {
      bench(Release{bed, NeedleSet::one(held_beside(opposite(carriage())))});
      knit();
      wrap_if_any();
    }
  }
};

}  // namespace stk::runtime
