// Yarn in a fabric: how thick it is, how close it lies, what the fabric weighs.
//
// Yarn counts are tex, grams to 1,000 m (ISO 1144:2016), as doubles: the exact count lives in values/yarn_count.hpp.
// Several strands knitted as one have the sum of their counts.
#pragma once

#include <cstdint>

#include "compiler/fabric/plain.hpp"

namespace stk::fabric {

inline double together(double tex, int strands) {
  return tex * strands;
}

// Tightness K = √tex / l, l in cm: how much of its place the yarn fills. Plain worsted cloth has 14 to 15 (Spencer,
// Knitting Technology, 3rd ed. 2001, §22.6, second-hand). Sock yarn of 238 tex at 8, 9 and 10 stitches to the
// inch: 11.6, 13.0, 14.5 (worked out).
double tightness(double tex, double loop_cm);
double loop_for_tightness(double tex, double tightness);  // cm

// What that is for a sock. The bounds are judgement: a sock wants a closer fabric than a jersey, and the common mistake
// is one that drapes and wears through; above the upper one it is a board and hard on needles.
enum class Tightness : std::uint8_t { too_loose, loose, sock, firm, too_tight };
inline constexpr double too_loose_below = 9.5;
inline constexpr double sock_from = 11;
inline constexpr double sock_to = 14.5;
inline constexpr double too_tight_above = 17;
Tightness band_of(double tightness);  // of its value to one decimal, as it is printed

// Diameter in cm of a yarn whose fibres have so many g/cm³: 0.00444 √(tex/density) (textile handbook, Texcoms 2023, p.
// 147). Loosely spun yarn is thicker.
double yarn_diameter(double tex, double fibre_density = 1.31);  // wool 1.31 (from memory)

// g/m² = loops to the cm² · l in mm · tex / 100 (the same handbook and page).
double areal_mass(const Gauge& gauge, double loop_cm, double tex);

// The loop length that the balance tells: a swatch of so many loops weighs so much. cm.
double loop_from_mass(double grams, double loops, double tex);

}  // namespace stk::fabric
