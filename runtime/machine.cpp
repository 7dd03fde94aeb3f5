// What every operation stands on: faults, hooks, places of yarn; and the way from an operation to the code that does
// it.
#include "runtime/machine.hpp"

#include <algorithm>
#include <variant>

namespace stk::runtime {

Machine::Machine(const MachineSpec& spec, Fabric& fabric)
    : spec_(spec), fabric_(&fabric), piece_(fabric.add_piece()) {
  spec_.needles =
      std::clamp(spec_.needles, 2, needle_limit);  // a spec that is not valid() must not reach past an array
  spec_.beds = std::clamp(spec_.beds, 1, 2);
  for (int b = 0; b < spec_.beds; ++b) {
    BedState& bed = beds_[static_cast<std::size_t>(b)];
    const std::size_t needles = static_cast<std::size_t>(spec_.needles);
    bed.hooks.resize(needles);
    bed.slips.resize(needles);
    bed.held_since.resize(needles);
    bed.cause.resize(needles, no_tag);
  }
}

Outcome Machine::apply(const Operation& operation) {
  Outcome outcome;
  tag_ = operation.tag;
  std::visit([&](const auto& what) { run(what, outcome); }, operation.what);
  if (nothing_on_needles()) {   // weights came down with the last of the fabric
    weights_ = Weights{.since = passes_};
    zigzag_at_ = -1;
    quiet_bare_ = {};
  } else if (weights_.tag == no_tag) {
    weights_.tag = tag_;
  }
  return outcome;
}

// ----------------------------------------------------------------------------------------------------------- queries

int Machine::loops_on(Bed bed, int needle) const {
  return bed_of(bed).carrying.contains(needle) ? static_cast<int>(hook(bed, needle).loops) : 0;
}

int Machine::wraps_on(Bed bed, int needle) const {
  return bed_of(bed).carrying.contains(needle) ? static_cast<int>(hook(bed, needle).wraps) : 0;
}

int Machine::most_loops_on_a_hook() const {
  int most = 0;
  for (const Bed bed : {Bed::main, Bed::second}) {
    if (!carrying(bed).empty()) most = std::max(most, 1);
    for (const int needle : bed_of(bed).several) most = std::max(most, loops_on(bed, needle));
  }
  return most;
}

std::optional<YarnPlace> Machine::place(YarnId yarn) const {
  return yarn.value < places_.size() ? places_[yarn.value] : std::nullopt;
}

std::int64_t Machine::selvedge_rows(Side side) const {
  return section_.given() ? fabric_->selvedge_rows(section_, side) : 0;
}

std::int64_t Machine::loops_on_hooks() const {
  return loops_on(Bed::main, carrying(Bed::main)) + loops_on(Bed::second, carrying(Bed::second));
}

// ------------------------------------------------------------------------------------------------------------ faults

Fault& Machine::raise(Outcome& outcome, FaultKind kind, Bed bed, const NeedleSet& needles, Tag cause) {
  Fault fault;
  fault.kind = kind;
  fault.tag = tag_;
  fault.cause = cause;
  fault.bed = bed;
  fault.needle = needles.first();
  fault.needles = needles;
  fault.counter = counter_;
  fault.pass = passes_;
  outcome.faults.push_back(fault);
  return outcome.faults.back();
}

void Machine::raise_by_cause(Outcome& outcome, FaultKind kind, Bed bed, NeedleSet needles) {
  const std::vector<Tag>& cause = bed_of(bed).cause;
  while (!needles.empty()) {
    const Tag tag = cause[static_cast<std::size_t>(needles.first())];
    NeedleSet group;
    for (const int needle : needles) {
      if (cause[static_cast<std::size_t>(needle)] == tag) group.insert(needle);
    }
    raise(outcome, kind, bed, group, tag);
    needles -= group;
  }
}

NeedleSet Machine::on_bed(Outcome& outcome, Bed bed, const NeedleSet& needles) {
  if (bed == Bed::second && spec_.beds < 2) {
    raise(outcome, FaultKind::no_second_bed, bed, needles);
    return {};
  }
  const NeedleSet there = needles & all_needles();
  if (there != needles) raise(outcome, FaultKind::off_the_bed, bed, needles - there).a = spec_.needles;
  return there;
}

NeedleSet Machine::with_loops(Outcome& outcome, Bed bed, const NeedleSet& needles) {
  raise_by_cause(outcome, FaultKind::without_loops, bed, needles - carrying(bed));
  return needles & carrying(bed);
}

// ------------------------------------------------------------------------------------------------------------- hooks

Machine::Hook Machine::hook(Bed bed, int needle) const {
  return bed_of(bed).several.contains(needle) ? bed_of(bed).hooks[static_cast<std::size_t>(needle)] : Hook{};
}

void Machine::set_hook(Bed bed, int needle, Hook hook) {
  BedState& state = bed_of(bed);
  state.carrying.insert(needle);
  state.eyelets.erase(needle);
  state.hooks[static_cast<std::size_t>(needle)] = hook;
  if (hook.loops > 1) {
    state.several.insert(needle);
  } else {
    state.several.erase(needle);
  }
}

std::int64_t Machine::loops_on(Bed bed, const NeedleSet& needles) const {
  const NeedleSet there = needles & bed_of(bed).carrying;
  std::int64_t loops = there.count();
  for (const int needle : there & bed_of(bed).several) {
    loops += bed_of(bed).hooks[static_cast<std::size_t>(needle)].loops - 1;
  }
  return loops;
}

// Too full is said once, when a hook becomes so. Tucks are left out: they have a limit of their own.
void Machine::check_hooks(Outcome& outcome, Bed bed, const NeedleSet& needles) {
  BedState& state = bed_of(bed);
  NeedleSet full;
  std::int64_t most = 0;
  for (const int needle : needles & state.several) {
    const Hook on = hook(bed, needle);
    const std::int64_t loops = on.loops - on.tucks;
    if (loops <= spec_.hook_limit || state.quiet_hook.contains(needle)) continue;
    full.insert(needle);
    most = std::max(most, loops);
  }
  if (full.empty()) return;
  Fault& fault = raise(outcome, FaultKind::hook_too_full, bed, full);
  fault.a = most;
  fault.b = spec_.hook_limit;
  state.quiet_hook |= full;
}

// The loops of one needle join those of another; what was marked on the loop goes with it, and so does a yarn whose
// last place it was.
void Machine::move_loop(Bed from, int needle, Bed to, int target) {
  BedState& source = bed_of(from);
  BedState& goal = bed_of(to);
  const bool joins = goal.carrying.contains(target);
  Hook moved = hook(from, needle);
  if (joins) {
    const Hook there = hook(to, target);
    moved.loops += there.loops;
    moved.wraps += there.wraps;
    moved.tucks += there.tucks;
  }
  const auto carry = [&](NeedleSet BedState::*mark, bool together) {
    const bool was = (source.*mark).contains(needle);
    if (together ? was : was && !joins) (goal.*mark).insert(target);
    if (!together && joins && !was) (goal.*mark).erase(target);
    (source.*mark).erase(needle);
  };
  carry(&BedState::fresh, false);      // one loop with a row below is enough to fill from
  carry(&BedState::fleeting, false);   // and one loop that lasts
  carry(&BedState::quiet_hook, true);
  source.carrying.erase(needle);
  source.several.erase(needle);
  set_hook(to, target, moved);
  for (std::optional<YarnPlace>& place : places_) {
    if (place && place->bed == from && place->needle == needle) place = YarnPlace{to, target, place->pass};
  }
  for (FreeEnd& end : free_ends_) {
    if (end.bed == from && end.needle == needle) end.bed = to, end.needle = target;
  }
}

void Machine::clear_marks(Bed bed, const NeedleSet& needles) {
  BedState& state = bed_of(bed);
  for (NeedleSet BedState::*mark :
       {&BedState::several, &BedState::eyelets, &BedState::closed, &BedState::waiting, &BedState::fresh,
        &BedState::fleeting, &BedState::slipping, &BedState::quiet_hook, &BedState::quiet_gap, &BedState::quiet_long,
        &BedState::quiet_pattern}) {
    state.*mark -= needles;
  }
}

void Machine::empty_out(Bed bed, const NeedleSet& needles) {
  BedState& state = bed_of(bed);
  state.carrying -= needles;
  state.in_work -= needles;
  state.held -= needles;
  clear_marks(bed, needles);
  for (const int needle : needles) state.cause[static_cast<std::size_t>(needle)] = tag_;
  std::erase_if(free_ends_, [&](const FreeEnd& end) { return end.bed == bed && needles.contains(end.needle); });
  for (const Bed each : {Bed::main, Bed::second}) {
    if (!carrying(each).empty()) continue;
    tube_ = false;
    corners_ = {};
    bed_of(each).rests = false;
  }
  if (!nothing_on_needles()) return;
  comb_ = false;
  forming_edges_.clear();   // what was not knitted over is gone
  forming_slots_.clear();
  marks_.clear();           // the fabric they lie in is off
}

// ----------------------------------------------------------------------------------------------- sections, carriage

void Machine::ensure_section() {
  if (!section_.given()) section_ = fabric_->add_section(piece_, tag_);
}

void Machine::carriage_to(Outcome& outcome, Side side, bool free_to_go) {
  if (carriage_ && *carriage_ != side && !free_to_go) {
    raise(outcome, FaultKind::carriage_elsewhere).a = side == Side::left ? 0 : 1;
  }
  carriage_ = side;
}

// -------------------------------------------------------------------------------------------------------------- yarn

bool Machine::lasting(YarnId yarn) const {
  return fabric_->has(yarn) && fabric_->yarn(yarn).kind == YarnKind::lasting;
}

void Machine::set_place(YarnId yarn, std::optional<YarnPlace> place) {
  if (!fabric_->has(yarn)) return;
  if (places_.size() <= yarn.value) places_.resize(yarn.value + 1);
  places_[yarn.value] = place;
}

void Machine::add_end(YarnId yarn, bool last, YarnPlace place, std::int64_t tail) {
  if (!lasting(yarn)) return;
  YarnEnd end;
  end.yarn = yarn;
  end.piece = piece_;
  end.section = section_;
  end.bed = place.bed;
  end.needle = place.needle;
  end.pass = place.pass;
  end.tail_micrometres = tail;
  end.last = last;
  end.made = tag_;
  fabric_->ends_.push_back(end);
  if (last) free_ends_.push_back({fabric_->ends_.size() - 1, place.bed, place.needle});
}

void Machine::leave_feeder(YarnId yarn) {
  if (second_yarn_ == yarn) second_yarn_ = {};
  if (first_yarn_ == yarn) {
    first_yarn_ = second_yarn_;
    second_yarn_ = {};
  }
}

// Takes out of the feeder what is neither of the two; says so where it is in use. A new yarn, never knitted with, goes
// out without a word.
bool Machine::free_feeder(Outcome& outcome, YarnId first, YarnId second) {
  bool was_free = true;
  for (const YarnId yarn : {first_yarn_, second_yarn_}) {
    if (!yarn.given() || yarn == first || yarn == second) continue;
    if (in_use(yarn)) {
      raise(outcome, FaultKind::feeder_busy).yarn = yarn;
      was_free = false;
    }
    leave_feeder(yarn);
  }
  return was_free;
}

const Machine::FreeEnd* Machine::end_among(Bed bed, const NeedleSet& needles) const {
  const FreeEnd* newest = nullptr;
  for (const FreeEnd& end : free_ends_) {
    if (end.bed == bed && needles.contains(end.needle)) newest = &end;
  }
  return newest;
}

}  // namespace stk::runtime
