#include "compiler/fabric/swatch.hpp"

namespace stk::fabric {
namespace {

Gauge gauge_over(const Swatch& swatch, const Extent& extent) {
  return {swatch.stitches / extent.width, swatch.rows / extent.height};
}

bool within_reach(const Gauge& gauge) {
  return gauge.stitches >= 0.4 && gauge.stitches <= 14 && gauge.rows >= 0.5 && gauge.rows <= 20;
}

}  // namespace

std::optional<Impossible> impossible(const Swatch& swatch) {
  if (!swatch.off_machine && !swatch.washed) return Impossible::nothing_measured;
  for (const auto& extent : {swatch.off_machine, swatch.washed})
    if (extent && !within_reach(gauge_over(swatch, *extent))) return Impossible::gauge_out_of_reach;
  if (!swatch.off_machine || !swatch.washed) return std::nullopt;
  for (const double kept :
       {swatch.washed->width / swatch.off_machine->width, swatch.washed->height / swatch.off_machine->height}) {
    if (kept < 1 - most_shrunk) return Impossible::shrunk;
    if (kept > 1 + most_stretched) return Impossible::stretched;
  }
  return std::nullopt;
}

Gauge Reading::off_machine_for(const Gauge& washed_gauge) const {
  const Gauge off = off_machine ? *off_machine
                                : Gauge{1 - relaxation(State::dry_relaxed, State::fully_relaxed).width,
                                        1 - relaxation(State::dry_relaxed, State::fully_relaxed).length};
  const Gauge after = !off_machine ? Gauge{1, 1} : relaxed;
  return {washed_gauge.stitches * off.stitches / after.stitches, washed_gauge.rows * off.rows / after.rows};
}

Reading read(const Swatch& swatch) {
  Reading reading;
  if (swatch.off_machine) reading.off_machine = gauge_over(swatch, *swatch.off_machine);
  if (swatch.washed) reading.washed = gauge_over(swatch, *swatch.washed);
  if (reading.off_machine && reading.washed) {
    const double width = swatch.washed->width / swatch.off_machine->width;
    const double length = swatch.washed->height / swatch.off_machine->height;
    reading.washing = Change{1 - length, 1 - width, 1 - length * width};
  }
  reading.estimated = !reading.washed;
  if (reading.washed) {
    reading.relaxed = *reading.washed;
  } else {
    const Change change = relaxation(State::dry_relaxed, State::fully_relaxed);
    reading.relaxed = {reading.off_machine->stitches / (1 - change.width),
                       reading.off_machine->rows / (1 - change.length)};
  }
  reading.ratio = row_ratio(reading.relaxed);
  reading.loop = loop_from_density(reading.relaxed);
  reading.loop_by_stitches = loop_from_stitches(reading.relaxed.stitches);
  reading.loop_by_rows = loop_from_rows(reading.relaxed.rows);
  if (!swatch.tex) return reading;
  if (swatch.grams && swatch.loops > 0) reading.loop_by_mass = loop_from_mass(*swatch.grams, swatch.loops, *swatch.tex);
  reading.tightness = tightness(*swatch.tex, reading.loop);
  reading.areal_mass = areal_mass(reading.relaxed, reading.loop, *swatch.tex);
  reading.diameter = yarn_diameter(*swatch.tex);
  const auto at = [&](double wanted) {
    const double times = wanted / *reading.tightness;  // the gauge grows as the loop gets shorter
    return Gauge{reading.relaxed.stitches * times, reading.relaxed.rows * times};
  };
  reading.sock_from = at(sock_from);
  reading.sock_to = at(sock_to);
  return reading;
}

}  // namespace stk::fabric
