// `swatch`: what a swatch tells, in the order of a knitter's questions, and at the end the line for the source.
#include "compiler/fabric/swatch.hpp"

#include <fmt/format.h>

#include <cmath>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "compiler/driver/commands.hpp"
#include "compiler/driver/swatch_advice.hpp"
#include "compiler/driver/terminal.hpp"
#include "compiler/fabric/loops.hpp"
#include "compiler/values/format.hpp"

namespace stk::driver {
namespace {

using fabric::Gauge;
using fabric::Reading;
using fabric::Swatch;
using values::Rational;

double cm(const Rational& millimetres) {
  return fabric::as_double(millimetres) / 10;
}

Swatch measured(const SwatchCommand& command) {
  Swatch swatch;
  swatch.stitches = fabric::as_double(command.stitches);
  swatch.rows = fabric::as_double(command.rows);
  if (command.off) swatch.off_machine = fabric::Extent{cm(command.off->width), cm(command.off->height)};
  if (command.washed) swatch.washed = fabric::Extent{cm(command.washed->width), cm(command.washed->height)};
  if (command.yarn) swatch.tex = fabric::together(fabric::tex_of(*command.yarn), command.strands);
  if (command.grams) swatch.grams = fabric::as_double(*command.grams);
  swatch.loops = command.whole ? fabric::as_double(command.whole->width) * fabric::as_double(command.whole->height)
                               : swatch.stitches * swatch.rows;
  if (command.wanted) {
    swatch.wanted =
        Gauge{fabric::as_double(command.wanted->width) / 10, fabric::as_double(command.wanted->height) / 10};
  }
  return swatch;
}

// To 10 cm, from the exact counts and lengths: one decimal.
std::string to_10_cm(const Rational& count, const Rational& millimetres) {
  const auto per_mm = values::divide(count, millimetres);
  const auto per_10_cm = per_mm ? values::multiply(*per_mm, Rational(100)) : per_mm;
  return per_10_cm ? values::number_text(*per_10_cm, 1) : "?";
}

std::string gauge_line(const SwatchCommand& command) {
  return fmt::format("gauge    {} sts, {} rows to 10 cm", to_10_cm(command.stitches, command.washed->width),
                     to_10_cm(command.rows, command.washed->height));
}

std::string gauge_text(const char* state, const Gauge& gauge, const std::string& sts, const std::string& rows) {
  return fmt::format("  {:<16} {:>6} {:>6} {:>10.1f} {:>6.1f}\n", state, sts, rows, gauge.stitches * 2.54,
                     gauge.rows * 2.54);
}

std::string part(double lost, const char* less, const char* more) {
  if (std::abs(lost) < 0.0005) return fmt::format("not {}", less);
  return fmt::format("{:.1f} % {}", std::abs(lost) * 100, lost > 0 ? less : more);
}

std::string as_text(const SwatchCommand& command, const Swatch& swatch, const Reading& r) {
  std::string text =
      "GAUGE                  to 10 cm           to the inch\n                      sts   rows        sts   rows\n";
  if (r.off_machine) {
    text += gauge_text("off the machine", *r.off_machine, to_10_cm(command.stitches, command.off->width),
                       to_10_cm(command.rows, command.off->height));
  }
  if (r.washed) {
    text += gauge_text("washed", *r.washed, to_10_cm(command.stitches, command.washed->width),
                       to_10_cm(command.rows, command.washed->height));
  } else {
    text += gauge_text("washed, about", r.relaxed, fmt::format("{:.1f}", r.relaxed.stitches * 10),
                       fmt::format("{:.1f}", r.relaxed.rows * 10));
  }
  if (r.washing) {
    text += fmt::format("Washing made it {}, {} and {} in area.\n", part(r.washing->width, "narrower", "wider"),
                        part(r.washing->length, "shorter", "longer"), part(r.washing->area, "smaller", "larger"));
  }
  text += "\nFABRIC\n";
  text += fmt::format("  rows to a stitch    {:.2f}   (plain wool about 1.31; {:.2f} to {:.1f} can be)\n", r.ratio,
                      fabric::lowest_row_ratio, fabric::highest_row_ratio);
  text += fmt::format("  loop length         {:.2f} cm   (stitches alone say {:.2f}, rows alone {:.2f})\n", r.loop,
                      r.loop_by_stitches, r.loop_by_rows);
  if (r.loop_by_mass) text += fmt::format("  and by its mass     {:.2f} cm\n", *r.loop_by_mass);
  if (r.tightness) {
    text += fmt::format("  tightness           {:.1f}   {}\n", *r.tightness, words_of(fabric::band_of(*r.tightness)));
    text += fmt::format("  mass                {:.0f} g to the m²\n", *r.areal_mass);
    text += fmt::format("  yarn                {:.0f} tex, about {:.1f} mm thick\n", *swatch.tex, *r.diameter * 10);
  }
  const std::vector<std::string> advice = advice_on(command, swatch, r);
  if (!advice.empty()) text += "\nWHAT TO DO\n";
  for (const std::string& line : advice) text += wrapped("- " + line, 80, 2);
  text += "\nFOR THE SOURCE\n";
  if (command.washed) return text + "  " + gauge_line(command) + "\n";
  return text +
         wrapped("  none yet: a gauge is of a washed swatch. Wash it, dry it, measure again and give `--washed`.", 80,
                 2);
}

double rounded(double value, int places) {
  const double scale = std::pow(10.0, places);
  return std::round(value * scale) / scale;
}

nlohmann::ordered_json json_of(const Gauge& gauge) {
  return {{"stitches_to_10_cm", rounded(gauge.stitches * 10, 2)}, {"rows_to_10_cm", rounded(gauge.rows * 10, 2)}};
}

std::string as_json(const SwatchCommand& command, const Swatch& swatch, const Reading& r) {
  nlohmann::ordered_json json;
  if (r.off_machine) json["off_machine"] = json_of(*r.off_machine);
  if (r.washed) json["washed"] = json_of(*r.washed);
  if (r.estimated) json["washed_estimated"] = json_of(r.relaxed);
  if (r.washing) {
    json["washing"] = {{"width_lost", rounded(r.washing->width, 4)},
                       {"length_lost", rounded(r.washing->length, 4)},
                       {"area_lost", rounded(r.washing->area, 4)}};
  }
  json["rows_to_a_stitch"] = rounded(r.ratio, 3);
  json["loop_cm"] = {{"density", rounded(r.loop, 4)},
                     {"stitches", rounded(r.loop_by_stitches, 4)},
                     {"rows", rounded(r.loop_by_rows, 4)}};
  if (r.loop_by_mass) json["loop_cm"]["mass"] = rounded(*r.loop_by_mass, 4);
  if (r.tightness) {
    json["tex"] = rounded(*swatch.tex, 2);
    json["tightness"] = rounded(*r.tightness, 2);
    json["fabric"] = words_of(fabric::band_of(*r.tightness));
    json["grams_to_a_square_metre"] = rounded(*r.areal_mass, 1);
    json["sock_gauge_from"] = json_of(*r.sock_from);
    json["sock_gauge_to"] = json_of(*r.sock_to);
  }
  if (swatch.wanted) json["aim_off_machine"] = json_of(r.off_machine_for(*swatch.wanted));
  json["advice"] = advice_on(command, swatch, r);
  json["gauge_line"] = command.washed ? nlohmann::ordered_json(gauge_line(command)) : nlohmann::ordered_json(nullptr);
  return json.dump(2) + "\n";
}

// A rib has no constants of its own: what it measures is all that is known.
std::string rib(const SwatchCommand& command) {
  std::string text =
      "Nothing is derived from a rib: it has no constants, and stretches to what it holds. Measure it as it will be "
      "worn.\n";
  if (!command.washed)
    return wrapped(text, 80, 0) +
           wrapped("Wash it, measure it stretched as on the leg, and give that as `--washed`.\n", 80, 0);
  return wrapped(text, 80, 0) +
         fmt::format("\nFOR THE SOURCE, if this was measured so\n  gauge    rib {} sts, {} rows to 10 cm, at MT - 3\n",
                     to_10_cm(command.stitches, command.washed->width),
                     to_10_cm(command.rows, command.washed->height)) +
         wrapped("(`MT - 3` stands for the tension that it was knitted at.)\n", 80, 0);
}

}  // namespace

int run_swatch(const SwatchCommand& command) {
  const Swatch swatch = measured(command);
  if (const auto why = fabric::impossible(swatch)) {
    complain(words_of(*why, swatch), "count between the marks again, and measure between the same marks");
    return wrong_usage;
  }
  if (command.rib && command.json) {
    complain("nothing is derived from a rib, so there is nothing to tell as json",
             "measure the rib as it will be worn and state it: `gauge rib 40 sts, 44 rows to 10 cm, at MT - 3`");
    return wrong_usage;
  }
  std::string text;
  if (command.rib) {
    text = rib(command);
  } else {
    const Reading reading = fabric::read(swatch);
    text = command.json ? as_json(command, swatch, reading) : as_text(command, swatch, reading);
  }
  if (print(text)) return no_errors;
  complain("what the swatch tells could not be written to standard output");
  return wrong_usage;
}

}  // namespace stk::driver
