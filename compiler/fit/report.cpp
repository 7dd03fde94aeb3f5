#include "compiler/fit/report.hpp"

namespace stk::fit {

EditionFit fit_of(const knit::Facts& facts, std::size_t edition, knit::SizeSet sizes, const std::vector<Cell>& people) {
  EditionFit fit;
  fit.edition = edition;
  const knit::EditionFacts& knitted = facts.editions[edition];
  for (std::size_t i = 0; i < facts.sizes.size(); ++i) {
    if (!knit::has(sizes, i)) continue;
    SizeFit one;
    one.size = i;
    one.leg = leg_of(knitted, i);
    if (one.leg) {
      one.fabric = passage_of_fabric(facts, *one.leg, i);
      one.edge = passage_of_edge(facts, *one.leg, i);
      one.top = top_of(facts, *one.leg, i);
    }
    one.sections = sections_of(knitted, i);
    fit.sizes.push_back(std::move(one));
  }
  if (!people.empty()) fit.coverage = coverage_of(facts, knitted, sizes, people);
  return fit;
}

}  // namespace stk::fit
