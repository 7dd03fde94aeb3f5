#include "compiler/knit/yarns.hpp"

#include <algorithm>

#include "compiler/fabric/loops.hpp"

namespace stk::knit {
namespace {

using values::Quantity;
using values::Rational;

const Rational unsaid_tail = 200;  // mm

// A sum of mm that is lost as soon as one part of it cannot be worked out.
class Sum {
 public:
  void add(const Rational& times, const Rational& length) {
    if (!value_) return;
    const auto part = values::multiply(times, length);
    const auto sum = part ? values::add(*value_, *part) : part;
    value_ = sum ? std::optional(*sum) : std::nullopt;
  }
  std::optional<Quantity> length() const {
    return value_ ? std::optional(Quantity{*value_, values::dimensions::length}) : std::nullopt;
  }

 private:
  std::optional<Rational> value_ = Rational(0);
};

struct Lengths {
  const grade::FabricGauge& main;
  const std::vector<grade::FabricGauge>& gauges;
  const std::vector<Knitter::KnittedPiece>& pieces;

  Rational loop(std::int32_t tension_hundredths) const {
    if (tension_hundredths != 0)
      for (const grade::FabricGauge& gauge : gauges) {
        const fabric::Gauge measured = fabric::measured(gauge.stitches, gauge.rows);
        if (!gauge.fabric.empty() && gauge.tension_hundredths == tension_hundredths &&
            fabric::plausible_ratio(fabric::row_ratio(measured)))
          return fabric::loop_length(measured);
      }
    return fabric::loop_length(fabric::measured(main.stitches, main.rows));
  }
  Rational made(std::uint32_t piece) const { return piece < pieces.size() ? pieces[piece].make : 1; }
};

std::optional<Quantity> in_fabric(const YarnUse& used, std::size_t yarn, const Lengths& lengths) {
  Sum sum;
  for (const YarnUse::Loops& loops : used.loops())
    if (const auto times = values::multiply(Rational(loops.of_yarn[yarn]), lengths.made(loops.piece)))
      sum.add(*times, lengths.loop(loops.tension_hundredths));
  const auto stitch = values::divide(Rational(1), lengths.main.stitches.value);
  for (const YarnUse::Passed& passed : used.passed())
    if (const auto times = values::multiply(Rational(passed.stitches), lengths.made(passed.piece));
        times && stitch && passed.yarn == yarn)
      sum.add(*times, *stitch);
  return sum.length();
}

std::optional<Quantity> ends_and_seams(const Bench& bench, std::size_t yarn, const Lengths& lengths) {
  Sum sum;
  const auto millimetres = [](std::int64_t micrometres) {
    const auto length = Rational::fraction(micrometres, 1000);
    return length ? *length : Rational(0);
  };
  for (const runtime::YarnEnd& end : bench.fabric().ends())
    if (end.yarn == bench.yarns[yarn])
      sum.add(lengths.made(end.piece.value),
              end.tail_micrometres > 0 ? millimetres(end.tail_micrometres) : unsaid_tail);
  for (const YarnUse::Sewn& seam : bench.used.seams())
    if (seam.yarn == yarn) sum.add(lengths.made(seam.piece), millimetres(seam.micrometres));
  return sum.length();
}

std::optional<Quantity> with_margin(const std::optional<Quantity>& a, const std::optional<Quantity>& b,
                                    const Quantity& margin) {
  if (!a || !b) return std::nullopt;
  const auto sum = values::add(*a, *b);
  const auto factor = values::add(Rational(1), margin.value);
  const auto more =
      sum && factor ? values::multiply(sum->value, *factor) : values::Outcome<Rational>(values::Reason::out_of_range);
  return more ? std::optional(Quantity{*more, values::dimensions::length}) : std::nullopt;
}

void weigh(YarnFacts& yarn) {
  yarn.mass.resize(yarn.length.size());
  if (!yarn.count) return;
  if (yarn.ball) yarn.balls.resize(yarn.length.size());
  for (std::size_t i = 0; i < yarn.length.size(); ++i) {
    if (!yarn.length[i]) continue;
    const auto mass = values::multiply(*yarn.length[i], *yarn.count);
    if (!mass) continue;
    yarn.mass[i] = *mass;
    const auto balls = yarn.ball ? values::divide(mass->value, yarn.ball->value)
                                 : values::Outcome<Rational>(values::Reason::out_of_range);
    if (balls) yarn.balls[i] = Quantity{values::ceil(*balls), values::dimensions::plain};
  }
}

}  // namespace

std::vector<YarnFacts> yarn_facts(const Knitter& knitter, const EditionSetup& setup, const grade::Evaluator& evaluator,
                                  const std::vector<Knitter::KnittedPiece>& pieces) {
  std::vector<YarnFacts> facts;
  const grade::FabricGauge* gauge = evaluator.gauge("");
  for (std::size_t y = 0; y < setup.yarns.size(); ++y) {
    const SetupYarn& stated = setup.yarns[y];
    YarnFacts yarn;
    yarn.name = stated.name;
    yarn.description = stated.description;
    yarn.waste = stated.waste;
    yarn.count = stated.count;
    yarn.label_length = stated.label_length;
    yarn.label_mass = stated.label_mass;
    yarn.margin = stated.margin;
    yarn.ball = stated.ball;
    yarn.balls_stated = stated.balls;
    yarn.loops = knitter.loops_of_yarn(y);
    const std::size_t sizes = yarn.loops.size();
    yarn.in_fabric.resize(sizes);
    yarn.ends.resize(sizes);
    yarn.length.resize(sizes);
    for (std::size_t i = 0; i < sizes && gauge; ++i) {
      const Bench& bench = *knitter.benches()[i];
      const Lengths lengths{*gauge, evaluator.gauges(), pieces};
      yarn.in_fabric[i] = in_fabric(bench.used, y, lengths);
      yarn.ends[i] = ends_and_seams(bench, y, lengths);
      // A yarn that a size has no use for is not asked of it.
      if (yarn.in_fabric[i] && yarn.in_fabric[i]->value.is_zero() && yarn.ends[i] && yarn.ends[i]->value.is_zero())
        continue;
      yarn.length[i] = with_margin(yarn.in_fabric[i], yarn.ends[i], yarn.margin);
    }
    weigh(yarn);
    facts.push_back(std::move(yarn));
  }
  return facts;
}

}  // namespace stk::knit
