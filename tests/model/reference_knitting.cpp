// The slow machine knits: one pass at a time, one needle after the other.
#include <algorithm>
#include <string>

#include "tests/model/reference.hpp"

namespace stk::model {

void SlowMachine::new_loop(Bed bed, int n, YarnId yarn) {
  Needle& needle = at(bed, n);
  if (needle.loops.empty()) {
    ++ledger_.increased;
  } else {
    ledger_.merged += static_cast<std::int64_t>(needle.loops.size()) - 1;
  }
  for (auto& [edge, waiting] : marked_rows_) {
    if (sock_.edges[edge].bed == bed) waiting.erase(n);
  }
  needle.loops = {Loop{Loop::Kind::stitch, false, !sock_.lasting(yarn)}};
  needle.eyelet = needle.told_full = needle.told_pattern = false;
  if (sock_.has(yarn)) ++sock_.yarn_loops[yarn.value];
  std::erase_if(hanging_, [&](const HangingEnd& end) { return end.bed == bed && end.needle == n; });
}

// A lasting row over waste makes the edges that wait for it.
void SlowMachine::knitted_over_waste(Bed bed, const Needles& over, YarnId yarn) {
  for (const std::size_t index : waiting_edges_) {
    Edge& edge = sock_.edges[index];
    if (edge.state != EdgeState::forming || edge.bed != bed) continue;
    edge.state = EdgeState::on_waste;
    edge.yarn = yarn;
  }
  for (auto& [slot, waiting] : open_slots_) {
    if (sock_.edges[sock_.slots[slot].lower.value].bed != bed) continue;
    for (const int n : over) waiting.erase(n);
    if (!waiting.empty() || sock_.slots[slot].knitted_over) continue;
    sock_.slots[slot].knitted_over = true;
    sock_.edges[sock_.slots[slot].upper.value].state = EdgeState::on_waste;
  }
}

void SlowMachine::carriage_arrives() {
  carriage_ = opposite(*carriage_);
  ++counter_;
  ++passes_;
}

// Takes a yarn along its needles, from the side the carriage comes from, and leaves it at the last one.
bool SlowMachine::thread_along(Row& row, int feeder, YarnId yarn, const std::array<Needles, 2>& taking, Side from) {
  std::vector<int> path;   // positions where it is taken, in the order met
  for (int n = 0; n < spec_.needles; ++n) {
    if (taking[0].count(n) || taking[1].count(n)) path.push_back(n);
  }
  if (path.empty()) return false;
  if (from == Side::right) std::reverse(path.begin(), path.end());
  const auto bed_at = [&](int n) { return taking[0].count(n) ? Bed::main : Bed::second; };
  const std::string feeder_name = std::to_string(feeder);
  const auto told = [&](const std::string& what) { return !row.told.insert(what + feeder_name).second; };
  const auto float_fault = [&](int at_needle, int again, std::int64_t passed, int within, Tag cause) {
    Fault& fault = say(FaultKind::float_too_long, bed_at(again), {again}, cause);
    fault.needle = at_needle;
    fault.yarn = yarn;
    fault.a = passed;
    fault.b = spec_.float_limit;
    fault.c = within;
    fault.d = static_cast<std::int64_t>(row.index);
  };
  const auto loops_at = [&](Bed bed, int n) { return n >= 0 && n < bed_size(bed) && at(bed, n).carries() ? 1 : 0; };

  bool too_far = false;
  const int first = path.front();
  const Bed first_bed = bed_at(first);
  if (const auto last = place(yarn)) {
    std::int64_t passed = 0;
    const int low = std::min(last->needle, first), high = std::max(last->needle, first);
    const bool both = !taking[0].empty() && !taking[1].empty();
    if (last->bed == first_bed && !both) {
      for (int n = low + 1; n < high; ++n) passed += loops_at(first_bed, n);
    } else if (last->bed != first_bed && (tube_ || row.mode == KnitMode::rounds)) {
      std::int64_t round_left = 0, round_right = 0;
      for (int n = 0; n < spec_.needles; ++n) {
        round_left += (n < last->needle ? loops_at(last->bed, n) : 0) + (n < first ? loops_at(first_bed, n) : 0);
        round_right += (n > last->needle ? loops_at(last->bed, n) : 0) + (n > first ? loops_at(first_bed, n) : 0);
      }
      passed = std::min(round_left, round_right);
    } else {
      for (int n = low + 1; n < high; ++n) passed += loops_at(Bed::main, n) || loops_at(Bed::second, n);
    }
    too_far = passed > spec_.float_limit;
    if (too_far && !told("way")) {
      int beside = from == Side::left ? first - 1 : first + 1;
      while (beside >= 0 && beside < spec_.needles && !loops_at(first_bed, beside))
        beside += from == Side::left ? -1 : 1;
      const bool held = loops_at(first_bed, beside) && at(first_bed, beside).held();
      const bool new_loop = !held && fresh(first_bed, first);
      const Tag cause = held ? at(first_bed, beside).cause : new_loop ? at(first_bed, first).cause : no_tag;
      float_fault(last->needle, first, passed, new_loop ? 3 : 0, cause);
    }
  } else {
    make_end(yarn, false, {first_bed, first, passes_}, 0);
  }
  place_yarn(yarn, YarnPlace{bed_at(path.back()), path.back(), passes_});

  struct Gap {
    int at, again;
    std::int64_t passed;
    Tag cause;
  };
  std::optional<Gap> longest;
  for (std::size_t step = 1; step < path.size(); ++step) {
    const int low = std::min(path[step - 1], path[step]), high = std::max(path[step - 1], path[step]);
    std::int64_t passed = 0;
    std::vector<Needle*> held, others;
    Tag cause = no_tag;
    for (int n = low + 1; n < high; ++n) {
      bool any = false;
      for (const Bed bed : {Bed::main, Bed::second}) {
        if (taking[static_cast<std::size_t>(bed)].empty() || !loops_at(bed, n)) continue;
        any = true;
        (at(bed, n).held() ? held : others).push_back(&at(bed, n));
      }
      passed += any;
    }
    if (passed <= spec_.float_limit) continue;
    for (const Bed bed : {Bed::second, Bed::main}) {   // the main bed's leftmost has the last word
      if (taking[static_cast<std::size_t>(bed)].empty()) continue;
      for (int n = high - 1; n > low; --n) {
        if (loops_at(bed, n) && at(bed, n).held()) cause = at(bed, n).cause;
      }
    }
    bool known = others.empty();
    for (Needle* needle : held) {
      known = known && needle->told_gap;
      needle->told_gap = true;
    }
    if (known) continue;
    if (!longest || passed > longest->passed) longest = Gap{path[step - 1], path[step], passed, cause};
  }
  if (longest && !told("within")) float_fault(longest->at, longest->again, longest->passed, 1, longest->cause);

  std::optional<Gap> ladder;
  for (std::size_t step = 1; step < path.size(); ++step) {
    const int low = std::min(path[step - 1], path[step]), high = std::max(path[step - 1], path[step]);
    bool bare = true, known = true;
    for (int n = low + 1; n < high; ++n) {
      for (const Bed bed : {Bed::main, Bed::second}) {
        if (!taking[static_cast<std::size_t>(bed)].empty() && loops_at(bed, n)) bare = false;
      }
      known = known && told_bare_.count(n) > 0;
    }
    if (!bare || known || high - low - 1 <= spec_.float_limit) continue;
    for (int n = low + 1; n < high; ++n) told_bare_.insert(n);
    if (!ladder || ladder->passed < high - low - 1)
      ladder = Gap{path[step - 1], path[step], high - low - 1, at(bed_at(path[step]), low + 1).cause};
  }
  if (ladder) float_fault(ladder->at, ladder->again, ladder->passed, 2, ladder->cause);
  return too_far;
}

void SlowMachine::one_pass(Row& row) {
  if (!carriage_) carriage_ = Side::right;
  if (row.mode == KnitMode::rows) rounds_since_zigzag_.reset();
  if (rounds_since_zigzag_) ++*rounds_since_zigzag_;
  const Side from = *carriage_, to = opposite(from);
  if (knits_ == CarriageKnits::to_left && to == Side::right) return carriage_arrives();
  if (knits_ == CarriageKnits::to_right && to == Side::left) return carriage_arrives();
  const Bed of_round = to == row.main_to ? Bed::main : Bed::second;
  if (row.mode == KnitMode::rounds && rests(of_round)) return carriage_arrives();

  std::array<Needles, 2> worked;
  for (const Bed bed : {Bed::main, Bed::second}) {
    if (rests(bed) || (row.mode == KnitMode::rounds && bed != of_round)) continue;
    worked[static_cast<std::size_t>(bed)] = working(bed);
  }
  Needles coloured, tucks, slips;
  if (row.pattern) {
    for (const int n : Needles(worked[0])) {
      if (!row.pattern->rows[row.index].contains(n)) continue;
      switch (row.pattern->kind) {
        case PatternKind::two_colour: coloured.insert(n); break;
        case PatternKind::tuck:
          if (at(Bed::main, n).carries()) tucks.insert(n);
          break;
        case PatternKind::slip:
          worked[0].erase(n);
          if (at(Bed::main, n).carries()) slips.insert(n);
          break;
      }
    }
  }
  if (worked[0].empty() && worked[1].empty()) {
    const Bed looked_at = row.mode == KnitMode::rounds ? of_round : Bed::main;
    if (told_nothing_.insert(looked_at).second) say(FaultKind::nothing_in_work, looked_at);
    if (row.mode == KnitMode::rows) told_nothing_ = {Bed::main, Bed::second};
    return carriage_arrives();
  }
  told_nothing_.erase(row.mode == KnitMode::rounds ? of_round : Bed::main);
  if (row.mode == KnitMode::rows) told_nothing_.clear();
  if (feeder_.empty()) {
    if (!told_no_yarn_) say(FaultKind::no_yarn_threaded);
    told_no_yarn_ = true;
    return carriage_arrives();
  }
  if (!coloured.empty() && feeder_.size() < 2) {
    if (row.told.insert("second yarn").second) {
      say(FaultKind::no_second_yarn).d = static_cast<std::int64_t>(row.index);
    }
    coloured.clear();
  }
  section_begun();

  // two beds
  if (spec_.beds == 2) {
    Needles facing;
    if (pitch_ == Pitch::full && !rests(Bed::main) && !rests(Bed::second)) {
      for (const int n : working(Bed::main)) {
        if (at(Bed::second, n).in_work()) facing.insert(n);
      }
    }
    if (!facing.empty() && !told_facing_) say(FaultKind::opposed_at_full_pitch, Bed::main, facing);
    told_facing_ = !facing.empty();
    if (row.mode == KnitMode::rows) {
      if (tube_ && !worked[0].empty() && !worked[1].empty()) {
        say(FaultKind::layers_joined);
        tube_ = false;
        turns_ = {};
      }
    } else {
      const Needles layer = carrying(of_round);
      Needles open;
      if (!layer.empty()) {
        for (const int end : {*layer.begin(), *layer.rbegin()}) {
          if (worked[static_cast<std::size_t>(of_round)].count(end) == 0) open.insert(end);
        }
      }
      if (!open.empty() && row.told.insert(of_round == Bed::main ? "open main" : "open second").second) {
        say_by_cause(FaultKind::tube_side_open, of_round, open);
      }
    }
  }
  if (tube_) {
    const Bed bed = worked[0].empty() ? Bed::second : Bed::main;
    if (turns_[static_cast<std::size_t>(from)].at_end && turn_bed_ == bed)
      turns_[static_cast<std::size_t>(from)].turned = true;
    std::vector<std::int64_t> gaping;
    Tag first = no_tag;
    for (const Side side : {Side::left, Side::right}) {
      Turn& turn = turns_[static_cast<std::size_t>(side)];
      turn.at_end = false;
      if (row.mode == KnitMode::rows || !turn.turned) continue;
      if (gaping.empty()) first = turn.tag;
      gaping.push_back(side == Side::right);
      turn = {};
    }
    if (!gaping.empty()) say(FaultKind::corner_gap, turn_bed_, {}, first).a = gaping.size() == 2 ? 2 : gaping[0];
  }

  // empty needles
  for (const Bed bed : {Bed::main, Bed::second}) {
    Needles bare, on_edge, beside_edge;
    for (const int n : worked[static_cast<std::size_t>(bed)]) {
      const Needle& needle = at(bed, n);
      if (needle.carries()) continue;
      if (!needle.eyelet) {
        bare.insert(n);
        continue;
      }
      Needles left, right;
      for (const Bed each : {Bed::main, Bed::second}) {
        for (const int m : carrying(each)) {
          if (m < n) left.insert(m);
          if (m > n) right.insert(m);
        }
      }
      if (!tube_ && (left.empty() || right.empty())) {
        on_edge.insert(n);
        continue;
      }
      ++sock_.sections[section_.value].eyelets;
      if (!tube_ && (left.size() == 1 || right.size() == 1)) beside_edge.insert(n);
    }
    say_by_cause(FaultKind::empty_needles_knitted, bed, bare);
    say_by_cause(FaultKind::eyelet_on_edge, bed, on_edge);
    say_by_cause(FaultKind::eyelet_beside_edge, bed, beside_edge);
  }

  // pattern rows
  if (!tucks.empty()) {
    Needles widest, run, too_long;
    for (int n = 0; n <= spec_.needles; ++n) {
      if (tucks.count(n)) {
        run.insert(n);
        continue;
      }
      if (run.size() > widest.size()) widest = run;
      run.clear();
    }
    if (static_cast<int>(widest.size()) > spec_.tuck_neighbours && row.told.insert("tucks").second) {
      Fault& fault = say(FaultKind::tucks_side_by_side, Bed::main, widest);
      fault.a = static_cast<std::int64_t>(widest.size());
      fault.b = spec_.tuck_neighbours;
      fault.d = static_cast<std::int64_t>(row.index);
    }
    for (const int n : tucks) {
      Needle& needle = at(Bed::main, n);
      int on_hook = 0;
      for (const Loop& loop : needle.loops) on_hook += loop.kind == Loop::Kind::tuck;
      if (on_hook < spec_.tuck_limit || needle.told_pattern) continue;
      needle.told_pattern = true;
      too_long.insert(n);
    }
    if (!too_long.empty()) {
      Fault& fault = say(FaultKind::tuck_too_long, Bed::main, too_long);
      fault.a = spec_.tuck_limit;
      fault.d = static_cast<std::int64_t>(row.index);
    }
  }
  Needles slipped_long;
  for (int n = 0; n < spec_.needles; ++n) {
    Needle& needle = at(Bed::main, n);
    needle.slipped = slips.count(n) ? needle.slipped + 1 : 0;
    if (needle.slipped <= spec_.slip_limit || needle.told_pattern) continue;
    needle.told_pattern = true;
    slipped_long.insert(n);
  }
  if (!slipped_long.empty()) {
    Fault& fault = say(FaultKind::slip_too_long, Bed::main, slipped_long);
    fault.a = spec_.slip_limit;
    fault.d = static_cast<std::int64_t>(row.index);
  }

  // the yarn's way
  const YarnId yarn = feeder_[0];
  const bool from_fabric = place(yarn).has_value();
  Needles plain = worked[0];
  for (const int n : coloured) plain.erase(n);
  const bool floated = thread_along(row, 0, yarn, {plain, worked[1]}, from);
  if (!coloured.empty()) thread_along(row, 1, feeder_[1], {coloured, Needles{}}, from);
  if (row.mode == KnitMode::rows && from_fabric && sock_.lasting(yarn)) {
    for (const Bed bed : {Bed::main, Bed::second}) {
      const Needles& needles = worked[static_cast<std::size_t>(bed)];
      if (needles.empty()) continue;
      int n = from == Side::left ? *needles.begin() : *needles.rbegin();
      do n += from == Side::left ? -1 : 1;
      while (n >= 0 && n < spec_.needles && !at(bed, n).carries());
      if (n < 0 || n >= spec_.needles || !at(bed, n).held() || at(bed, n).closed) continue;
      at(bed, n).closed = true;
      if (floated) continue;
      std::int64_t together = 0;
      for (int m = 0; m < spec_.needles; ++m) together += at(bed, m).held() && at(bed, m).cause == at(bed, n).cause;
      say(at(bed, n).waiting ? FaultKind::open_slit : FaultKind::open_turn, bed, {n}, at(bed, n).cause).a = together;
    }
  }
  if (sock_.lasting(yarn)) {
    for (const Bed bed : {Bed::main, Bed::second}) {
      if (worked[static_cast<std::size_t>(bed)].empty()) continue;
      BedOfNeedles& of = bed_of(bed);
      const std::int64_t jump = std::abs(std::int64_t{of.tension} - of.fabric_tension);
      if (of.fabric == std::make_pair(yarn, section_) && jump > spec_.abrupt_tension_tenths) {
        Fault& fault = say(FaultKind::tension_jumps, bed);
        fault.a = of.fabric_tension;
        fault.b = of.tension;
      }
      of.fabric = std::make_pair(yarn, section_);
      of.fabric_tension = of.tension;
    }
  }
  too_far_from_weights(worked);

  // the loops
  for (const Bed bed : {Bed::main, Bed::second}) {
    for (const int second_yarn : {0, 1}) {
      const YarnId of = second_yarn ? (feeder_.size() > 1 ? feeder_[1] : YarnId{}) : yarn;
      Needles made;
      bool over_waste = false;
      for (const int n : worked[static_cast<std::size_t>(bed)]) {
        const bool is_coloured = bed == Bed::main && coloured.count(n) > 0;
        if (is_coloured != (second_yarn == 1) || (bed == Bed::main && tucks.count(n))) continue;
        bool waste = at(bed, n).carries();
        for (const Loop& loop : at(bed, n).loops) waste = waste && (loop.waste || loop.kind != Loop::Kind::stitch);
        over_waste = over_waste || waste;
        new_loop(bed, n, of);
        made.insert(n);
      }
      if (made.empty()) continue;
      bed_of(bed).last_pass = passes_;
      if (over_waste && sock_.lasting(of)) knitted_over_waste(bed, made, of);
    }
  }
  for (const int n : tucks) {
    at(Bed::main, n).loops.push_back(Loop{Loop::Kind::tuck});
    ++ledger_.tucked;
    ++sock_.yarn_loops[yarn.value];
  }

  // the edges
  if (sock_.lasting(yarn)) {
    Section& section = sock_.sections[section_.value];
    ++section.passes;
    bool held = false;
    for (const Bed bed : {Bed::main, Bed::second}) {
      for (int n = 0; n < bed_size(bed); ++n) held = held || at(bed, n).held();
    }
    if (held && !short_rows_) ++section.short_row_series;
    short_rows_ = held;
    if (!held) short_rows_seen_ = false;
    const bool one_layer = worked[0].empty() != worked[1].empty();
    if (row.mode == KnitMode::rows && (!tube_ || one_layer)) {
      if (tube_) section.layer_alone = true;
      const auto knitted = [&](int n) {
        return (worked[0].count(n) && tucks.count(n) == 0) || worked[1].count(n);
      };
      int left = 0, right = spec_.needles - 1;
      const auto bare = [&](int n) {
        if (tube_) return !at(worked[0].empty() ? Bed::second : Bed::main, n).carries();   // the layer that is knitted
        return !at(Bed::main, n).carries() && (spec_.beds < 2 || !at(Bed::second, n).carries());
      };
      while (bare(left)) ++left;
      while (bare(right)) --right;
      if (knitted(left)) ++sock_.edges[section.left.value].rows;
      if (knitted(right)) ++sock_.edges[section.right.value].rows;
    }
  }
  if (tube_) {
    int last = -1;
    for (const Needles& needles : worked) {
      for (const int n : needles) last = last < 0 ? n : to == Side::left ? std::min(last, n) : std::max(last, n);
    }
    const Bed bed = worked[0].count(last) ? Bed::main : Bed::second;
    const Needles layer = carrying(bed);
    if (last == (to == Side::left ? *layer.begin() : *layer.rbegin())) {
      turns_[static_cast<std::size_t>(to)].at_end = true;
      turns_[static_cast<std::size_t>(to)].tag = tag_;
      if (turn_bed_ != bed) turns_[static_cast<std::size_t>(from)] = {};
      turn_bed_ = bed;
    }
  }
  zigzag_just_made_ = false;
  ++rows_since_;
  carriage_arrives();
}

}  // namespace stk::model
