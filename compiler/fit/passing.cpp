#include "compiler/fit/passing.hpp"

#include <algorithm>

namespace stk::fit {
namespace {

// Stitches that make this length, a part of one counted whole.
std::int64_t stitches_for(const Maybe& length, const Stretch& stretch, bool up) {
  const Maybe exact = times(length, stretch.sts_per_mm);
  if (!exact) return stretch.stitches;
  return (up ? values::ceil(*exact) : values::floor(*exact)).as_int64().value_or(stretch.stitches);
}

std::optional<Passage> passage(const Stretch& stretch, const Rational& heel, const Rational& limit) {
  const Maybe width = stretch.width();
  const Maybe opening = over(heel, width);
  if (!opening) return std::nullopt;
  Passage passage{stretch, *width, heel, *opening, limit, 0};
  if (!passage.passes()) {
    passage.stitches_missing = stitches_for(over(heel, limit), stretch, true) - stretch.stitches;
  }
  return passage;
}

}  // namespace

std::optional<Passage> passage_of_fabric(const knit::Facts& facts, const Leg& leg, std::size_t size) {
  const Maybe heel = body_measure(facts, "heel_around", size);
  if (!heel) return std::nullopt;
  std::optional<Passage> worst;
  Maybe worst_share;
  for (const Stretch& stretch : leg.stretches) {
    const std::optional<Passage> here = passage(stretch, *heel, opening_limit(stretch.fabric));
    const Maybe share = here ? over(here->opening, here->limit) : std::nullopt;
    if (!share || (worst_share && *share <= *worst_share)) continue;
    worst = here;
    worst_share = share;
  }
  return worst;
}

std::optional<Passage> passage_of_edge(const knit::Facts& facts, const Leg& leg, std::size_t size) {
  const Maybe heel = body_measure(facts, "heel_around", size);
  if (!heel || leg.edge.yields || leg.stretches.empty()) return std::nullopt;
  return passage(leg.stretches.front(), *heel, edge_limit);
}

std::optional<Top> top_of(const knit::Facts& facts, const Leg& leg, std::size_t size) {
  const Stretch* most = nullptr;
  for (const Stretch& stretch : leg.stretches) {
    if (stretch.section != leg.stretches.front().section) break;
    if (!most || stretch.rows > most->rows) most = &stretch;
  }
  if (!most) return std::nullopt;
  const Maybe width = most->width();
  if (!width) return std::nullopt;
  Top top{*most,        *width,
          "ankle",      body_measure(facts, "ankle_around", size),
          std::nullopt, usual_ease_of_top(most->fabric),
          leg.drawn_in, 0};
  const Maybe calf = body_measure(facts, "calf_around", size);
  const Maybe reach = times(body_measure(facts, "foot_length", size), calf_leg);
  const Maybe height = leg.height();
  if (calf && (!top.body || (reach && height && *height >= *reach))) {
    top.body = calf;
    top.against = "calf";
  }
  top.ease = ease_of(*width, top.body);
  if (top.tight()) {
    top.stitches_off = stitches_for(times(top.body, plus(Rational(1), top.usual.from)), *most, true) - most->stitches;
  } else if (top.loose()) {
    top.stitches_off = stitches_for(times(top.body, plus(Rational(1), top.usual.to)), *most, false) - most->stitches;
  }
  return top;
}

namespace {

// The fabric of the most rows.
Fabric main_fabric(const Leg& leg) {
  std::int64_t rows[3] = {0, 0, 0};
  for (const Stretch& stretch : leg.stretches) rows[static_cast<std::size_t>(stretch.fabric)] += stretch.rows;
  return static_cast<Fabric>(std::max_element(rows, rows + 3) - rows);
}

}  // namespace

std::optional<FootOff> foot_off(const knit::EditionFacts& edition, const knit::MeasureFacts& measure,
                                const std::optional<Leg>& leg, std::size_t size) {
  const bool around = measure.name == "around";
  if (!around && measure.name != "length") return std::nullopt;
  const Maybe sock = value_at(measure.finished, size), foot = value_at(measure.body, size), ease = ease_of(sock, foot);
  if (!ease) return std::nullopt;
  Range asked =
      around ? usual_ease_around(leg ? main_fabric(*leg) : Fabric::plain) : Range{usual_length_from, usual_length_to};
  if (measure.ease_declared) {
    const Maybe from = value_at(measure.ease_from, size), to = value_at(measure.ease_to, size);
    if (!from || !to) return std::nullopt;
    asked = {*from, *to};
  }
  FootOff off{*sock, *foot, *ease, asked, 0, around ? "st" : "row", around ? "sts" : "rows"};
  if (!off.off()) return off;
  const bool small = *ease < asked.from;
  Maybe by = minus(times(foot, plus(Rational(1), small ? asked.from : asked.to)), sock);
  for (const knit::GaugeFacts& gauge : edition.gauges) {
    if (gauge.fabric.empty()) by = times(by, (around ? gauge.stitches : gauge.rows).value);
  }
  if (by) off.missing = (small ? values::ceil(*by) : values::floor(*by)).as_int64().value_or(0);
  return off;
}

}  // namespace stk::fit
