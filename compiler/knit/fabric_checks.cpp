#include "compiler/knit/fabric_checks.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "compiler/fabric/loops.hpp"
#include "compiler/fabric/yarn.hpp"
#include "compiler/values/format.hpp"

namespace stk::knit {
namespace {

using findings::Code;

std::string percent_of(const values::Quantity& margin) {
  return values::percent(margin.value) + " %";
}

// Metres to 100 g, in fives: nobody shops closer than that.
int metres_to_100_g(double tex) {
  return static_cast<int>(100'000 / tex / 5 + 0.5) * 5;
}

// As a source has it: "2 (2, 3, 3)".
std::string graded(const Amount& amounts) {
  std::vector<std::string> each;
  for (const auto& amount : amounts) each.push_back(amount ? values::number_text(amount->value) : "-");
  if (std::all_of(each.begin(), each.end(), [&](const std::string& one) { return one == each.front(); }))
    return each.front();
  std::string text = each.front() + " (";
  for (std::size_t i = 1; i < each.size(); ++i) text += (i > 1 ? ", " : "") + each[i];
  return text + ")";
}

}  // namespace

void check_fabric(const EditionSetup& setup, const grade::Evaluator& evaluator, findings::Findings& findings) {
  const grade::FabricGauge* gauge = evaluator.gauge("");
  if (!gauge) return;
  const fabric::Gauge washed = fabric::measured(gauge->stitches, gauge->rows);
  if (!(washed.stitches > 0 && washed.rows > 0)) return;
  const grade::SizeSet everywhere = grade::all_sizes(evaluator.sizes());
  const double ratio = fabric::row_ratio(washed);
  if (!fabric::plausible_ratio(ratio)) {
    findings.report<Code::T01>(gauge->where)
        .label("{:.2f} rows to a stitch; plain fabric has about 1.31, and swatches show {:.2f} to {:.1f}", ratio,
               fabric::lowest_row_ratio, fabric::highest_row_ratio)
        .help("count stitches and rows again on a washed swatch, laid flat and not stretched")
        .at(setup.index, everywhere);
    return;  // what would be worked out from it is worth no more
  }
  for (const SetupYarn& yarn : setup.yarns) {
    if (yarn.name != "main" || !yarn.count) continue;
    const double tex = fabric::tex_of(*yarn.count), loop = fabric::loop_from_density(washed),
                 k = fabric::tightness(tex, loop);
    const fabric::Tightness band = fabric::band_of(k);
    if (band != fabric::Tightness::too_loose && band != fabric::Tightness::too_tight) continue;
    const bool loose = band == fabric::Tightness::too_loose;
    const auto tex_for = [&](double wanted) { return wanted * wanted * loop * loop; };
    findings.report<Code::T02>(gauge->where, loose ? "loose" : "tight")
        .label("with this yarn the tightness is {:.1f}; a sock has about {:.0f} to {:.1f}", k, fabric::sock_from,
               fabric::sock_to)
        .label(yarn.count_span, "about {} m to 100 g", metres_to_100_g(tex))
        .help("this gauge suits a yarn of {} to {} m to 100 g; this yarn suits about {:.0f} to {:.0f} sts to 10 cm",
              metres_to_100_g(tex_for(fabric::sock_to)), metres_to_100_g(tex_for(fabric::sock_from)),
              washed.stitches * 10 * fabric::sock_from / k, washed.stitches * 10 * fabric::sock_to / k)
        .at(setup.index, everywhere);
  }
}

void check_stock(const names::Program& program, const EditionSetup& setup, const std::vector<YarnFacts>& yarns,
                 grade::SizeSet known, findings::Findings& findings) {
  for (std::size_t y = 0; y < yarns.size(); ++y) {
    const YarnFacts& yarn = yarns[y];
    grade::SizeSet short_of = 0;
    std::string list;
    int shown = 0;
    for (std::size_t i = 0; i < yarn.balls_stated.size() && i < yarn.balls.size(); ++i) {
      if (!grade::has_size(known, i) || !yarn.balls_stated[i] || !yarn.balls[i] ||
          yarn.balls[i]->value <= yarn.balls_stated[i]->value)
        continue;
      short_of |= grade::size_bit(i);
      if (++shown > 4) continue;
      const std::string& size = program.sizes.columns.empty() ? std::string() : program.sizes.columns[i].printed;
      list += fmt::format("{}{}{} g are needed, {} are stated", list.empty() ? "" : "; ",
                          size.empty() ? "" : size + ": ", values::number_text(values::ceil(yarn.mass[i]->value)),
                          values::number_text(*values::multiply(yarn.balls_stated[i]->value, yarn.ball->value)));
    }
    if (!short_of) continue;
    const std::string enough = graded(yarn.balls);
    findings.report<Code::T03>(setup.yarns[y].stock_span, yarn.name)
        .label("{}{}", list, shown > 4 ? " …" : "")
        .note("loops, tails and seams of all that is made, and {} over", percent_of(yarn.margin))
        .help("enough is `{}{} of {}`", enough, enough == "1" ? " ball" : " balls", values::quantity_text(*yarn.ball))
        .at(setup.index, short_of);
  }
}

}  // namespace stk::knit
