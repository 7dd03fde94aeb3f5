// Plain weft-knit fabric: how loop length, gauge and relaxation hang together.
//
// With the loop length l, the length of yarn in one loop, courses = Kc/l, wales = Kw/l and stitch density S = Ks/l².
// The constants depend on how far the fabric is relaxed and not on how it was knitted: Munden 1959, J. Textile
// Institute 50, T448, plain worsted, as given by Spencer, Knitting Technology, 3rd ed. 2001, §22.5 (read second-hand).
// With l in cm everything is to the cm.
//
// Range: plain fabric of wool-like yarn, all needles working. No rib (its constants are none), no tuck, slip or lace.
// For cotton no constants were found; it relaxes less, so that what is worked out for it is a guess.
//
// Double arithmetic: what is measured with a ruler is good to one percent. Counts, gauges as stated in a source and
// yarn counts stay exact (values/); a double is made at the last moment and never compared for equality.
#pragma once

#include <cstdint>

namespace stk::fabric {

enum class State : std::uint8_t {
  dry_relaxed,   // rested off the machine, a day or longer
  wet_relaxed,   // soaked, laid out, dried
  fully_relaxed  // washed, tumbled or agitated, dried: as socks live
};

struct PlainConstants {
  double courses, wales, density;  // Kc, Kw, Ks
};
const PlainConstants& plain_constants(State state);

// Stitches and rows to the cm: wales and courses of the trade.
struct Gauge {
  double stitches = 0, rows = 0;
};

double stitch_density(const Gauge& gauge);  // loops to the cm²
double row_ratio(const Gauge& gauge);       // rows to one stitch of the same length

// Loop length in cm. From the density is the best: a swatch pulled wide loses in length what it gains in width, so its
// density stays nearly what it was while stitches and rows alone mislead, one up, the other down.
double loop_from_density(const Gauge& gauge, State state = State::fully_relaxed);
double loop_from_stitches(double stitches_per_cm, State state = State::fully_relaxed);
double loop_from_rows(double rows_per_cm, State state = State::fully_relaxed);

Gauge gauge_of_loop(double loop_cm, State state = State::fully_relaxed);

// What a fabric of one loop length loses between two states, as a part of what it was: dry to fully relaxed 0.091 of
// its length, 0.095 of its width, 0.177 of its area. Felting comes on top and is none of this.
struct Change {
  double length, width, area;
};
Change relaxation(State from, State to);

// The rows to a stitch that a plain swatch can have. Munden's is 1.31; a published machine sock has 1.375 (1979).
// Outside of this range one of the two was miscounted, or the swatch was stretched, or it is no plain fabric
// (judgement).
inline constexpr double lowest_row_ratio = 1.15;
inline constexpr double highest_row_ratio = 1.6;
inline bool plausible_ratio(double ratio) {
  return ratio >= lowest_row_ratio && ratio <= highest_row_ratio;
}

}  // namespace stk::fabric
