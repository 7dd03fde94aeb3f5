#include "compiler/driver/swatch_advice.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "compiler/fabric/loops.hpp"
#include "compiler/values/format.hpp"

namespace stk::driver {
namespace {

using fabric::Gauge;
using fabric::Reading;
using fabric::Swatch;
using fabric::Tightness;
using values::Rational;

constexpr double near_enough = 0.015;  // of a gauge: half a stitch in 33

std::string both(const Gauge& gauge) {
  return fmt::format("{:.1f} sts and {:.1f} rows", gauge.stitches * 10, gauge.rows * 10);
}

// "set the dial a number slacker, from 6 to 7"; for little a mark of it. At the end of the dial there is none. Larger
// numbers are slacker.
std::string turn(const SwatchCommand& command, bool slacker, bool little) {
  const char* const how = slacker ? "slacker" : "tighter";
  const char* const step = little ? "a mark" : "a number";
  if (!command.dial) return fmt::format("set the dial {} {}", step, how);
  const std::string now = values::number_text(*command.dial);
  const Rational end =
      command.dial_range ? (slacker ? command.dial_range->height : command.dial_range->width) : Rational(0);
  const bool has_end = command.dial_range.has_value() || !slacker;
  const auto next = values::add(*command.dial, Rational(slacker ? 1 : -1));
  const bool none = has_end && *command.dial == end;
  if (none || (!little && has_end && next && (slacker ? *next > end : *next < end))) {
    return fmt::format("the dial has no {} number than {}: take a {} yarn or {}, or another machine", how, now,
                       slacker ? "thinner" : "thicker", slacker ? "fewer strands" : "more strands");
  }
  return fmt::format("set the dial {} {}, from {} {} {}", step, how, now, little ? "towards" : "to",
                     next ? values::number_text(*next) : now);
}

void on_ratio(const Reading& r, std::vector<std::string>& advice) {
  if (fabric::plausible_ratio(r.ratio)) return;
  advice.push_back(fmt::format(
      "{:.2f} rows to a stitch are not those of plain fabric lying at rest: {}. Count both again before you "
      "trust anything here.",
      r.ratio,
      r.ratio > fabric::highest_row_ratio ? "it was measured pulled wide, or rows were counted twice"
                                          : "it was measured pulled long, or it is a rib"));
}

void on_washing(const Reading& r, std::vector<std::string>& advice) {
  if (!r.washing) {
    if (r.estimated) {
      advice.push_back(
          "The washed gauge is an estimate from wool's constants (9 % shorter, 9.5 % narrower), and no more. "
          "Machine-washable wool, cotton and acrylic do otherwise: wash the swatch.");
    }
    return;
  }
  if (r.washing->area > fabric::felts_above) {
    advice.push_back(fmt::format(
        "Caution: {:.0f} % of the area went, and relaxing alone takes about 18: it has felted, or begun to. A felted "
        "fabric does not come back. Wash cooler and gentler, and knit a new swatch.",
        r.washing->area * 100));
  } else if (r.washing->width < -0.02 || r.washing->length < -0.02) {
    advice.push_back(
        "It grew in the wash. Machine-washable wool and cotton do that when they dry hanging or pulled: dry it lying, as "
        "it falls, and measure again.");
  }
}

void on_mass(const SwatchCommand& command, const Reading& r, std::vector<std::string>& advice) {
  if (!r.loop_by_mass) return;
  const double ratio = *r.loop_by_mass / r.loop;
  if (std::abs(ratio - 1) <= fabric::loops_agree_within) {
    advice.push_back(
        "Gauge and mass agree on the loop length: the yarn is what its label says, and yarn quantities can be "
        "trusted.");
    return;
  }
  const double strands = ratio * command.strands;
  const double nearest = std::round(strands);
  std::string why =
      ratio > 1
          ? "the yarn is heavier than its label, the swatch was damp or felted, or more was weighed than was counted "
            "(`--whole` says all its stitches and rows)"
          : "the yarn is lighter than its label, fewer loops were weighed than counted, or the fabric is not relaxed "
            "yet: "
            "wash it once more";
  if (nearest >= 1 && nearest != command.strands && std::abs(strands / nearest - 1) < fabric::loops_agree_within)
    why += fmt::format(". It would fit {:.0f} strand{}", nearest, nearest == 1 ? "" : "s");
  advice.push_back(fmt::format("By its mass a loop is {:.2f} cm, by its gauge {:.2f}: they do not agree. Perhaps {}.",
                               *r.loop_by_mass, r.loop, why));
}

void on_fabric(const SwatchCommand& command, const Swatch& swatch, const Reading& r, std::vector<std::string>& advice) {
  if (!r.tightness || !fabric::plausible_ratio(r.ratio)) return;
  if (swatch.wanted) {
    const double k = fabric::tightness(*swatch.tex, fabric::loop_from_density(*swatch.wanted));
    const Tightness band = fabric::band_of(k);
    advice.push_back(fmt::format(
        "At the pattern's gauge this yarn has a tightness of {:.1f}: {}{}.", k, words_of(band),
        band == Tightness::sock ? "" : "; a sock has about 11 to 14.5, so that another yarn may be the mend"));
    return;
  }
  const Tightness band = fabric::band_of(*r.tightness);
  const std::string range =
      fmt::format("{:.0f} to {:.0f} sts and {:.0f} to {:.0f} rows to 10 cm, washed", r.sock_from->stitches * 10,
                  r.sock_to->stitches * 10, r.sock_from->rows * 10, r.sock_to->rows * 10);
  if (band == Tightness::sock) {
    advice.push_back(fmt::format("This is a fabric for socks. With this yarn such a one has about {}.", range));
    return;
  }
  const bool loose = band == Tightness::too_loose || band == Tightness::loose;
  std::string text = fmt::format("{}: {}. With this yarn a sock has about {}.",
                                 band == Tightness::too_loose   ? "Too loose for a sock, it will drape and wear through"
                                 : band == Tightness::too_tight ? "Too tight for a sock, stiff and hard on the needles"
                                 : loose                        ? "Rather loose for a sock"
                                                                : "Firm; good for heels and slippers",
                                 turn(command, !loose, false), range);
  advice.push_back(std::move(text));
}

void on_dial(const SwatchCommand& command, const Swatch& swatch, const Reading& r, std::vector<std::string>& advice) {
  if (!fabric::plausible_ratio(r.ratio)) return;  // said before; nothing follows from it
  if (!swatch.wanted) {
    const Gauge aim = r.off_machine ? *r.off_machine : r.off_machine_for(r.relaxed);
    advice.push_back(fmt::format("To get this gauge again, aim off the machine at {} to 10 cm{}.", both(aim),
                                 r.off_machine ? "" : " (an estimate for wool: measure a swatch off the machine too)"));
    return;
  }
  const Gauge aim = r.off_machine_for(*swatch.wanted);
  const double stitches = swatch.wanted->stitches / r.relaxed.stitches - 1,
               rows = swatch.wanted->rows / r.relaxed.rows - 1;
  const std::string off =
      fmt::format("Off the machine aim at {} to 10 cm{}.", both(aim), r.washing ? "" : " (an estimate for wool)");
  // A loop length has both in it: the density says whether to turn the dial, the ratio is the yarn's own.
  const double density = (1 + stitches) * (1 + rows) - 1;
  if (std::abs(stitches) <= near_enough && std::abs(rows) <= near_enough) {
    advice.push_back("This is the gauge that the pattern asks for. " + off);
  } else if (std::abs(density) <= 2 * near_enough) {
    advice.push_back(
        fmt::format("The dial is right, for stitches and rows together, but the pattern asks for {:.0f} sts and {:.0f} "
                    "rows to 10 cm and "
                    "the swatch has {}: no dial mends that. Put your own gauge in and let the rows be worked out anew.",
                    swatch.wanted->stitches * 10, swatch.wanted->rows * 10, both(r.relaxed)));
  } else {
    advice.push_back(
        fmt::format("The pattern asks for {:.0f} sts and {:.0f} rows to 10 cm, washed, and the swatch has {}: {}. {}",
                    swatch.wanted->stitches * 10, swatch.wanted->rows * 10, both(r.relaxed),
                    turn(command, density < 0, std::abs(density) < 0.05), off));
  }
}

}  // namespace

std::string words_of(Tightness band) {
  switch (band) {
    case Tightness::too_loose:
      return "too loose for a sock";
    case Tightness::loose:
      return "rather loose for a sock";
    case Tightness::sock:
      return "sock fabric";
    case Tightness::firm:
      return "firm";
    case Tightness::too_tight:
      break;
  }
  return "too tight for a sock";
}

std::string words_of(fabric::Impossible why, const Swatch& swatch) {
  switch (why) {
    case fabric::Impossible::nothing_measured:
      return "nothing was measured";
    case fabric::Impossible::gauge_out_of_reach:
      return "no machine knits such a gauge: so many stitches or rows do not lie on that width and height";
    case fabric::Impossible::shrunk:
      return fmt::format("a swatch does not shrink like that ({:.0f} % in width, {:.0f} % in height)",
                         (1 - swatch.washed->width / swatch.off_machine->width) * 100,
                         (1 - swatch.washed->height / swatch.off_machine->height) * 100);
    case fabric::Impossible::stretched:
      break;
  }
  return fmt::format("a swatch does not grow like that in the wash ({:.0f} % in width, {:.0f} % in height)",
                     (swatch.washed->width / swatch.off_machine->width - 1) * 100,
                     (swatch.washed->height / swatch.off_machine->height - 1) * 100);
}

std::vector<std::string> advice_on(const SwatchCommand& command, const Swatch& swatch, const Reading& r) {
  std::vector<std::string> advice;
  on_ratio(r, advice);
  on_washing(r, advice);
  on_dial(command, swatch, r, advice);
  on_fabric(command, swatch, r, advice);
  on_mass(command, r, advice);
  const fabric::Extent& extent = swatch.washed ? *swatch.washed : *swatch.off_machine;
  if (extent.width < 9.5 || extent.height < 9.5) {
    advice.push_back(fmt::format(
        "The field is small, {:.1f} by {:.1f} cm: half a stitch more or less is {:.0f} %. Mark 10 cm or more.",
        extent.width, extent.height, 50 / std::min(swatch.stitches, swatch.rows)));
  }
  advice.push_back(
      "Wash the socks as the swatch was washed. Wool felts in hot water and by rubbing, and does not come back.");
  return advice;
}

std::string wrapped(const std::string& text, std::size_t columns, std::size_t indent) {
  std::string out, line;
  std::size_t at = 0;
  while (at < text.size() && text[at] == ' ') line += text[at++];
  bool fresh = true;
  while (at < text.size()) {
    const std::size_t end = std::min(text.find_first_of(" \n", at), text.size());
    const std::string word = text.substr(at, end - at);
    if (!word.empty()) {
      if (!fresh && line.size() + 1 + word.size() > columns) {
        out += line + "\n";
        line = std::string(indent, ' ');
        fresh = true;
      }
      line += (fresh ? "" : " ") + word;
      fresh = false;
    }
    at = end + 1;
  }
  return out + line + "\n";
}

}  // namespace stk::driver
