// The functions that the language brings along. Here are their names and arguments; what they work out is in grade/.
#pragma once

#include <cstdint>
#include <limits>
#include <span>
#include <string_view>

namespace stk::names {

enum class Builtin : std::uint8_t {
  stitches, rows, rounds,   // of a length, by the gauge of the edition or of a second fabric: rows(2 * hem_depth, hem)
  width, height,            // of stitches; of rows or rounds: the same way back
  count,                    // of needles
  even, odd,
  min, max, abs,
  evenly                    // evenly(total, among: n, turn: i): the i-th share when total is divided evenly among n
};

struct BuiltinEntry {
  Builtin builtin;
  std::string_view name;
  std::uint8_t least = 1, most = 1;                 // arguments
  std::span<const std::string_view> labels;         // of the arguments, in order; all but the first may be named by them
  bool takes_fabric = false;                        // the second argument names a gauge
};

inline constexpr std::uint8_t any_number = std::numeric_limits<std::uint8_t>::max();

std::span<const BuiltinEntry> builtins();
const BuiltinEntry* find_builtin(std::string_view name);   // null if there is none

// Names of needle sets that are always there: all, empties, held. A declaration hides them.
bool is_builtin_selection(std::string_view name);

}  // namespace stk::names
