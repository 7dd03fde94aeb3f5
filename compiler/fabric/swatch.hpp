// What a swatch tells: measured off the machine, washed and measured again, perhaps weighed.
//
// Lengths in cm, masses in g, yarn in tex (all strands together). Plain knitting only: from a rib nothing is derived.
#pragma once

#include <optional>

#include "compiler/fabric/plain.hpp"
#include "compiler/fabric/yarn.hpp"

namespace stk::fabric {

struct Extent {
  double width = 0, height = 0;
};

struct Swatch {
  double stitches = 0, rows = 0;              // between the marks that were measured
  std::optional<Extent> off_machine, washed;  // one of them at least
  std::optional<double> tex;
  std::optional<double> grams;  // of the whole swatch
  double loops = 0;             // of the whole swatch, where it was weighed
  std::optional<Gauge> wanted;  // the washed gauge that a pattern asks for
};

// Why figures cannot be those of a swatch. The bounds are wide: beyond them something was written down wrongly.
enum class Impossible : std::uint8_t {
  nothing_measured,
  gauge_out_of_reach,  // not 0.4 to 14 stitches, or not 0.5 to 20 rows, to the cm
  shrunk,              // by more than most_shrunk in one direction
  stretched            // by more than most_stretched
};
inline constexpr double most_shrunk = 0.5;
inline constexpr double most_stretched = 0.4;
std::optional<Impossible> impossible(const Swatch& swatch);

struct Reading {
  std::optional<Gauge> off_machine, washed;
  std::optional<Change> washing;  // the part lost; negative where it grew
  Gauge relaxed;                  // washed; where it was not, what washing is likely to make of it
  bool estimated = false;         // so: from Munden's constants for wool
  double ratio = 0;               // rows to a stitch, relaxed
  double loop = 0;                // cm, from the density
  double loop_by_stitches = 0, loop_by_rows = 0;
  std::optional<double> loop_by_mass;
  std::optional<double> tightness, areal_mass, diameter;
  std::optional<Gauge> sock_from,
      sock_to;  // washed gauges of this yarn, in this swatch's proportions, that make a sock
  // A gauge to be reached when washed, off the machine: by what this swatch did, or by the constants.
  Gauge off_machine_for(const Gauge& washed_gauge) const;
};

// Only of a possible swatch.
Reading read(const Swatch& swatch);

// Felting: loss of area beyond full relaxation. What plain wool loses by relaxing alone is 0.177 of its dry area.
inline constexpr double felts_above = 0.25;  // judgement
// Two ways to the loop length should agree within this; a gauge is good to 2 %, a label's count to 5 (judgement).
inline constexpr double loops_agree_within = 0.1;

}  // namespace stk::fabric
