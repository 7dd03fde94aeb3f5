// Which needles a selector means, in every size, when its step runs.
//
// A selector counts from left to right as the knitter sees it, on the main bed unless a bed is named, among the needles
// that the verb asks for:
//
//   working    needles in work: hold, move, put, bind off, gather, scrap off …
//   resting    held needles: release, wrap          `n on SIDE` counts from the work outwards
//   idle       needles out of work inside the work: bring
//   waiting    needles in work without a loop: hang … on empties
//
// What was selected is kept in a table: the needles for the machine, the shape for the words. A `let` of needles keeps its
// handle, so the set is frozen where the let stands.
#pragma once

#include <array>
#include <vector>

#include "compiler/findings/findings.hpp"
#include "compiler/grade/evaluate.hpp"
#include "compiler/knit/bench.hpp"
#include "compiler/knit/facts.hpp"

namespace stk::knit {

enum class Among : std::uint8_t { working, resting, idle, waiting };

struct Chosen {
  std::vector<std::array<runtime::NeedleSet, 2>> needles;   // per size: main and second bed, as the first sock is written
  Selection shape;
};

class Selections : public grade::Host {
 public:
  Selections(std::vector<Bench*>& benches, findings::Findings& findings, std::uint16_t edition)
      : benches_(benches), findings_(findings), edition_(edition) {}

  void use_evaluator(grade::Evaluator* evaluator) { evaluator_ = evaluator; }

  // `if_any`: fewer than asked, or none, is quiet. Empty handle when something was reported in every size; sizes in which it was are taken out of `active`.
  std::optional<grade::NeedlesId> choose(const syntax::Expr& selector, const grade::Frame& frame, Among among,
                                         grade::SizeSet& active, bool if_any = false);
  // n needles side by side about the centre: `cast on 36`. An odd one more stands on the right.
  grade::NeedlesId centred(const std::vector<std::optional<std::int64_t>>& counts, grade::SizeSet active);

  const Chosen& operator[](grade::NeedlesId id) const { return table_[id.value]; }
  grade::NeedlesId keep(Chosen chosen);
  // A let or a parameter gives a set its name.
  grade::NeedlesId named(grade::NeedlesId id, const std::string& name);

  grade::Graded select(const syntax::Expr& selector, const grade::Frame& frame, grade::SizeSet active) override;
  grade::Graded count(grade::NeedlesId needles, grade::SizeSet active) override;
  std::string phrase(grade::NeedlesId needles, std::size_t size) override;

 private:
  friend class Chooser;   // chooser.cpp
  std::vector<Bench*>& benches_;
  findings::Findings& findings_;
  std::uint16_t edition_;
  grade::Evaluator* evaluator_ = nullptr;
  std::vector<Chosen> table_;
};

// The place of L12 or R5 among the needles of a bed, -1 when it has none.
int needle_index(const runtime::MachineSpec& spec, const syntax::NeedleRange::Needle& needle);

}  // namespace stk::knit
