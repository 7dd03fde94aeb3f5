#include "compiler/fit/judge.hpp"

#include <algorithm>
#include <functional>

#include "compiler/fit/grading.hpp"
#include "compiler/fit/passing.hpp"
#include "compiler/fit/words.hpp"

namespace stk::fit {
namespace {

using findings::Code;

// What the sizes of one place have in common: one finding with a few of them told.
struct Group {
  text::Span where;
  knit::SizeSet sizes = 0;
  std::vector<std::string> facts, mends;
  std::size_t first = 0;
};

class Groups {
 public:
  Group& at(const text::Span& where, std::size_t size) {
    auto found = std::find_if(groups_.begin(), groups_.end(), [&](const Group& g) { return g.where == where; });
    if (found == groups_.end()) {
      groups_.push_back({where, 0, {}, {}, size});
      found = groups_.end() - 1;
    }
    found->sizes |= knit::SizeSet{1} << size;
    return *found;
  }
  const std::vector<Group>& all() const { return groups_; }

 private:
  std::vector<Group> groups_;
};

std::string some(const std::vector<std::string>& facts) {
  constexpr std::size_t told = 3;
  std::string text;
  for (std::size_t i = 0; i < facts.size() && i < told; ++i) text += (i > 0 ? "; " : "") + facts[i];
  return facts.size() > told ? text + " …" : text;
}

class Judge {
 public:
  Judge(const knit::Facts& facts, std::size_t edition, findings::Findings& findings)
      : facts_(facts),
        edition_(facts.editions[edition]),
        index_(static_cast<std::uint16_t>(edition)),
        findings_(findings) {}

  void all() {
    std::vector<std::optional<Leg>> legs;
    for (std::size_t size = 0; size < facts_.sizes.size(); ++size) legs.push_back(leg_of(edition_, size));
    heel(legs);
    edge(legs);
    top(legs);
    for (const knit::MeasureFacts& measure : edition_.measures) {
      foot(measure, legs);
      grading(measure);
    }
  }

 private:
  std::string name(std::size_t size) const { return printed_name(facts_, size); }

  std::string opening(const Passage& passage, std::size_t size) const {
    return name(size) + ": " + cm(passage.heel) + " through " + cm(passage.width) + ", " + times_words(passage.opening);
  }

  void heel(const std::vector<std::optional<Leg>>& legs) {
    Groups groups;
    std::vector<std::optional<Passage>> passages(legs.size());
    for (std::size_t size = 0; size < legs.size(); ++size) {
      if (legs[size]) passages[size] = passage_of_fabric(facts_, *legs[size], size);
      if (!passages[size] || passages[size]->passes()) continue;
      Group& group = groups.at(passages[size]->stretch.where, size);
      group.facts.push_back(opening(*passages[size], size));
      group.mends.push_back(name(size) + " " + counted(passages[size]->stitches_missing, "st", "sts"));
    }
    for (const Group& group : groups.all()) {
      const Passage& worst = *passages[group.first];
      findings_.report<Code::G30>(group.where)
          .label("{}", some(group.facts))
          .note("heel and instep measure `heel_around`; {} knitting opens about {} without strain",
                fabric_word(worst.stretch.fabric), limit_words(worst.limit))
          .help("more stitches here ({}), a looser tension with a gauge of its own, or a fabric that opens further",
                some(group.mends))
          .at(index_, group.sizes);
    }
  }

  void edge(const std::vector<std::optional<Leg>>& legs) {
    Groups groups;
    std::vector<std::optional<Passage>> passages(legs.size());
    for (std::size_t size = 0; size < legs.size(); ++size) {
      if (legs[size]) passages[size] = passage_of_edge(facts_, *legs[size], size);
      if (!passages[size] || passages[size]->passes()) continue;
      Group& group = groups.at(legs[size]->edge.where, size);
      group.facts.push_back(opening(*passages[size], size));
      group.mends.push_back(name(size) + " " + counted(passages[size]->stitches_missing, "st", "sts"));
    }
    for (const Group& group : groups.all()) {
      const bool cast_on = legs[group.first]->edge.cast_on;
      findings_.report<Code::G31>(group.where)
          .label("{}", some(group.facts))
          .note("such an edge opens about {} at most", limit_words(edge_limit))
          .help("{}, or more stitches at this edge ({})",
                cast_on ? "an edge that yields: `e-wrap`, or a hem" : "bind off `, loose`", some(group.mends))
          .at(index_, group.sizes);
    }
  }

  void top(const std::vector<std::optional<Leg>>& legs) {
    Groups tight, loose;
    std::vector<std::optional<Top>> tops(legs.size());
    for (std::size_t size = 0; size < legs.size(); ++size) {
      if (legs[size]) tops[size] = top_of(facts_, *legs[size], size);
      if (!tops[size] || !tops[size]->ease) continue;
      const Top& top = *tops[size];
      if (!top.tight() && !top.loose()) continue;
      Group& group = (top.tight() ? tight : loose).at(top.stretch.where, size);
      group.facts.push_back(name(size) + ": " + cm(top.width) + " on " +
                            (top.against == "calf" ? "a calf of " : "an ankle of ") + cm(*top.body) + ", " +
                            signed_percent(*top.ease));
      group.mends.push_back(name(size) + " " +
                            counted(top.stitches_off < 0 ? -top.stitches_off : top.stitches_off, "st", "sts"));
    }
    const auto usual = [&](const Group& group) {
      const Top& top = *tops[group.first];
      return fabric_word(top.stretch.fabric) + " tops have " + range_words(top.usual.from, top.usual.to) + " of ease";
    };
    for (const Group& group : tight.all()) {
      findings_.report<Code::G32>(group.where)
          .label("{}", some(group.facts))
          .note("{} as a rule", usual(group))
          .help("more stitches here: {}", some(group.mends))
          .help("with diabetes or poor circulation a tight top is no small thing: ask a clinician")
          .at(index_, group.sizes);
    }
    for (const Group& group : loose.all()) {
      findings_.report<Code::G33>(group.where)
          .label("{}", some(group.facts))
          .note("{} as a rule", usual(group))
          .help("fewer stitches here ({}), a rib, or a hem with elastic", some(group.mends))
          .at(index_, group.sizes);
    }
  }

  // Around and length where no ease was declared: against what is usual.
  void foot(const knit::MeasureFacts& measure, const std::vector<std::optional<Leg>>& legs) {
    if (measure.ease_declared) return;  // G20 tells of it
    Groups groups;
    std::vector<std::optional<FootOff>> feet(legs.size());
    for (std::size_t size = 0; size < legs.size(); ++size) {
      feet[size] = foot_off(edition_, measure, legs[size], size);
      if (!feet[size] || !feet[size]->off()) continue;
      const FootOff& off = *feet[size];
      Group& group = groups.at(measure.where, size);
      group.facts.push_back(name(size) + ": " + cm(off.sock) + " for a foot of " + cm(off.foot) + ", " +
                            signed_percent(off.ease));
      group.mends.push_back(name(size) + " needs " + missing_words(off.missing, off.one, off.many) + " at least");
    }
    for (const Group& group : groups.all()) {
      const Range& usual = feet[group.first]->asked;
      findings_.report<Code::G34>(group.where, measure.name)
          .label("{}", some(group.facts))
          .note("usual is {}, and no other `ease {}` is declared", range_words(usual.from, usual.to), measure.name)
          .help("{}; if it is meant, `ease {} … to …` declares it", some(group.mends), measure.name)
          .at(index_, group.sizes);
    }
  }

  void grading(const knit::MeasureFacts& measure) {
    const auto told = [&](const std::pair<std::size_t, std::size_t>& pair) {
      return name(pair.first) + " " + cm(*value_at(measure.finished, pair.first)) + ", " + name(pair.second) + " " +
             cm(*value_at(measure.finished, pair.second));
    };
    const auto pairs = backwards(facts_, measure);
    if (!pairs.empty()) {
      std::vector<std::string> list;
      knit::SizeSet sizes = 0;
      for (const auto& pair : pairs) {
        list.push_back(told(pair));
        sizes |= knit::SizeSet{1} << pair.second;
      }
      findings_.report<Code::G35>(measure.where, measure.name)
          .label("{}", some(list))
          .help("look at what it is worked out from in the second of each pair: a grade out of order, or a rounding")
          .at(index_, sizes);
    }
    const auto jumps = uneven(facts_, measure);
    if (jumps.empty()) return;
    std::vector<std::string> list;
    knit::SizeSet sizes = 0;
    for (const auto& pair : jumps) {
      const auto ease = [&](std::size_t size) {
        return *ease_of(value_at(measure.finished, size), value_at(measure.body, size));
      };
      list.push_back(name(pair.first) + " " + signed_percent(ease(pair.first)) + ", " + name(pair.second) + " " +
                     signed_percent(ease(pair.second)));
      sizes |= knit::SizeSet{1} << pair.second;
    }
    findings_.report<Code::G36>(measure.where, measure.name)
        .label("ease: {}", some(list))
        .help("a smaller step of rounding, or the share of the body measure instead of figures for each size")
        .at(index_, sizes);
  }

  const knit::Facts& facts_;
  const knit::EditionFacts& edition_;
  std::uint16_t index_;
  findings::Findings& findings_;
};

}  // namespace

void judge(const knit::Facts& facts, findings::Findings& findings) {
  for (std::size_t edition = 0; edition < facts.editions.size(); ++edition) Judge(facts, edition, findings).all();
}

}  // namespace stk::fit
