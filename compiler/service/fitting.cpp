// Knitted record -> report of fit.
#include <bit>

#include "compiler/fit/report.hpp"
#include "compiler/service/session.hpp"
#include "stdlib/library.hpp"

namespace stk::service {
namespace {

std::vector<fit::Cell> surveyed() {
  for (const text::EmbeddedFile& table : stdlib::people()) {
    if (table.name == "foot_survey_joint") return fit::read_people(table.text);
  }
  return {};
}

}  // namespace

Fitted Session::fit(const Checked& checked, const Options& options, const FitOptions& fit_options) const {
  if (!checked.facts || checked.facts->editions.empty() || !checked.measurable) {
    return Refusal{"there is nothing that was knitted without a fault, so nothing can be measured", {}};
  }
  const knit::Facts& facts = *checked.facts;
  knit::SizeSet sizes = ~knit::SizeSet{0};
  for (std::size_t i = 0; options.size && i < facts.sizes.size(); ++i) {
    if (facts.sizes[i].name == *options.size) sizes = knit::SizeSet{1} << i;
  }
  if (facts.to_measure) sizes = knit::SizeSet{1} << facts.to_measure->size;
  // Whom a sock fits that was made for one person is no question.
  const std::vector<fit::Cell> people = facts.to_measure ? std::vector<fit::Cell>() : surveyed();
  std::vector<fit::EditionFit> fits;
  for (std::size_t edition = 0; edition < facts.editions.size(); ++edition) {
    if (options.edition && facts.editions[edition].name != *options.edition) continue;
    fits.push_back(fit::fit_of(facts, edition, sizes, people));
  }
  FitOutput output;
  output.report = fit_options.json ? fit::report_json(facts, fits) : fit::report_text(facts, fits);
  if (!fit_options.plot) return output;
  if (fits.size() != 1) {
    return Refusal{"a picture shows one edition, and this pattern has several", "`--edition` says which"};
  }
  if (fits.front().coverage.boxes.empty()) {
    return Refusal{facts.to_measure ? "a sock made for one person has no people to be drawn"
                                    : "without `finished around` and `finished length` there is nothing to draw",
                   {}};
  }
  output.plot = fit::coverage_svg(facts, fits.front(), people);
  return output;
}

}  // namespace stk::service
