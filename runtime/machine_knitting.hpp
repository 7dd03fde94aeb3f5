// What the passes of one operation share. Private to the sources that knit rows.
#pragma once

#include <cstddef>
#include <cstdint>

#include "runtime/machine.hpp"

namespace stk::runtime {

inline constexpr std::int64_t most_passes = 1'000'000'000'000;

struct Machine::Knitting {
  Outcome& outcome;
  KnitMode mode = KnitMode::rows;
  const KnitPattern* pattern = nullptr;
  Side main_to = Side::left;               // in rounds
  std::size_t row = 0;                     // of the pattern
  // said once in an operation
  bool float_to[2] = {false, false};       // by feeder: on the way to the first stitch
  bool float_within[2] = {false, false};
  bool side_open[2] = {false, false};      // by bed
  bool second_yarn = false, tucks = false, join = false;
};

}  // namespace stk::runtime
