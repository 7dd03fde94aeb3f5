#include "compiler/knit/yarns.hpp"

namespace stk::knit {

using values::Quantity;
using values::Rational;

std::vector<YarnFacts> yarn_facts(const Knitter& knitter, const EditionSetup& setup, const grade::Evaluator& evaluator,
                                  const std::vector<Knitter::KnittedPiece>& pieces) {
  (void)pieces;
  std::vector<YarnFacts> facts;
  const grade::FabricGauge* gauge = evaluator.gauge("");
  for (std::size_t y = 0; y < setup.yarns.size(); ++y) {
    YarnFacts yarn;
    yarn.name = setup.yarns[y].name;
    yarn.description = setup.yarns[y].description;
    yarn.count = setup.yarns[y].count;
    yarn.loops = knitter.loops_of_yarn(y);
    yarn.length.resize(yarn.loops.size());
    yarn.mass.resize(yarn.loops.size());
    if (gauge && !setup.yarns[y].waste) {
      const auto loop = values::divide(Rational::of(21, 5), gauge->stitches.value);   // 4.2 / (sts per mm): mm
      for (std::size_t i = 0; i < yarn.loops.size() && loop; ++i) {
        const auto length = values::multiply(*loop, Rational(yarn.loops[i]));
        if (!length) continue;
        yarn.length[i] = Quantity{*length, values::dimensions::length};
        if (!yarn.count) continue;
        const auto mass = values::multiply(*length, yarn.count->value);
        if (mass) yarn.mass[i] = Quantity{*mass, values::dimensions::mass};
      }
    }
    facts.push_back(std::move(yarn));
  }
  return facts;
}

}  // namespace stk::knit
