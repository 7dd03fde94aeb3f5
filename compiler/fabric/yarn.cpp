#include "compiler/fabric/yarn.hpp"

#include <cmath>

namespace stk::fabric {

double tightness(double tex, double loop_cm) {
  return std::sqrt(tex) / loop_cm;
}

double loop_for_tightness(double tex, double tightness) {
  return std::sqrt(tex) / tightness;
}

Tightness band_of(double measured) {
  const double tightness = std::round(measured * 10) / 10;
  if (tightness < too_loose_below) return Tightness::too_loose;
  if (tightness < sock_from) return Tightness::loose;
  if (tightness <= sock_to) return Tightness::sock;
  if (tightness <= too_tight_above) return Tightness::firm;
  return Tightness::too_tight;
}

double yarn_diameter(double tex, double fibre_density) {
  return 0.00444 * std::sqrt(tex / fibre_density);
}

double areal_mass(const Gauge& gauge, double loop_cm, double tex) {
  return stitch_density(gauge) * (loop_cm * 10) * tex / 100;
}

double loop_from_mass(double grams, double loops, double tex) {
  return grams * 100'000 / (tex * loops);  // tex: grams to 100,000 cm
}

}  // namespace stk::fabric
