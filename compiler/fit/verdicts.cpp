#include "compiler/fit/verdicts.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>

#include "compiler/fit/grading.hpp"
#include "compiler/fit/words.hpp"

namespace stk::fit {
namespace {

const knit::EditionFacts& edition_of(const knit::Facts& facts, const EditionFit& fit) {
  return facts.editions[fit.edition];
}

std::string every(const EditionFit& fit) {
  return fit.sizes.size() == 1 ? "this size" : "every size";
}

// Around, length, and whatever else is declared: against the declared ease.
void declared(const knit::Facts& facts, const EditionFit& fit, const knit::MeasureFacts& measure,
              std::vector<std::string>& said) {
  std::vector<std::string> outside;
  Maybe least, most;
  std::size_t known = 0;
  for (const SizeFit& one : fit.sizes) {
    const Maybe ease = ease_of(value_at(measure.finished, one.size), value_at(measure.body, one.size));
    if (!ease) continue;
    ++known;
    if (!least || *ease < *least) least = ease;
    if (!most || *ease > *most) most = ease;
    const Maybe from = value_at(measure.ease_from, one.size), to = value_at(measure.ease_to, one.size);
    if (!from || !to || (*ease >= *from && *ease <= *to)) continue;
    const std::optional<FootOff> foot = foot_off(edition_of(facts, fit), measure, one.leg, one.size);
    outside.push_back(fmt::format(
        "{} ({}, asked {}{})", printed_name(facts, one.size), signed_percent(*ease), range_words(*from, *to),
        foot ? "; " + missing_words(foot->missing, foot->one, foot->many) + " at least" : ""));
  }
  if (known == 0) return;
  const std::string span = *least == *most ? signed_percent(*least) : range_words(*least, *most);
  std::string what = measure_words(measure.name);
  what[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(what[0])));
  if (!measure.ease_declared) {
    std::vector<std::string> off;
    std::string usual;
    for (const SizeFit& one : fit.sizes) {
      const std::optional<FootOff> foot = foot_off(edition_of(facts, fit), measure, one.leg, one.size);
      if (!foot) continue;
      usual = range_words(foot->asked.from, foot->asked.to);
      if (!foot->off()) continue;
      off.push_back(fmt::format("{} ({}; {} at least)", printed_name(facts, one.size), signed_percent(foot->ease),
                                missing_words(foot->missing, foot->one, foot->many)));
    }
    if (!off.empty()) {
      said.push_back(fmt::format("{}: not the usual {} of ease in {}, and the pattern declares no other.", what, usual,
                                 listed(off)));
    } else {
      said.push_back(fmt::format("{}: {} of ease{}; the pattern declares no range for it.", what, span,
                                 usual.empty() ? "" : ", as is usual"));
    }
  } else if (outside.empty()) {
    said.push_back(fmt::format("{}: {} of ease; {} lies within the range declared.", what, span, every(fit)));
  } else {
    said.push_back(fmt::format("{}: outside the range declared in {}.", what, listed(outside)));
  }
}

void heel(const knit::Facts& facts, const EditionFit& fit, std::vector<std::string>& said) {
  std::vector<std::string> stuck, edges;
  std::size_t legs = 0, measured = 0, told = 0;
  Maybe least, most;
  for (const SizeFit& one : fit.sizes) {
    legs += one.leg ? 1 : 0;
    measured += body_measure(facts, "heel_around", one.size) ? 1 : 0;
    if (one.edge && !one.edge->passes()) {
      edges.push_back(fmt::format("{} ({} instead of {} at most; {} more)", printed_name(facts, one.size),
                                  times_words(one.edge->opening), limit_words(one.edge->limit),
                                  counted(one.edge->stitches_missing, "st", "sts")));
    }
    if (!one.fabric) continue;
    ++told;
    if (!least || one.fabric->opening < *least) least = one.fabric->opening;
    if (!most || one.fabric->opening > *most) most = one.fabric->opening;
    if (!one.fabric->passes()) {
      stuck.push_back(fmt::format("{} ({} at \"{}\"; {} would do)", printed_name(facts, one.size),
                                  times_words(one.fabric->opening), one.fabric->stretch.section,
                                  missing_words(one.fabric->stitches_missing, "st", "sts")));
    }
  }
  if (legs == 0) {
    said.push_back("Heel: the seams do not tell which parts close to a round, so nothing is said of the heel.");
    return;
  }
  if (measured == 0) {
    said.push_back(
        "Heel: the sizes table has no row `heel_around`, so nothing is said of the heel. `from feet heel_around` "
        "brings "
        "the library's figures.");
    return;
  }
  if (told == 0) {
    said.push_back("Heel: the leg is a rib without a gauge of its own, and a rib's width is never worked out.");
    return;
  }
  if (stuck.empty()) {
    const std::string opens =
        *least == *most ? values::decimal(*least, 2) : values::decimal(*least, 2) + " to " + values::decimal(*most, 2);
    said.push_back(fmt::format(
        "Heel: {} passes. At its tightest the leg opens {} times its own width; plain knitting opens about {} without "
        "strain, a rib {}, stranded knitting {}.",
        every(fit), opens, limit_words(opening_limit(Fabric::plain)), limit_words(opening_limit(Fabric::rib)),
        limit_words(opening_limit(Fabric::stranded))));
  } else {
    said.push_back(fmt::format(
        "Heel: the leg must open too far in {}; plain knitting opens about {} without strain, a rib {}, stranded "
        "knitting {}.",
        listed(stuck), limit_words(opening_limit(Fabric::plain)), limit_words(opening_limit(Fabric::rib)),
        limit_words(opening_limit(Fabric::stranded))));
  }
  if (!edges.empty()) said.push_back(fmt::format("Edge: it hardly yields, and is too narrow in {}.", listed(edges)));
}

void top(const knit::Facts& facts, const EditionFit& fit, std::vector<std::string>& said) {
  std::vector<std::string> tight, loose;
  Maybe least, most;
  std::string against;
  bool drawn_in = false;
  for (const SizeFit& one : fit.sizes) {
    if (!one.top || !one.top->ease) continue;
    against = one.top->against;
    drawn_in = drawn_in || (one.top->drawn_in && *one.top->ease > one.top->usual.to);
    if (!least || *one.top->ease < *least) least = one.top->ease;
    if (!most || *one.top->ease > *most) most = one.top->ease;
    const std::int64_t off = one.top->stitches_off;
    const std::string words = fmt::format("{} ({}; {})", printed_name(facts, one.size), signed_percent(*one.top->ease),
                                          missing_words(off, "st", "sts"));
    if (one.top->tight()) tight.push_back(words);
    if (one.top->loose()) loose.push_back(words);
  }
  if (!least) return;
  if (!tight.empty()) said.push_back(fmt::format("Top: tighter on the {} than usual in {}.", against, listed(tight)));
  if (!loose.empty()) {
    said.push_back(fmt::format("Top: looser on the {} than usual, and may slip down, in {}.", against, listed(loose)));
  }
  if (tight.empty() && loose.empty()) {
    const std::string span = *least == *most ? signed_percent(*least) : range_words(*least, *most);
    said.push_back(
        fmt::format("Top: {} of ease on the {}, {}.", span, against, drawn_in ? "drawn in by a cord" : "as is usual"));
  }
}

void grading(const knit::Facts& facts, const EditionFit& fit, const knit::MeasureFacts& measure,
             std::vector<std::string>& said, bool& all_even) {
  if (fit.sizes.size() < 2) return;
  const auto names = [&](const auto& pairs) {
    std::vector<std::string> words;
    for (const auto& pair : pairs) {
      words.push_back(
          fmt::format("between {} and {}", printed_name(facts, pair.first), printed_name(facts, pair.second)));
    }
    return listed(words);
  };
  const auto down = backwards(facts, measure);
  const auto jumps = uneven(facts, measure);
  std::vector<std::pair<std::size_t, std::size_t>> flat;
  const std::vector<std::size_t> order = order_of(facts, measure);
  for (std::size_t i = 1; i < order.size(); ++i) {
    const Maybe a = value_at(measure.body, order[i - 1]), b = value_at(measure.body, order[i]);
    if (a && b && *a < *b && value_at(measure.finished, order[i - 1]) == value_at(measure.finished, order[i])) {
      flat.emplace_back(order[i - 1], order[i]);
    }
  }
  const std::string what = "Grading, " + measure_words(measure.name);
  if (!down.empty()) said.push_back(fmt::format("{}: it shrinks where the foot grows, {}.", what, names(down)));
  if (!jumps.empty()) said.push_back(fmt::format("{}: the ease jumps {}.", what, names(jumps)));
  if (!flat.empty()) said.push_back(fmt::format("{}: the rounding leaves no difference {}.", what, names(flat)));
  all_even = all_even && down.empty() && jumps.empty() && flat.empty();
}

}  // namespace

std::vector<std::string> verdicts(const knit::Facts& facts, const EditionFit& fit) {
  std::vector<std::string> said;
  for (const knit::MeasureFacts& measure : edition_of(facts, fit).measures) declared(facts, fit, measure, said);
  if (edition_of(facts, fit).measures.empty()) {
    said.push_back(
        "Foot: the pattern states no finished measure. `finished around = …` and `finished length = …` say which "
        "stitches and rows make the foot, and then it is held against the body.");
  }
  heel(facts, fit, said);
  top(facts, fit, said);
  bool even = true;
  for (const knit::MeasureFacts& measure : edition_of(facts, fit).measures) grading(facts, fit, measure, said, even);
  if (even && fit.sizes.size() > 1 && !edition_of(facts, fit).measures.empty()) {
    said.push_back("Grading: every finished measure grows as the foot grows.");
  }
  return said;
}

std::vector<std::string> cautions(const EditionFit& fit) {
  const bool tight =
      std::any_of(fit.sizes.begin(), fit.sizes.end(), [](const SizeFit& one) { return one.top && one.top->tight(); });
  std::vector<std::string> texts;
  if (tight) {
    texts.push_back(
        "CAUTION: a tight top presses on the leg. With diabetes or poor circulation ask a clinician before such a sock "
        "is worn. Local rules, and the advice of those licensed to give it, come before this report.");
  }
  return texts;
}

}  // namespace stk::fit
