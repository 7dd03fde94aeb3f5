#include "runtime/units.hpp"

namespace stk::runtime {

bool MachineSpec::valid() const {
  if (needles < 2 || needles > needle_limit || beds < 1 || beds > 2) return false;
  for (const int figure :
       {pitch_micrometres, dial_span_tenths, hook_limit, tool_prongs, move_reach, crossing_reach, tuck_limit,
        slip_limit, tuck_neighbours, long_hold_passes, weights_reach, rows_without_weights,
        least_waste_rows, usual_waste_rows, abrupt_tension_tenths}) {
    if (figure <= 0) return false;
  }
  return float_limit >= 0 && hook_limit <= 100;
}

Side needle_side(const MachineSpec& spec, int needle) {
  return needle < needles_left_of_centre(spec) ? Side::left : Side::right;
}

int needle_number(const MachineSpec& spec, int needle) {
  const int left = needles_left_of_centre(spec);
  return needle < left ? left - needle : needle - left + 1;
}

std::string needle_name(const MachineSpec& spec, int needle) {
  return (needle_side(spec, needle) == Side::left ? "L" : "R") + std::to_string(needle_number(spec, needle));
}

int needle_index(const MachineSpec& spec, Side side, int number) {
  if (number < 1 || number > spec.needles) return -1;
  const int left = needles_left_of_centre(spec);
  const int needle = side == Side::left ? left - number : left + number - 1;
  return needle >= 0 && needle < spec.needles ? needle : -1;
}

int needle_index(const MachineSpec& spec, std::string_view name) {
  if (name.size() < 2 || name.size() > 5 || (name[0] != 'L' && name[0] != 'R') || name[1] == '0') return -1;
  int number = 0;
  for (const char digit : name.substr(1)) {
    if (digit < '0' || digit > '9') return -1;
    number = number * 10 + (digit - '0');
  }
  return needle_index(spec, name[0] == 'L' ? Side::left : Side::right, number);
}

}  // namespace stk::runtime
