#include "compiler/fabric/loops.hpp"

#include <cmath>

namespace stk::fabric {

double as_double(const values::Rational& value) {
  return static_cast<double>(value.numerator()) / static_cast<double>(value.denominator());
}

Gauge measured(const values::Quantity& stitches, const values::Quantity& rows) {
  return {as_double(stitches.value) * 10, as_double(rows.value) * 10};
}

double tex_of(const values::Quantity& count) {
  const auto tex = values::amount_in(count, *values::find_unit("tex"));
  return tex ? as_double(*tex) : 0;
}

values::Rational loop_length(const Gauge& washed) {
  const double hundredths = std::round(loop_from_density(washed) * 1000);
  // A gauge of nothing, or of more than any needle knits, has no loop.
  if (!(hundredths >= 1 && hundredths < 1e9)) return 0;
  const auto length = values::Rational::fraction(static_cast<std::int64_t>(hundredths), 100);
  return length ? *length : values::Rational(0);
}

}  // namespace stk::fabric
