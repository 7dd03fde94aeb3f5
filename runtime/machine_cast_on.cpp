// Casting on: by hand, closed, open on waste and ravel cord, or a zigzag over both beds.
#include <algorithm>

#include "runtime/machine.hpp"

namespace stk::runtime {
namespace {

constexpr int rows_under_comb = 3;  // of waste, before the comb is hung in it (common practice)

bool even(std::int64_t number) { return number % 2 == 0; }

}  // namespace

void Machine::run(const CastOn& cast_on, Outcome& outcome) {
  const bool zigzag = cast_on.method == CastOnMethod::zigzag, waste = cast_on.method == CastOnMethod::open_on_waste;
  if (zigzag && spec_.beds < 2) {
    raise(outcome, FaultKind::no_second_bed, Bed::second, cast_on.second_needles);
    return;
  }
  if (waste && (!fabric_->has(cast_on.waste) || !fabric_->has(cast_on.cord))) {
    raise(outcome, FaultKind::no_such_yarn);
    return;
  }
  std::array<NeedleSet, 2> needles;
  const Bed first_bed = zigzag ? Bed::main : cast_on.bed;
  needles[static_cast<std::size_t>(first_bed)] = on_bed(outcome, first_bed, cast_on.needles);
  if (zigzag) needles[1] = on_bed(outcome, Bed::second, cast_on.second_needles);
  for (const Bed bed : {Bed::main, Bed::second}) {
    NeedleSet& of_bed = needles[static_cast<std::size_t>(bed)];
    const NeedleSet full = of_bed & carrying(bed);
    if (!full.empty()) raise(outcome, FaultKind::needles_carry, bed, full);
    of_bed -= full;
  }
  if (needles[0].empty() && needles[1].empty()) {
    if (outcome.clean()) raise(outcome, FaultKind::nothing_in_work, first_bed);
    return;
  }
  if (!waste && !first_yarn_.given() && !quiet_no_yarn_) {
    raise(outcome, FaultKind::no_yarn_threaded);
    quiet_no_yarn_ = true;
  }
  ensure_section();
  zigzag_at_ = -1;
  const bool free_to_go = carrying(Bed::main).empty() && carrying(Bed::second).empty();
  if (waste) {
    cast_on_waste(cast_on, needles[static_cast<std::size_t>(first_bed)], free_to_go, outcome);
    return;
  }
  carriage_to(outcome, zigzag ? opposite(cast_on.carriage) : cast_on.carriage, free_to_go || (!zigzag && just_wrapped()));
  cast_on_loops(cast_on, needles[0], needles[1], outcome);
}

// Nothing has been knitted over what a hand put on the needles: the carriage is not bound to a side.
bool Machine::just_wrapped() const {
  return !after_zigzag_ && bed_of(Bed::main).fresh == carrying(Bed::main) && bed_of(Bed::second).fresh == carrying(Bed::second);
}

// The second half of a ring begins where the first one ended; from its other end the yarn would cross the whole width.
void Machine::check_way_to_cast_on(Outcome& outcome, Bed bed, const NeedleSet& needles, int needle) {
  const std::optional<YarnPlace> place = this->place(first_yarn_);
  if (!place) return;
  const NeedleSet here = carrying(bed) | needles;
  int passed = here.count_between(place->needle, needle);
  if (place->bed != bed) {
    const NeedleSet& there = carrying(place->bed);
    const int left = there.count_between(-1, place->needle) + here.count_between(-1, needle);
    const int right = there.count_between(needle_limit, place->needle) + here.count_between(needle_limit, needle);
    passed = std::min(left, right);
  }
  if (passed <= spec_.float_limit) return;
  Fault& fault = raise(outcome, FaultKind::float_too_long, bed, NeedleSet::one(needle));
  fault.needle = place->needle;
  fault.yarn = first_yarn_;
  fault.a = passed;
  fault.b = spec_.float_limit;
  fault.c = 3;
}

EdgeId Machine::add_cast_on_edge(const CastOn& cast_on, const NeedleSet& needles, int whole, YarnId yarn) {
  Edge edge;
  edge.kind = EdgeKind::cast_on;
  edge.method = cast_on.method;
  edge.whole = whole;
  edge.bed = cast_on.method == CastOnMethod::zigzag ? Bed::main : cast_on.bed;
  edge.needles = needles;
  edge.piece = piece_;
  edge.section = section_;
  edge.yarn = yarn;
  edge.made = tag_;
  const bool on_waste = cast_on.method == CastOnMethod::open_on_waste || (yarn.given() && !lasting(yarn));
  if (on_waste) {   // the first lasting row over it will be the edge
    edge.state = EdgeState::forming;
    edge.live = edge.waste_in = true;
    edge.between = whole - 1;
    edge.half = 2;
    edge.yarn = {};
    forming_edges_.push_back(fabric_->edges_.size());
  }
  const EdgeId id = fabric_->add(edge);
  fabric_->sections_[section_.value].cast_on = id;
  cast_on_method_ = cast_on.method;
  cast_on_edge_ = id;
  cast_on_tag_ = tag_;
  rows_since_cast_on_ = 0;
  comb_seen_ = false;
  counter_ = 0;
  return id;
}

// Every method that makes its loops of the yarn in the feeder.
void Machine::cast_on_loops(const CastOn& cast_on, const NeedleSet& main, const NeedleSet& second, Outcome& outcome) {
  const bool zigzag = cast_on.method == CastOnMethod::zigzag;
  const std::array<NeedleSet, 2> needles{main, second};
  const int count = main.count() + second.count();
  const YarnId yarn = first_yarn_;
  const bool to_right = cast_on.carriage == Side::right;
  const NeedleSet all = main | second;
  const int begin = to_right ? all.first() : all.last(), end = to_right ? all.last() : all.first();
  if (!zigzag) check_way_to_cast_on(outcome, cast_on.bed, all, begin);
  if (!zigzag) {   // a second layer cast on beside one just cast on: a ring, the beginning of a tube
    const BedState& facing = bed_of(other(cast_on.bed));
    if (!facing.carrying.empty() && facing.fresh == facing.carrying && carrying(cast_on.bed).empty()) tube_ = true;
  } else {
    const NeedleSet facing = (main | in_work(Bed::main)) & (second | in_work(Bed::second));
    if (pitch_ == Pitch::full && !facing.empty() && !quiet_opposed_) {
      raise(outcome, FaultKind::opposed_at_full_pitch, Bed::main, facing);
      quiet_opposed_ = true;
    }
  }
  for (const Bed each : {Bed::main, Bed::second}) {
    BedState& bed = bed_of(each);
    const NeedleSet& here = needles[static_cast<std::size_t>(each)];
    for (const int needle : here) set_hook(each, needle, Hook{});
    bed.in_work |= here;
    bed.fresh |= here;
    for (const int needle : here) bed.cause[static_cast<std::size_t>(needle)] = tag_;
    if (yarn.given() && !lasting(yarn)) bed.fleeting |= here;
    if (!here.empty()) {
      bed.last_pass = zigzag ? passes_ : -1;
      bed.tension_yarn = {};
    }
  }
  outcome.edges.push_back(add_cast_on_edge(cast_on, zigzag ? main : main | second, count, yarn));
  outcome.needles = zigzag ? main : main | second;
  outcome.loops += count;
  outcome.wrapped_from = opposite(cast_on.carriage);
  ledger_.cast_on += count;
  if (yarn.given()) {
    fabric_->yarns_[yarn.value].loops += count;
    if (!in_use(yarn)) add_end(yarn, false, {main.contains(begin) ? Bed::main : Bed::second, begin, passes_}, 0);
    set_place(yarn, YarnPlace{main.contains(end) ? Bed::main : Bed::second, end, passes_});
  }
  outcome.first_needle = begin;
  outcome.last_needle = end;
  outcome.last_bed = main.contains(end) ? Bed::main : Bed::second;
  if (!zigzag) return;
  tube_ = false;
  after_zigzag_ = true;
  carriage_ = cast_on.carriage;
  counter_ = 1;
  ++passes_;
  zigzag_at_ = passes_;
  outcome.passes = 1;
}

// Waste, the comb in it, and one row of ravel cord, which the knitting proper begins on. The waste may be cast on
// beside either side of an empty bed; on a bed in use the number of rows alone brings the carriage where it is asked.
void Machine::cast_on_waste(const CastOn& cast_on, const NeedleSet& needles, bool free_to_go, Outcome& outcome) {
  int rows = cast_on.waste_rows;
  const bool stays = carriage_.value_or(cast_on.carriage) == cast_on.carriage;
  if (rows <= 0) rows = free_to_go || stays ? 7 : 8;
  if (rows < rows_under_comb) {
    Fault& fault = raise(outcome, FaultKind::too_little_waste, cast_on.bed, needles);
    fault.a = rows;
    fault.b = rows_under_comb;
  }
  const int passes = rows + 1;
  const Side begin = even(passes) ? cast_on.carriage : opposite(cast_on.carriage);
  carriage_to(outcome, begin, free_to_go);
  const YarnId first = in_use(first_yarn_) ? YarnId{} : first_yarn_,
               second = in_use(second_yarn_) ? YarnId{} : second_yarn_;
  free_feeder(outcome, {}, {});
  first_yarn_ = first.given() ? first : second;   // a new yarn waits in the feeder meanwhile
  second_yarn_ = first.given() ? second : YarnId{};
  BedState& bed = bed_of(cast_on.bed);
  outcome.set_aside = bed.in_work & bed.carrying;
  for (const int needle : needles) set_hook(cast_on.bed, needle, Hook{});
  bed.in_work |= needles;
  bed.fleeting |= needles;
  bed.fresh -= needles;
  bed.last_pass = -1;
  bed.tension_yarn = {};
  const int count = needles.count();
  outcome.edges.push_back(add_cast_on_edge(cast_on, needles, count, cast_on.waste));
  outcome.needles = needles;
  outcome.waste_rows_before_comb = std::min(rows, rows_under_comb);
  outcome.waste_rows_after_comb = rows - outcome.waste_rows_before_comb;
  outcome.cord_rows = 1;
  outcome.wrapped_from = opposite(begin);
  outcome.passes = passes;
  outcome.loops = std::int64_t{count} * (passes + 1);
  ledger_.cast_on += count;
  fabric_->yarns_[cast_on.waste.value].loops += std::int64_t{count} * (rows + 1);
  fabric_->yarns_[cast_on.cord.value].loops += count;
  carriage_ = cast_on.carriage;
  passes_ += passes;
  comb_ = comb_seen_ = true;
  comb_edge_ = outcome.edges.front();
  comb_tag_ = tag_;
  hang_weights();
}

}  // namespace stk::runtime
