// The options of `swatch`: what was typed, read into exact numbers, or a word on what cannot be read.
#pragma once

#include <string>
#include <variant>
#include <vector>

#include "compiler/driver/options.hpp"

namespace stk::driver {

struct SwatchTyped {
  std::string stitches, rows, off, washed, yarn, strands, weighed, whole, wanted, dial, dial_range;
  std::string fabric = "plain", format = "text";
};

std::variant<SwatchCommand, Misused> read_swatch(const SwatchTyped& typed);

}  // namespace stk::driver
