#include "compiler/fabric/plain.hpp"

#include <array>
#include <cmath>

namespace stk::fabric {

const PlainConstants& plain_constants(State state) {
  // As printed: wet, 5.3 * 4.1 is 21.73 and not 21.6. Each was fitted by itself, so each is kept as it stands.
  static constexpr std::array<PlainConstants, 3> table{{{5.0, 3.8, 19.0}, {5.3, 4.1, 21.6}, {5.5, 4.2, 23.1}}};
  return table[static_cast<std::size_t>(state)];
}

double stitch_density(const Gauge& gauge) {
  return gauge.stitches * gauge.rows;
}

double row_ratio(const Gauge& gauge) {
  return gauge.rows / gauge.stitches;
}

double loop_from_density(const Gauge& gauge, State state) {
  return std::sqrt(plain_constants(state).density / stitch_density(gauge));
}

double loop_from_stitches(double stitches_per_cm, State state) {
  return plain_constants(state).wales / stitches_per_cm;
}

double loop_from_rows(double rows_per_cm, State state) {
  return plain_constants(state).courses / rows_per_cm;
}

Gauge gauge_of_loop(double loop_cm, State state) {
  const PlainConstants& k = plain_constants(state);
  return {k.wales / loop_cm, k.courses / loop_cm};
}

Change relaxation(State from, State to) {
  const PlainConstants& a = plain_constants(from);
  const PlainConstants& b = plain_constants(to);
  return {1 - a.courses / b.courses, 1 - a.wales / b.wales, 1 - a.density / b.density};
}

}  // namespace stk::fabric
