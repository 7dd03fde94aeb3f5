#include "compiler/knit/measures.hpp"

#include <algorithm>
#include <string>

#include "compiler/values/format.hpp"

namespace stk::knit {
namespace {

using findings::Code;
using grade::size_bit;
using values::Quantity;

// "-1.96 %": with as many decimals as it takes to be seen outside the range.
std::string signed_percent(const values::Rational& ratio, const values::Rational& low, const values::Rational& high) {
  unsigned decimals = 1;
  for (std::int64_t one = 1000; decimals < 4; ++decimals, one *= 10) {   // one: how many shown steps make the whole
    const auto scaled = values::multiply(ratio, values::Rational(one));
    const auto shown = scaled ? values::divide(values::nearest(*scaled), values::Rational(one)) : scaled;
    if (!shown || *shown < low || *shown > high) break;
  }
  const std::string text = values::percent(ratio, decimals);
  return (ratio.is_negative() || ratio.is_zero() ? text : "+" + text) + " %";
}

// The largest step of rounding of which a multiple lies inside the range in every size: "a multiple of 4 sts"; nothing where
// not even single stitches or rows do.
std::string step_that_fits(const MeasureFacts& measure, const Amount& low, const Amount& high, const grade::FabricGauge* gauge) {
  if (!gauge || (measure.name != "around" && measure.name != "length")) return {};
  const bool around = measure.name == "around";
  const values::Rational& per_length = (around ? gauge->stitches : gauge->rows).value;
  const auto counted = [&](const Quantity& body, const Quantity& ease) -> values::Outcome<values::Rational> {
    const auto share = values::add(values::Rational(1), ease.value);
    const auto length = share ? values::multiply(body.value, *share) : share;
    return length ? values::multiply(*length, per_length) : length;
  };
  for (const std::int64_t step : {8, 6, 4, 2, 1}) {
    bool all = true, any = false;
    for (std::size_t i = 0; i < measure.body.size() && all; ++i) {
      if (!measure.body[i] || !low[i] || !high[i]) continue;
      const auto least = counted(*measure.body[i], *low[i]), most = counted(*measure.body[i], *high[i]);
      const auto lowest = least ? values::divide(*least, values::Rational(step)) : least;
      const auto highest = most ? values::divide(*most, values::Rational(step)) : most;
      any = true;
      all = lowest && highest && values::ceil(*lowest) <= values::floor(*highest);
    }
    if (all && any) return "a multiple of " + std::to_string(step) + (around ? " sts" : " rows");
  }
  return {};
}

// What the range of ease leaves a size: "14.9 to 16.6 cm (36 to 39 sts)". Stitches for what goes around, rows for
// a length; nothing where the range holds none.
std::string room(const Quantity& body, const values::Rational& low, const values::Rational& high, const std::string& measure,
                 const grade::FabricGauge* gauge) {
  const auto part = [&](const values::Rational& ease) {
    const auto share = values::add(values::Rational(1), ease);
    return share ? values::multiply(body.value, *share) : share;
  };
  const auto least = part(low), most = part(high);
  if (!least || !most) return {};
  std::string text = values::centimetres(*least) + " to " + values::centimetres(*most) + " cm";
  if (!gauge || (measure != "around" && measure != "length")) return text;
  const bool around = measure == "around";
  const values::Rational& per_length = (around ? gauge->stitches : gauge->rows).value;
  const auto fewest = values::multiply(*least, per_length), greatest = values::multiply(*most, per_length);
  if (!fewest || !greatest) return text;
  const auto from = values::ceil(*fewest).as_int64(), to = values::floor(*greatest).as_int64();
  if (!from || !to || *from > *to) return text;
  return text + " (" + (*from == *to ? "" : std::to_string(*from) + " to ") + std::to_string(*to) + (around ? " sts)" : " rows)");
}

const names::Measure* body_of(const names::Program& program, const std::string& measure) {
  for (const names::Measure& row : program.sizes.measures)
    if (row.name == "foot_" + measure || row.name == measure) return &row;
  return nullptr;
}

// Why an ease cannot be held against the body: there is no row for it, or the row is no length. Nothing where it can, and
// where the row has been reported already.
bool report_no_body(const names::Program& program, grade::Evaluator& evaluator, const syntax::EaseRange& range, text::FileId file,
                    findings::Findings& findings) {
  const std::string& measure = range.measure.text;
  const names::Measure* row = body_of(program, measure);
  if (!row) {
    findings.report<Code::G11>(range.measure.span, measure).label("the sizes have no row `foot_{0}` or `{0}`", measure)
        .help("a row of the sizes table tells what the body measures: `foot_{} 21 23 25 cm`, or one taken `from feet`", measure);
    return true;
  }
  const auto value = evaluator.pattern_value(file, row->name);
  if (!value) return false;
  const Quantity* other = nullptr;
  for (std::size_t i = 0; i < value->size(); ++i)
    if (const Quantity* q = value->quantity(i)) {
      if (q->dimension == values::dimensions::length) return false;
      other = q;
    }
  if (!other) return false;
  findings.report<Code::G11>(range.measure.span, measure).label(row->span, "this is {}, not a length", values::describe(other->dimension))
      .help("its unit stands at the end of the row, such as cm");
  return true;
}

}  // namespace

std::vector<MeasureFacts> measure_facts(const names::Program& program, grade::Evaluator& evaluator, findings::Findings& findings) {
  std::vector<MeasureFacts> facts;
  const std::size_t sizes = evaluator.sizes();
  const grade::SizeSet everywhere = grade::all_sizes(sizes);
  for (const names::Placed<syntax::Finished>& placed : program.finished) {
    if (!placed.node->value) continue;
    grade::Frame frame{nullptr, placed.span.file, {}};
    MeasureFacts measure;
    measure.name = placed.node->measure.text;
    measure.where = placed.node->measure.span;
    measure.finished = evaluator.quantity(*placed.node->value, values::dimensions::length, frame, everywhere);
    measure.body.resize(sizes);
    measure.ease.resize(sizes);
    if (const names::Measure* body = body_of(program, measure.name))
      if (const auto value = evaluator.pattern_value(placed.span.file, body->name))
        for (std::size_t i = 0; i < sizes; ++i)
          if (const Quantity* q = value->quantity(i); q && q->dimension == values::dimensions::length) {
            measure.body[i] = *q;
            if (!measure.finished[i] || q->value.is_zero()) continue;
            const auto over = values::subtract(*measure.finished[i], *q);
            const auto ratio = over ? values::divide(*over, *q) : over;
            if (ratio) measure.ease[i] = *ratio;
          }
    facts.push_back(std::move(measure));
  }
  for (const names::Placed<syntax::Ease>& placed : program.eases) {
    grade::Frame frame{nullptr, placed.span.file, {}};
    for (const syntax::EaseRange& range : placed.node->ranges) {
      if (!range.from || !range.to) continue;
      const auto found = std::find_if(facts.begin(), facts.end(), [&](const MeasureFacts& m) { return m.name == range.measure.text; });
      if (found == facts.end()) {
        findings.report<Code::G22>(range.measure.span, range.measure.text).label("no `finished {}` is stated", range.measure.text)
            .help("`finished {} = …` says which rows or stitches make it: `finished around = width(body)`, `finished length = height(foot + 2 * heel)`", range.measure.text);
        continue;
      }
      if (report_no_body(program, evaluator, range, placed.span.file, findings)) continue;
      const auto low = evaluator.quantity(*range.from, values::dimensions::plain, frame, everywhere);
      const auto high = evaluator.quantity(*range.to, values::dimensions::plain, frame, everywhere);
      found->ease_declared = true;
      found->ease_from = low;
      found->ease_to = high;
      grade::SizeSet backwards = 0;
      for (std::size_t i = 0; i < sizes; ++i)
        if (low[i] && high[i] && low[i]->value > high[i]->value) backwards |= size_bit(i);
      if (backwards) {
        const auto at = static_cast<std::size_t>(std::countr_zero(backwards));
        findings.report<Code::G26>(range.span, range.measure.text)
            .label("from {} to {} %: nothing lies between", values::percent(low[at]->value), values::percent(high[at]->value))
            .help("the smaller number first: a sock smaller than the foot has a negative ease, `-15% to -4%`").at(evaluator.edition(), backwards);
        continue;
      }
      grade::SizeSet outside = 0;
      std::string list;
      int shown = 0;
      for (std::size_t i = 0; i < sizes; ++i) {
        if (!found->ease[i] || !low[i] || !high[i]) continue;
        const values::Rational& ease = found->ease[i]->value;
        if (ease >= low[i]->value && ease <= high[i]->value) continue;
        outside |= size_bit(i);
        if (++shown <= 4)
          list += (list.empty() ? "" : "; ") + program.sizes.columns[i].printed + " " + values::centimetres(found->finished[i]->value) + " cm, " + signed_percent(ease, low[i]->value, high[i]->value);
      }
      if (!outside) continue;
      const auto first = static_cast<std::size_t>(std::countr_zero(outside));
      const auto* finished = [&]() -> const names::Placed<syntax::Finished>* {
        for (const auto& f : program.finished)
          if (f.node->measure.text == range.measure.text) return &f;
        return nullptr;
      }();
      auto builder = findings.report<Code::G20>(range.span, range.measure.text);
      builder.label("{}{} (asked {} to {} %)", list, shown > 4 ? " …" : "", values::percent(low[first]->value), values::percent(high[first]->value))
          .at(evaluator.edition(), outside);
      if (finished) {
        builder.label(finished->node->measure.span, "the finished {} is worked out here", range.measure.text);
        grade::Frame at{nullptr, finished->span.file, {}};
        for (const std::string& part : evaluator.parts(*finished->node->value, at, first))
          builder.note("{}{}", part, program.sizes.columns[first].printed.empty() ? std::string() : " in " + program.sizes.columns[first].printed);
      }
      if (found->body[first]) {
        const std::string fits = room(*found->body[first], low[first]->value, high[first]->value, range.measure.text, evaluator.gauge(""));
        const std::string& size = program.sizes.columns[first].printed;
        if (!fits.empty()) builder.note("{}{} would lie inside", size.empty() ? "" : "in " + size + " ", fits);
      }
      const std::string step = sizes > 1 ? step_that_fits(*found, low, high, evaluator.gauge("")) : std::string();
      if (!step.empty()) builder.note("in every size {} would lie inside", step);
      builder.help("another step of rounding, another share of the foot, or a wider range of ease for these sizes");
    }
  }
  return facts;
}

}  // namespace stk::knit
