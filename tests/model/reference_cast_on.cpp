// The slow machine casts on.
#include <algorithm>

#include "tests/model/reference.hpp"

namespace stk::model {

void SlowMachine::run(const CastOn& op) {
  const bool zigzag = op.method == CastOnMethod::zigzag, on_waste = op.method == CastOnMethod::open_on_waste;
  if (zigzag && !bed_there(Bed::second, op.second_needles)) return;
  if (on_waste && (!sock_.has(op.waste) || !sock_.has(op.cord))) {
    say(FaultKind::no_such_yarn);
    return;
  }
  const Bed first_bed = zigzag ? Bed::main : op.bed;
  std::array<Needles, 2> needles;
  needles[static_cast<std::size_t>(first_bed)] = there(first_bed, op.needles);
  if (zigzag) needles[1] = there(Bed::second, op.second_needles);
  for (const Bed bed : {Bed::main, Bed::second}) {
    Needles full;
    for (const int n : Needles(needles[static_cast<std::size_t>(bed)])) {
      if (!at(bed, n).carries()) continue;
      full.insert(n);
      needles[static_cast<std::size_t>(bed)].erase(n);
    }
    if (!full.empty()) say(FaultKind::needles_carry, bed, full);
  }
  const int count = static_cast<int>(needles[0].size() + needles[1].size());
  if (count == 0) {
    if (faults_.empty()) say(FaultKind::nothing_in_work, first_bed);
    return;
  }
  if (!on_waste && feeder_.empty()) {
    if (!told_no_yarn_) say(FaultKind::no_yarn_threaded);
    told_no_yarn_ = true;
  }
  section_begun();
  rounds_since_zigzag_.reset();
  const bool empty_beds = nothing_on_needles();
  const YarnId yarn = on_waste ? op.waste : threaded();
  int waste_rows = 0;
  if (on_waste) {
    const bool there_already = !carriage_ || *carriage_ == op.carriage;
    waste_rows = op.waste_rows > 0 ? op.waste_rows : empty_beds || there_already ? 7 : 8;
    if (waste_rows < 3) {
      Fault& fault = say(FaultKind::too_little_waste, op.bed, needles[static_cast<std::size_t>(op.bed)]);
      fault.a = waste_rows;
      fault.b = 3;
    }
    carriage_at(waste_rows % 2 == 1 ? op.carriage : opposite(op.carriage), empty_beds);
    std::vector<YarnId> kept;
    for (const YarnId in_feeder : feeder_) {
      if (place(in_feeder)) {
        say(FaultKind::feeder_busy).yarn = in_feeder;
      } else {
        kept.push_back(in_feeder);
      }
    }
    feeder_ = kept;
  } else {
    bool hand_work_only = !zigzag && !zigzag_just_made_;
    for (const Bed bed : {Bed::main, Bed::second}) {
      for (const int n : carrying(bed)) hand_work_only = hand_work_only && fresh(bed, n);
    }
    carriage_at(zigzag ? opposite(op.carriage) : op.carriage, empty_beds || hand_work_only);
    if (const auto last = place(threaded()); last && !zigzag) {
      const Needles& wrapped = needles[static_cast<std::size_t>(op.bed)];
      const int begin = op.carriage == Side::right ? *wrapped.begin() : *wrapped.rbegin();
      std::int64_t between = 0, round_left = 0, round_right = 0;
      Needles there = carrying(last->bed), here = carrying(op.bed);
      here.insert(wrapped.begin(), wrapped.end());
      if (last->bed == op.bed) there = here;
      for (const int n : there) {
        between += (n > last->needle && n < begin) || (n < last->needle && n > begin);
        round_left += n < last->needle;
        round_right += n > last->needle;
      }
      for (const int n : here) {
        round_left += n < begin;
        round_right += n > begin;
      }
      const std::int64_t passed = last->bed == op.bed ? between : std::min(round_left, round_right);
      if (passed > spec_.float_limit) {
        Fault& fault = say(FaultKind::float_too_long, op.bed, {begin});
        fault.needle = last->needle;
        fault.yarn = threaded();
        fault.a = passed;
        fault.b = spec_.float_limit;
        fault.c = 3;
      }
    }
    if (!zigzag) {
      const Bed facing = other(op.bed);
      bool just_cast_on = !carrying(facing).empty() && carrying(op.bed).empty();
      for (const int n : carrying(facing)) {
        for (const Loop& loop : at(facing, n).loops) {
          if (loop.kind == Loop::Kind::stitch && !loop.fresh) just_cast_on = false;
        }
      }
      if (just_cast_on) tube_ = true;
    } else {
      Needles facing;
      for (int n = 0; n < spec_.needles; ++n) {
        const bool main = needles[0].count(n) || at(Bed::main, n).in_work();
        const bool second = needles[1].count(n) || at(Bed::second, n).in_work();
        if (main && second) facing.insert(n);
      }
      if (pitch_ == Pitch::full && !facing.empty()) {
        if (!told_facing_) say(FaultKind::opposed_at_full_pitch, Bed::main, facing);
        told_facing_ = true;
      }
    }
  }
  for (const Bed bed : {Bed::main, Bed::second}) {
    for (const int n : needles[static_cast<std::size_t>(bed)]) {
      Needle& needle = at(bed, n);
      needle.loops = {Loop{Loop::Kind::stitch, !on_waste, on_waste || (yarn.given() && !sock_.lasting(yarn))}};
      needle.position = Needle::Position::work;
      needle.eyelet = false;
      if (!on_waste) needle.cause = tag_;
      bed_of(bed).last_pass = zigzag ? passes_ : -1;
      bed_of(bed).fabric.reset();
    }
  }
  Edge edge;
  edge.kind = EdgeKind::cast_on;
  edge.method = op.method;
  edge.whole = count;
  edge.bed = first_bed;
  for (const int n : needles[static_cast<std::size_t>(first_bed)]) edge.needles.insert(n);
  edge.piece = piece_;
  edge.section = section_;
  edge.yarn = yarn;
  edge.made = tag_;
  if (on_waste || (yarn.given() && !sock_.lasting(yarn))) {
    waiting_edges_.push_back(sock_.edges.size());
    edge.state = EdgeState::forming;
    edge.live = edge.waste_in = true;
    edge.between = count - 1;
    edge.half = 2;
    edge.yarn = {};
  }
  began_edge_ = EdgeId{static_cast<std::uint32_t>(sock_.edges.size())};
  sock_.edges.push_back(edge);
  sock_.sections[section_.value].cast_on = began_edge_;
  began_with_ = op.method;
  began_tag_ = tag_;
  rows_since_ = 0;
  comb_was_hung_ = false;
  counter_ = 0;
  ledger_.cast_on += count;
  if (on_waste) {
    sock_.yarn_loops[op.waste.value] += std::int64_t{count} * (waste_rows + 1);
    sock_.yarn_loops[op.cord.value] += count;
    carriage_ = op.carriage;
    passes_ += waste_rows + 1;
    comb_ = comb_was_hung_ = true;
    comb_in_ = began_edge_;
    comb_tag_ = tag_;
    weights_on();
    return;
  }
  if (yarn.given()) {
    Needles all = needles[0];
    all.insert(needles[1].begin(), needles[1].end());
    const int begin = op.carriage == Side::right ? *all.begin() : *all.rbegin();
    const int end = op.carriage == Side::right ? *all.rbegin() : *all.begin();
    // one bed's needles only, unless it is a zigzag; both beds' ends at one position belong to the main bed
    const auto bed_at = [&](int n) {
      return needles[0].count(n) || (op.bed == Bed::second && !zigzag) ? Bed::main : Bed::second;
    };
    const auto bed_of_needle = [&](int n) { return zigzag || op.bed == Bed::main ? bed_at(n) : Bed::second; };
    sock_.yarn_loops[yarn.value] += count;
    if (!place(yarn)) make_end(yarn, false, {bed_of_needle(begin), begin, passes_}, 0);
    place_yarn(yarn, YarnPlace{bed_of_needle(end), end, passes_});
  }
  if (!zigzag) return;
  tube_ = false;
  zigzag_just_made_ = true;
  carriage_ = op.carriage;
  counter_ = 1;
  ++passes_;
  rounds_since_zigzag_ = 0;
}

}  // namespace stk::model
