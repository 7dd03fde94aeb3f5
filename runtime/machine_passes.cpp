// Passes of the carriage: what is knitted, what is checked before it, what is there afterwards.
#include <algorithm>

#include "runtime/machine_knitting.hpp"

namespace stk::runtime {
// After four passes nothing can change that has not: the third and the fourth stand for every pair to come.
void Machine::run(const Knit& knit, Outcome& outcome) {
  if (knit.mode == KnitMode::rounds && spec_.beds < 2) {
    raise(outcome, FaultKind::no_second_bed, Bed::second);
    return;
  }
  const std::int64_t passes = std::clamp<std::int64_t>(knit.passes, 0, most_passes);
  Knitting knitting{outcome, knit.mode, nullptr, knit.main_to};
  if (knit.mode == KnitMode::rounds && passes > 0) begin_rounds(knitting);
  const std::int64_t checked = passes < 7 ? passes : 4;
  Counts before;
  for (std::int64_t done = 0; done < checked; ++done) {
    if (done == 2) before = counts(outcome);
    pass(knitting);
  }
  if (checked < passes) {
    repeat_passes(outcome, before, (passes - checked) / 2);
    if ((passes - checked) % 2 != 0) pass(knitting);
  }
  check_long_holds(outcome);
  check_no_weights(outcome);
  if (knit.mode == KnitMode::rounds) check_zigzag(outcome);
}

void Machine::run(const KnitPattern& knit, Outcome& outcome) {
  Knitting knitting{outcome, KnitMode::rows, &knit};
  for (knitting.row = 0; knitting.row < knit.rows.size(); ++knitting.row) pass(knitting);
  check_long_holds(outcome);
  check_no_weights(outcome);
}

Machine::Counts Machine::counts(const Outcome& outcome) const {
  Counts now;
  now.passes = passes_;
  now.counter = counter_;
  now.rows_since_cast_on = rows_since_cast_on_;
  now.loops = outcome.loops;
  now.picked_up = ledger_.picked_up;
  now.hung = ledger_.hung;
  now.merged = ledger_.merged;
  if (fabric_->has(first_yarn_)) now.yarn_loops = fabric_->yarn(first_yarn_).loops;
  if (section_.given()) {
    now.section_passes = fabric_->section(section_).passes;
    now.left = selvedge_rows(Side::left);
    now.right = selvedge_rows(Side::right);
  }
  for (const Bed bed : {Bed::main, Bed::second}) {
    now.last_pass[static_cast<std::size_t>(bed)] = bed_of(bed).last_pass;
  }
  return now;
}

void Machine::repeat_passes(Outcome& outcome, const Counts& before, std::int64_t times) {
  const Counts after = counts(outcome);
  const auto grow = [&](std::int64_t& number, std::int64_t from, std::int64_t to) { number += (to - from) * times; };
  for (std::optional<YarnPlace>& place : places_) {
    if (place && place->pass >= before.passes) place->pass += 2 * times;
  }
  grow(passes_, before.passes, after.passes);
  grow(counter_, before.counter, after.counter);
  grow(rows_since_cast_on_, before.rows_since_cast_on, after.rows_since_cast_on);
  grow(outcome.loops, before.loops, after.loops);
  grow(ledger_.picked_up, before.picked_up, after.picked_up);
  grow(ledger_.hung, before.hung, after.hung);
  grow(ledger_.merged, before.merged, after.merged);
  grow(outcome.passes, before.passes, after.passes);
  if (fabric_->has(first_yarn_)) grow(fabric_->yarns_[first_yarn_.value].loops, before.yarn_loops, after.yarn_loops);
  if (section_.given()) {
    Section& section = fabric_->sections_[section_.value];
    grow(section.passes, before.section_passes, after.section_passes);
    grow(fabric_->edges_[section.left.value].rows, before.left, after.left);
    grow(fabric_->edges_[section.right.value].rows, before.right, after.right);
  }
  for (std::size_t bed = 0; bed < 2; ++bed) grow(beds_[bed].last_pass, before.last_pass[bed], after.last_pass[bed]);
}

// One pass. The order: what the carriage meets, where the yarn comes from, then the loops.
void Machine::pass(Knitting& knitting) {
  Outcome& outcome = knitting.outcome;
  const Side from = carriage_.value_or(Side::right), to = opposite(from);
  carriage_ = from;
  if (knitting.mode == KnitMode::rows) zigzag_at_ = -1;
  const bool slips_back = (carriage_knits_ == CarriageKnits::to_left && to == Side::right) ||
                          (carriage_knits_ == CarriageKnits::to_right && to == Side::left);
  const Bed round_bed = to == knitting.main_to ? Bed::main : Bed::second;
  if (slips_back || (knitting.mode == KnitMode::rounds && rests(round_bed))) return end_pass(knitting);

  std::array<NeedleSet, 2> worked;   // that the carriage works, whatever it does there
  for (const Bed bed : {Bed::main, Bed::second}) {
    const bool passed_over = rests(bed) || (knitting.mode == KnitMode::rounds && bed != round_bed);
    if (!passed_over) worked[static_cast<std::size_t>(bed)] = in_work(bed);
  }
  NeedleSet coloured, tuck, slip;
  if (knitting.pattern) {
    const NeedleSet chosen = knitting.pattern->rows[knitting.row] & worked[0];
    switch (knitting.pattern->kind) {
      case PatternKind::two_colour: coloured = chosen; break;
      case PatternKind::tuck: tuck = chosen & carrying(Bed::main); break;
      case PatternKind::slip: slip = chosen; break;
    }
  }
  worked[0] -= slip;
  const bool nothing = worked[0].empty() && worked[1].empty();
  const Bed looked_at = knitting.mode == KnitMode::rounds ? round_bed : Bed::main;
  if (nothing && !quiet_nothing_[static_cast<std::size_t>(looked_at)]) {
    raise(outcome, FaultKind::nothing_in_work, looked_at);
  }
  quiet_nothing_[static_cast<std::size_t>(looked_at)] = nothing;
  if (knitting.mode == KnitMode::rows) quiet_nothing_ = {nothing, nothing};
  if (nothing) return end_pass(knitting);
  if (!first_yarn_.given()) {
    if (!quiet_no_yarn_) raise(outcome, FaultKind::no_yarn_threaded);
    quiet_no_yarn_ = true;
    return end_pass(knitting);
  }
  if (!coloured.empty() && !second_yarn_.given()) {
    if (!knitting.second_yarn) raise(outcome, FaultKind::no_second_yarn).d = static_cast<std::int64_t>(knitting.row);
    knitting.second_yarn = true;
    coloured = {};
  }
  ensure_section();
  check_two_beds(knitting, worked);
  check_corners(knitting, worked, from);
  check_empties(knitting, worked);
  if (knitting.pattern) check_pattern(knitting, tuck, slip & carrying(Bed::main));
  const bool comes_from_fabric = in_use(first_yarn_);
  const bool floated = lead_yarn(knitting, 0, first_yarn_, {worked[0] - coloured, worked[1]}, from);
  if (!coloured.empty()) lead_yarn(knitting, 1, second_yarn_, {coloured, NeedleSet{}}, from);
  if (knitting.mode == KnitMode::rows && comes_from_fabric && lasting(first_yarn_)) {
    check_turns(outcome, worked, from, !floated);
  }
  check_tension(outcome, worked);
  check_weights(outcome, worked);

  make_loops(outcome, Bed::main, worked[0] - coloured - tuck, first_yarn_);
  make_loops(outcome, Bed::main, coloured, second_yarn_);
  make_loops(outcome, Bed::second, worked[1], first_yarn_);
  for (const int needle : tuck) {
    Hook on = hook(Bed::main, needle);
    ++on.loops;
    ++on.tucks;
    set_hook(Bed::main, needle, on);
  }
  ledger_.tucked += tuck.count();
  outcome.loops += tuck.count();
  fabric_->yarns_[first_yarn_.value].loops += tuck.count();
  bed_of(Bed::main).slipping = slip & carrying(Bed::main);
  if (lasting(first_yarn_)) grow_edges(knitting, {worked[0] - tuck, worked[1]});

  const NeedleSet both = worked[0] | worked[1];
  outcome.first_needle = from == Side::left ? both.first() : both.last();
  outcome.last_needle = from == Side::left ? both.last() : both.first();
  outcome.last_bed = worked[0].contains(outcome.last_needle) ? Bed::main : Bed::second;
  outcome.needles = worked[static_cast<std::size_t>(outcome.last_bed)];
  note_corner(to, outcome);
  after_zigzag_ = false;
  ++rows_since_cast_on_;
  end_pass(knitting);
}

void Machine::end_pass(Knitting& knitting) {
  carriage_ = opposite(*carriage_);
  ++counter_;
  ++passes_;
  ++knitting.outcome.passes;
}

// Needles of a pass take a new loop each: what hung there goes through it, and the hook is plain again.
void Machine::make_loops(Outcome& outcome, Bed where, const NeedleSet& needles, YarnId yarn) {
  if (needles.empty()) return;
  BedState& bed = bed_of(where);
  const int count = needles.count();
  const NeedleSet joined = needles & bed.several;
  ledger_.merged += loops_on(where, joined) - joined.count();
  ledger_.increased += (needles - bed.carrying).count();
  const bool lasts = lasting(yarn);
  const bool over_waste = lasts && needles.intersects(bed.fleeting);
  bed.carrying |= needles;
  for (NeedleSet BedState::*mark : {&BedState::several, &BedState::eyelets, &BedState::fresh,
                                    &BedState::fleeting, &BedState::quiet_hook, &BedState::quiet_pattern}) {
    bed.*mark -= needles;
  }
  if (!lasts) bed.fleeting |= needles;
  bed.last_pass = passes_;
  outcome.loops += count;
  if (fabric_->has(yarn)) fabric_->yarns_[yarn.value].loops += count;
  std::erase_if(free_ends_, [&](const FreeEnd& end) { return end.bed == where && needles.contains(end.needle); });
  for (Mark& mark : marks_) {
    if (mark.bed == where) mark.waiting -= needles;
  }
  if (!over_waste) return;
  std::erase_if(forming_edges_, [&](std::size_t index) {   // the first lasting row over waste is the edge
    Edge& edge = fabric_->edges_[index];
    if (edge.bed != where) return false;
    if (edge.state != EdgeState::forming) return true;   // drawn too early, and said
    edge.state = EdgeState::on_waste;
    edge.yarn = yarn;
    return true;
  });
  std::erase_if(forming_slots_, [&](FormingSlot& forming) {
    if (forming.bed != where) return false;
    forming.waiting -= needles;
    if (!forming.waiting.empty()) return false;
    Slot& slot = fabric_->slots_[forming.slot];
    slot.knitted_over = true;
    fabric_->edges_[slot.upper.value].state = EdgeState::on_waste;
    return true;
  });
}

// The selvedge grows where the pass knitted the outermost loop of the fabric. A tube has no selvedge, but where rows are
// knitted on one of its layers alone, a flap.
void Machine::grow_edges(const Knitting& knitting, const std::array<NeedleSet, 2>& knitted) {
  Section& section = fabric_->sections_[section_.value];
  ++section.passes;
  const bool held = carriage_holds();
  if (held && !short_rows_) ++section.short_row_series;
  short_rows_ = held;
  short_rows_noted_ = short_rows_noted_ && held;
  const bool one_layer = knitted[0].empty() != knitted[1].empty();
  if (knitting.mode == KnitMode::rounds || (tube_ && !one_layer)) return;
  const NeedleSet fabric = tube_ ? carrying(knitted[0].empty() ? Bed::second : Bed::main)
                                 : carrying(Bed::main) | carrying(Bed::second),
                  touched = knitted[0] | knitted[1];
  section.layer_alone = section.layer_alone || tube_;
  if (touched.contains(fabric.first())) ++fabric_->edges_[section.left.value].rows;
  if (touched.contains(fabric.last())) ++fabric_->edges_[section.right.value].rows;
}

// The first closed turn of short rows says where they are worked. Heel and toe of one sock, say, belong on the same
// stitches; on different ones each comes out right by itself.
void Machine::note_short_rows(Outcome& outcome, Bed bed) {
  if (short_rows_noted_) return;
  short_rows_noted_ = true;
  ensure_section();
  const NeedleSet needles = in_work(bed) & carrying(bed);
  if (needles.empty()) return;
  Section& here = fabric_->sections_[section_.value];
  const Section* earlier = nullptr;
  for (const Section& section : fabric_->sections()) {
    if (section.piece != piece_ || section.short_row_needles.empty()) continue;
    if (earlier == nullptr) earlier = &section;
  }
  if (earlier != nullptr && (earlier->short_row_bed != bed || !earlier->short_row_needles.intersects(needles))) {
    raise(outcome, FaultKind::short_rows_apart, bed, needles, earlier->short_rows_made);
  }
  if (!here.short_row_needles.empty()) return;
  here.short_row_bed = bed;
  here.short_row_needles = needles;
  here.short_rows_made = tag_;
}

}  // namespace stk::runtime
