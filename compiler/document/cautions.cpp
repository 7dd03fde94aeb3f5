// Where work, or wear, can hurt. The pattern's own cautions come first; the general ones are few, each is said once,
// and all of them defer to local rules and, for legs that need one, to a clinician.
#include <algorithm>

#include "compiler/document/matter.hpp"

namespace stk::document {

namespace {

bool any_act(const std::vector<knit::Step>& steps, knit::Act act) {
  return std::any_of(steps.begin(), steps.end(), [act](const knit::Step& step) {
    return (step.kind == knit::Step::Kind::operation && step.operation.act == act) || any_act(step.steps, act) ||
           std::any_of(step.turns.begin(), step.turns.end(),
                       [act](const std::vector<knit::Step>& turn) { return any_act(turn, act); });
  });
}

// The shortest foot among the printed sizes, in mm, where the pattern says it.
std::optional<values::Rational> shortest_foot(const Printing& printing) {
  std::optional<values::Rational> shortest;
  const knit::Facts& facts = printing.facts;
  for (std::size_t row = 0; row < facts.body_measures.size() && row < facts.body_measure_names.size(); ++row) {
    if (facts.body_measure_names[row] != "foot_length") continue;
    for (std::size_t i = 0; i < facts.body_measures[row].size(); ++i) {
      const auto& measure = facts.body_measures[row][i];
      if (!knit::has(printing.printed, i) || !measure || measure->dimension != values::dimensions::length) continue;
      if (!shortest || measure->value < *shortest) shortest = measure->value;
    }
  }
  return shortest;
}

}  // namespace

std::vector<std::string> cautions(const Printing& printing) {
  std::vector<std::string> texts = printing.facts.pattern.cautions;
  texts.push_back("Latch needles and a moving carriage pinch and stab: keep fingers, hair and sleeves off the bed.");
  const std::optional<values::Rational> foot = shortest_foot(printing);
  constexpr std::int64_t infant_mm = 130, child_mm = 225;  // feet of about two, and of about fourteen years
  if (foot && *foot <= values::Rational(infant_mm)) {
    texts.push_back(
        "For infants leave no loose end and no open loop inside: a thread or a hair can tie a small toe. Trim the "
        "ends, turn "
        "the sock and look.");
  }
  const bool cord = any_act(printing.edition.finish, knit::Act::thread_through);
  if (cord && (!foot || *foot <= values::Rational(child_mm))) {
    texts.push_back("Cords on children's wear can catch, and many countries restrict them.");
  }
  texts.push_back("Plain knitted soles slip on smooth floors.");
  texts.push_back(
      "A tight top is no small thing with diabetes or poor circulation: ask a clinician before you knit for such a "
      "leg. "
      "Local rules, and the advice of those licensed to give it, come before this pattern.");
  return texts;
}

}  // namespace stk::document
