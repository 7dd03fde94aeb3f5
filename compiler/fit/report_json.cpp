#include <nlohmann/json.hpp>

#include "compiler/fit/report.hpp"
#include "compiler/fit/verdicts.hpp"
#include "compiler/fit/words.hpp"

namespace stk::fit {
namespace {

using Json = nlohmann::ordered_json;

// Four decimal places at most, as a number: the same bytes on every computer.
Json number(const Maybe& value) {
  if (!value) return nullptr;
  return Json::parse(values::number_text(*value, 4));
}
Json number(const Rational& value) {
  return number(Maybe(value));
}

Json passage_json(const std::optional<Passage>& passage) {
  if (!passage) return nullptr;
  return {{"section", passage->stretch.section},
          {"fabric", fabric_word(passage->stretch.fabric)},
          {"stitches", passage->stretch.stitches},
          {"width_mm", number(passage->width)},
          {"heel_around_mm", number(passage->heel)},
          {"opening", number(passage->opening)},
          {"limit", number(passage->limit)},
          {"passes", passage->passes()},
          {"stitches_missing", passage->stitches_missing}};
}

Json top_json(const std::optional<Top>& top) {
  if (!top) return nullptr;
  return {{"section", top->stretch.section},
          {"fabric", fabric_word(top->stretch.fabric)},
          {"stitches", top->stretch.stitches},
          {"width_mm", number(top->width)},
          {"against", top->body ? Json(top->against) : Json(nullptr)},
          {"body_mm", number(top->body)},
          {"ease", number(top->ease)},
          {"usual_from", number(top->usual.from)},
          {"usual_to", number(top->usual.to)},
          {"verdict", !top->ease ? Json(nullptr)
                                 : Json(top->tight()   ? "tight"
                                        : top->loose() ? "loose"
                                                       : "usual")},
          {"stitches_off", top->stitches_off}};
}

Json size_json(const knit::Facts& facts, const knit::EditionFacts& edition, const SizeFit& fit) {
  Json measures = Json::array();
  for (const knit::MeasureFacts& measure : edition.measures) {
    const Maybe sock = value_at(measure.finished, fit.size), body = value_at(measure.body, fit.size);
    measures.push_back({{"name", measure.name},
                        {"finished_mm", number(sock)},
                        {"body_mm", number(body)},
                        {"ease", number(ease_of(sock, body))},
                        {"ease_from", number(value_at(measure.ease_from, fit.size))},
                        {"ease_to", number(value_at(measure.ease_to, fit.size))}});
  }
  Json sections = Json::array();
  for (const SectionMeasure& section : fit.sections) {
    sections.push_back({{"piece", section.piece},
                        {"section", section.section},
                        {"fewest_stitches", section.fewest},
                        {"most_stitches", section.most},
                        {"rows", section.rows},
                        {"short_rows", section.short_rows},
                        {"in_rounds", section.tube},
                        {"narrowest_mm", number(section.narrowest)},
                        {"widest_mm", number(section.widest)},
                        {"length_mm", number(section.height)}});
  }
  return {{"size", facts.sizes[fit.size].name},
          {"printed", printed_name(facts, fit.size)},
          {"measures", measures},
          {"heel", passage_json(fit.fabric)},
          {"edge", passage_json(fit.edge)},
          {"top", top_json(fit.top)},
          {"sections", sections}};
}

Json shares_json(const Shares& shares) {
  return {{"people", shares.people},
          {"fitted", shares.fitted},
          {"share", number(over(Rational(shares.fitted), Rational(shares.people)))},
          {"no_length", shares.no_length},
          {"no_girth", shares.no_girth},
          {"not_together", shares.not_together}};
}

Json coverage_json(const knit::Facts& facts, const Coverage& coverage) {
  if (coverage.boxes.empty()) return nullptr;
  Json boxes = Json::array(), gaps = Json::array();
  for (const Box& box : coverage.boxes) {
    boxes.push_back({{"size", facts.sizes[box.size].name},
                     {"length_from_mm", number(box.length_from)},
                     {"length_to_mm", number(box.length_to)},
                     {"girth_from_mm", number(box.girth_from)},
                     {"girth_to_mm", number(box.girth_to)}});
  }
  for (const Gap& gap : coverage.gaps) {
    gaps.push_back({{"who", gap.women ? "women" : "men"},
                    {"length_from_mm", gap.length},
                    {"length_to_mm", gap.length + gap_mm},
                    {"girth_from_mm", gap.girth},
                    {"girth_to_mm", gap.girth + gap_mm},
                    {"people", gap.people}});
  }
  return {{"length_declared", coverage.length_declared},
          {"girth_declared", coverage.girth_declared},
          {"women", shares_json(coverage.women)},
          {"men", shares_json(coverage.men)},
          {"feet_fitted", boxes},
          {"gaps", gaps}};
}

}  // namespace

std::string report_json(const knit::Facts& facts, const std::vector<EditionFit>& editions) {
  Json list = Json::array();
  for (const EditionFit& fit : editions) {
    const knit::EditionFacts& edition = facts.editions[fit.edition];
    Json sizes = Json::array();
    for (const SizeFit& one : fit.sizes) sizes.push_back(size_json(facts, edition, one));
    list.push_back({{"edition", edition.name},
                    {"sizes", sizes},
                    {"verdicts", verdicts(facts, fit)},
                    {"coverage", coverage_json(facts, fit.coverage)}});
  }
  return Json{{"pattern", facts.pattern.title}, {"editions", list}}.dump(2, ' ', false,
                                                                         Json::error_handler_t::replace) +
         "\n";
}

}  // namespace stk::fit
