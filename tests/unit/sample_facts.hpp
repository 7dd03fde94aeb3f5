// Facts made by hand: a small record of a sock in four sizes, kept consistent by counting along. Enough to write from
// without a source, a grader or a machine.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "compiler/knit/facts.hpp"

namespace stk::test {

using Counts = std::vector<std::int64_t>;

// Counts along: each call adds one step, with the state before and after in every size.
class Recorder {
 public:
  explicit Recorder(std::size_t sizes) : states_(sizes), all_((knit::SizeSet{1} << sizes) - 1) {}

  std::vector<knit::Step> take() { return std::move(steps_); }
  knit::SizeSet all() const { return all_; }
  std::vector<knit::MachineState>& states() { return states_; }

  knit::Step& add(knit::Step::Kind kind);
  knit::Step& op(knit::Act act);  // nothing changes but what the caller sets in the record
  knit::Step& counted(knit::Act act, const Counts& amounts);

  knit::Step& thread(const std::string& yarn);
  knit::Step& cut(const std::string& yarn, const Counts& tail_cm);
  knit::Step& cast_on(const Counts& sts);  // about the centre, carriage right
  knit::Step& knit(const Counts& rows);
  knit::Step& knit_to_row(const Counts& rows);
  knit::Step& counter(std::int64_t row);
  knit::Step& tension(std::int32_t hundredths);
  knit::Step& move_last_of_each(std::int64_t group);  // one needle left, empties out of work
  knit::Step& decrease_each_side(std::int32_t inset);
  knit::Step& gather();
  knit::Step& expect(bool row, bool side, bool stitches);

  // Steps that follow go into a block until the end of the returned recorder's life is taken over by close().
  void open(knit::Step::Kind kind, const std::string& title, knit::SizeSet sizes);
  void close();
  // A repeat whose turns the function records one after the other; `turns` per size.
  template <class Body>
  knit::Step& repeat(const Counts& turns, Body body);

 private:
  struct Level {
    knit::Step step;
    std::vector<knit::Step> outer;
    knit::SizeSet outer_sizes;
  };
  void finish(knit::Step& step);

  std::vector<knit::MachineState> states_;
  knit::SizeSet all_;
  std::vector<knit::Step> steps_;
  std::vector<Level> levels_;
  std::uint32_t next_place_ = 1;
};

// From a first needle to the right: L18 and 36 give L18–R18.
knit::NeedleSpan about_centre(std::int64_t needles);

// A bed sock in four sizes: cuff, decreases in full fashion, a toe of moved groups, gathered; one seam.
knit::Facts sample_facts();

template <class Body>
knit::Step& Recorder::repeat(const Counts& turns, Body body) {
  knit::Step step;
  step.kind = knit::Step::Kind::repeat;
  step.where.begin = next_place_++;
  step.where.end = step.where.begin + 1;
  step.sizes = all_;
  step.records.resize(states_.size());
  std::vector<knit::Step> outer = std::move(steps_);
  const knit::SizeSet outer_sizes = all_;
  std::int64_t most = 0;
  for (std::size_t i = 0; i < states_.size(); ++i) {
    step.records[i].before = states_[i];
    step.records[i].amount = turns[i];
    if (turns[i] > most) most = turns[i];
  }
  const std::uint32_t place = next_place_;
  for (std::int64_t turn = 0; turn < most; ++turn) {
    steps_.clear();
    next_place_ = place;  // the same statement stands at the same place in every turn
    all_ = 0;
    for (std::size_t i = 0; i < states_.size(); ++i) {
      if (turn < turns[i] && knit::has(outer_sizes, i)) all_ |= knit::SizeSet{1} << i;
    }
    body(*this, turn);
    step.turns.push_back(std::move(steps_));
  }
  all_ = outer_sizes;
  steps_ = std::move(outer);
  for (std::size_t i = 0; i < states_.size(); ++i) step.records[i].after = states_[i];
  steps_.push_back(std::move(step));
  return steps_.back();
}

}  // namespace stk::test
