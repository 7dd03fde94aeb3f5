#include "compiler/names/builtins.hpp"

#include <algorithm>
#include <array>

namespace stk::names {

namespace {

using namespace std::string_view_literals;

constexpr std::array<std::string_view, 2> of_length{"length", "fabric"};
constexpr std::array<std::string_view, 2> of_stitches{"sts", "fabric"};
constexpr std::array<std::string_view, 2> of_rows{"rows", "fabric"};
constexpr std::array<std::string_view, 1> of_needles{"needles"};
constexpr std::array<std::string_view, 1> of_number{"number"};
constexpr std::array<std::string_view, 3> of_total{"total", "among", "turn"};

constexpr std::array<BuiltinEntry, 12> table{{
    {Builtin::stitches, "stitches", 1, 2, of_length, true},
    {Builtin::rows, "rows", 1, 2, of_length, true},
    {Builtin::rounds, "rounds", 1, 2, of_length, true},
    {Builtin::width, "width", 1, 2, of_stitches, true},
    {Builtin::height, "height", 1, 2, of_rows, true},
    {Builtin::count, "count", 1, 1, of_needles, false},
    {Builtin::even, "even", 1, 1, of_number, false},
    {Builtin::odd, "odd", 1, 1, of_number, false},
    {Builtin::min, "min", 1, any_number, {}, false},
    {Builtin::max, "max", 1, any_number, {}, false},
    {Builtin::abs, "abs", 1, 1, of_number, false},
    {Builtin::evenly, "evenly", 3, 3, of_total, false},
}};

}  // namespace

std::span<const BuiltinEntry> builtins() {
  return table;
}

const BuiltinEntry* find_builtin(std::string_view name) {
  const auto found =
      std::find_if(table.begin(), table.end(), [&](const BuiltinEntry& entry) { return entry.name == name; });
  return found == table.end() ? nullptr : &*found;
}

bool is_builtin_selection(std::string_view name) {
  return name == "all" || name == "empties" || name == "held";
}

}  // namespace stk::names
