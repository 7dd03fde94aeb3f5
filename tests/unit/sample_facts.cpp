#include "tests/unit/sample_facts.hpp"

#include <algorithm>

namespace stk::test {

using knit::Act;
using knit::MachineState;
using knit::Selection;
using knit::Side;
using knit::SizeRecord;
using knit::Step;

namespace {

values::Quantity mm(std::int64_t millimetres) {
  return {values::Rational(millimetres), values::dimensions::length};
}

void turn_carriage(MachineState& state, std::int64_t rows) {
  state.row_counter += rows;
  if (rows % 2 != 0) state.carriage = state.carriage == Side::left ? Side::right : Side::left;
}

// `at` needles to the right of L1, there being no needle 0.
knit::Needle needle_at(std::int64_t at) {
  return {static_cast<std::int32_t>(at < 0 ? at : at + 1), knit::Bed::main};
}
std::int64_t place_of(knit::Needle needle) {
  return needle.number < 0 ? needle.number : needle.number - 1;
}

knit::DrawnNeedle in_work(std::uint8_t loops) {
  return {knit::DrawnNeedle::Position::work, loops, false};
}
knit::DrawnNeedle out() {
  return {};
}

}  // namespace

knit::NeedleSpan about_centre(std::int64_t needles) {
  const std::int64_t left = (needles + 1) / 2;
  return {needle_at(-left), needle_at(needles - left - 1)};
}

Step& Recorder::add(Step::Kind kind) {
  Step step;
  step.kind = kind;
  step.where.begin = next_place_++;
  step.where.end = step.where.begin + 1;
  step.sizes = all_;
  step.records.resize(states_.size());
  for (std::size_t i = 0; i < states_.size(); ++i) step.records[i].before = step.records[i].after = states_[i];
  steps_.push_back(std::move(step));
  return steps_.back();
}

Step& Recorder::op(Act act) {
  Step& step = add(Step::Kind::operation);
  step.operation.act = act;
  return step;
}

Step& Recorder::counted(Act act, const Counts& amounts) {
  Step& step = op(act);
  for (std::size_t i = 0; i < states_.size(); ++i) step.records[i].amount = amounts[i];
  return step;
}

void Recorder::finish(Step& step) {
  for (std::size_t i = 0; i < states_.size(); ++i) {
    if (knit::has(all_, i)) step.records[i].after = states_[i];
  }
}

Step& Recorder::thread(const std::string& yarn) {
  Step& step = op(Act::thread);
  step.operation.yarns = {yarn};
  return step;
}

Step& Recorder::cut(const std::string& yarn, const Counts& tail_cm) {
  Step& step = op(Act::cut);
  step.operation.yarns = {yarn};
  for (std::size_t i = 0; i < states_.size(); ++i) {
    step.records[i].length = mm(tail_cm[i] * 10);
    step.records[i].yarn_side = states_[i].carriage;
    step.records[i].yarn_needle = needle_at(0);
  }
  return step;
}

Step& Recorder::cast_on(const Counts& sts) {
  Step& step = counted(Act::cast_on, sts);
  step.operation.method = knit::Method::e_wrap;
  Selection selection;
  selection.kind = Selection::Kind::span;
  selection.count = sts;
  step.operation.selections = {selection};
  for (std::size_t i = 0; i < states_.size(); ++i) {
    if (!knit::has(all_, i)) continue;
    MachineState& state = states_[i];
    state.stitches = state.in_work = static_cast<std::int32_t>(sts[i]);
    state.carriage = Side::right;
    state.row_counter = 0;
    state.span = step.records[i].needles = about_centre(sts[i]);
    step.records[i].yarn_side = Side::left;
  }
  finish(step);
  return step;
}

Step& Recorder::knit(const Counts& rows) {
  Step& step = counted(Act::knit, rows);
  for (std::size_t i = 0; i < states_.size(); ++i) {
    if (!knit::has(all_, i)) continue;
    step.records[i].idle = rows[i] == 0;
    turn_carriage(states_[i], rows[i]);
  }
  finish(step);
  return step;
}

Step& Recorder::knit_to_row(const Counts& rows) {
  Step& step = op(Act::knit_to_row);
  for (std::size_t i = 0; i < states_.size(); ++i) {
    if (!knit::has(all_, i)) continue;
    step.records[i].target = rows[i];
    step.records[i].amount = rows[i] - states_[i].row_counter;
    step.records[i].idle = step.records[i].amount == 0;
    turn_carriage(states_[i], step.records[i].amount);
  }
  finish(step);
  return step;
}

Step& Recorder::counter(std::int64_t row) {
  Step& step = op(Act::counter);
  for (std::size_t i = 0; i < states_.size(); ++i) {
    step.records[i].target = row;
    if (knit::has(all_, i)) states_[i].row_counter = row;
  }
  finish(step);
  return step;
}

Step& Recorder::tension(std::int32_t hundredths) {
  Step& step = op(Act::tension);
  for (std::size_t i = 0; i < states_.size(); ++i) {
    if (knit::has(all_, i)) states_[i].tension_hundredths = hundredths;
  }
  finish(step);
  return step;
}

Step& Recorder::move_last_of_each(std::int64_t group) {
  Step& step = op(Act::move);
  Selection selection;
  selection.kind = Selection::Kind::of_each;
  selection.where = Selection::Where::last;
  selection.group.assign(states_.size(), group);
  step.operation.selections = {selection};
  step.operation.side = Side::left;
  step.operation.empties = knit::Empties::out_of_work;
  step.operation.prongs = 1;
  for (std::size_t i = 0; i < states_.size(); ++i) {
    if (!knit::has(all_, i)) continue;
    MachineState& state = states_[i];
    SizeRecord& record = step.records[i];
    const std::int32_t moved = state.stitches / static_cast<std::int32_t>(group);
    record.amount = record.emptied = moved;
    record.target = 1;
    record.needles = state.span;
    knit::DrawnBed bed;
    bed.first = state.span.first;
    for (std::int32_t n = 0; n < state.stitches; ++n) {
      const std::int64_t in_group = n % group;
      bed.before.push_back(in_work(1));
      bed.after.push_back(in_group == group - 1 ? out() : in_work(in_group == group - 2 ? 2 : 1));
      if (in_group == group - 1) bed.moves.push_back({n, n - 1});
    }
    record.drawn = std::move(bed);
    state.stitches -= moved;
    state.in_work -= moved;
    state.span.last = needle_at(place_of(state.span.last) - 1);
  }
  finish(step);
  return step;
}

Step& Recorder::decrease_each_side(std::int32_t inset) {
  Step& step = op(Act::decrease);
  step.operation.each_side = true;
  step.operation.inset = inset;
  step.operation.prongs = inset + 1;
  step.operation.empties = knit::Empties::out_of_work;
  for (std::size_t i = 0; i < states_.size(); ++i) {
    if (!knit::has(all_, i)) continue;
    MachineState& state = states_[i];
    SizeRecord& record = step.records[i];
    record.amount = 1;  // on each side
    record.emptied = 2;
    record.needles = state.span;
    knit::DrawnBed bed;
    bed.first = state.span.first;
    const std::int32_t n = state.stitches, moved = inset + 1;
    bed.before.assign(static_cast<std::size_t>(n), in_work(1));
    bed.after = bed.before;
    bed.after.front() = bed.after.back() = out();
    bed.after[static_cast<std::size_t>(moved)] = in_work(2);
    bed.after[static_cast<std::size_t>(n - 1 - moved)] = in_work(2);
    for (std::int32_t m = 0; m < moved; ++m) {
      bed.moves.push_back({m, m + 1});
      bed.moves.push_back({n - 1 - m, n - 2 - m});
    }
    record.drawn = std::move(bed);
    state.stitches -= 2;
    state.in_work -= 2;
    state.span = {needle_at(place_of(state.span.first) + 1), needle_at(place_of(state.span.last) - 1)};
  }
  finish(step);
  return step;
}

Step& Recorder::gather() {
  Step& step = op(Act::gather);
  step.operation.selections = {Selection{}};
  step.operation.selections[0].kind = Selection::Kind::all;
  step.operation.edges = {"toe"};
  for (std::size_t i = 0; i < states_.size(); ++i) {
    if (!knit::has(all_, i)) continue;
    step.records[i].amount = states_[i].stitches;
    step.records[i].yarn_side = states_[i].carriage;
    step.records[i].yarn_needle = needle_at(0);
    states_[i].stitches = states_[i].in_work = 0;
    states_[i].span = {};
  }
  finish(step);
  return step;
}

Step& Recorder::expect(bool row, bool side, bool stitches) {
  Step& step = add(Step::Kind::expect);
  step.expects_row = row;
  step.expects_carriage = side;
  step.expects_stitches = stitches;
  return step;
}

void Recorder::open(Step::Kind kind, const std::string& title, knit::SizeSet sizes) {
  Level level;
  level.step.kind = kind;
  level.step.where.begin = next_place_++;
  level.step.where.end = level.step.where.begin + 1;
  level.step.sizes = sizes & all_;
  level.step.title = {title};
  level.step.records.resize(states_.size());
  level.outer = std::move(steps_);
  level.outer_sizes = all_;
  steps_.clear();
  all_ = level.step.sizes;
  levels_.push_back(std::move(level));
}

void Recorder::close() {
  Level level = std::move(levels_.back());
  levels_.pop_back();
  level.step.steps = std::move(steps_);
  for (std::size_t i = 0; i < states_.size(); ++i) level.step.records[i].after = states_[i];
  all_ = level.outer_sizes;
  steps_ = std::move(level.outer);
  steps_.push_back(std::move(level.step));
}

namespace {

std::vector<Step> sock() {
  Recorder r(4);
  r.open(Step::Kind::section, "Leg and foot", r.all());
  r.thread("main");
  r.cast_on({36, 42, 48, 54});
  r.knit({3, 3, 3, 3});
  r.op(Act::hang_comb);
  r.knit_to_row({112, 142, 154, 178});
  r.expect(false, true, true);
  r.close();
  r.open(Step::Kind::section, "Shaping", r.all());
  r.counter(0);
  r.repeat({3, 3, 6, 6}, [](Recorder& body, std::int64_t) {
    body.knit({2, 2, 2, 2});
    body.decrease_each_side(2);
  });
  r.close();
  r.open(Step::Kind::section, "Toe", r.all());
  r.open(Step::Kind::only_for, "", 0b1100);
  r.knit({0, 0, 2, 4});
  r.close();
  r.move_last_of_each(3);
  r.tension(-100);
  r.counter(0);
  r.knit_to_row({4, 4, 4, 4});
  r.cut("main", {50, 55, 60, 65});
  r.gather();
  r.close();
  return r.take();
}

std::vector<Step> finish_steps() {
  Recorder r(4);
  Step& seam = r.op(Act::seam);
  seam.operation.method = knit::Method::mattress;
  seam.operation.edges = {"sock.left"};
  seam.operation.edges_to = {"sock.right"};
  seam.operation.with_own_tail = true;
  const Counts rows{122, 152, 172, 196};
  for (std::size_t i = 0; i < 4; ++i) {
    seam.records[i].amount = seam.records[i].second_amount = rows[i];
    seam.records[i].rows = true;
  }
  r.op(Act::weave_in_ends);
  return r.take();
}

}  // namespace

knit::Facts sample_facts() {
  knit::Facts facts;
  facts.pattern.title = "Slack Water bed sock";
  facts.pattern.by = "Tidewrack Hosiery";
  facts.pattern.version = "1.2";
  facts.pattern.summary = "A plain bed sock without a heel, knitted flat from cuff to toe.";
  facts.pattern.notes = {"Steam the tube lightly before the seam is sewn."};
  facts.sizes = {{"child_m", "Child M"}, {"women_m", "Women M"}, {"women_l", "Women L"}, {"men_l", "Men L"}};
  facts.body_measure_names = {"foot_length", "foot_around"};
  facts.body_measures = {{mm(185), mm(245), mm(260), mm(290)}, {mm(175), mm(225), mm(240), mm(270)}};
  knit::EditionFacts edition;
  edition.name = "mid";
  edition.machine.name = "mid_gauge";
  edition.machine.printed = "mid-gauge machine";
  edition.machine.needles = 150;
  edition.machine.pitch = values::Quantity{values::Rational::of(13, 2), values::dimensions::length};
  knit::YarnFacts yarn;
  yarn.name = "main";
  yarn.description = "sport wool";
  yarn.count = values::Quantity{values::Rational::of(1, 5000), values::dimensions::mass_per_length};
  yarn.length = {mm(93400), mm(134200), mm(160100), mm(201000)};
  for (const std::int64_t grams : {19, 27, 33, 41}) {
    yarn.mass.push_back(values::Quantity{values::Rational(grams), values::dimensions::mass});
  }
  edition.yarns = {yarn};
  knit::GaugeFacts gauge;
  gauge.stitches = {values::Rational::of(24, 100), values::dimensions::sts_per_length};
  gauge.rows = {values::Rational::of(34, 100), values::dimensions::rows_per_length};
  edition.gauges = {gauge};
  knit::MeasureFacts around;
  around.name = "around";
  around.finished = {mm(150), mm(175), mm(200), mm(225)};
  around.ease.resize(4, values::Quantity{values::Rational::of(-1, 10), values::dimensions::plain});
  edition.measures = {around};
  edition.needles_needed = {36, 42, 48, 54};
  knit::PieceFacts piece;
  piece.name = "sock";
  piece.make = 2;
  piece.first = sock();
  edition.pieces = {piece};
  edition.finish = finish_steps();
  facts.editions = {edition};
  return facts;
}

}  // namespace stk::test
