// The slow machine's beginnings and ends: casting on, hanging, taking off; and finishing.
#include <algorithm>

#include "tests/model/reference.hpp"

namespace stk::model {

namespace {

std::vector<int> ordered(const Needles& needles) { return std::vector<int>(needles.begin(), needles.end()); }

}  // namespace

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
    carriage_at(zigzag ? opposite(op.carriage) : op.carriage, empty_beds);
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
    return;
  }
  if (yarn.given()) {
    Needles all = needles[0];
    all.insert(needles[1].begin(), needles[1].end());
    const int begin = op.carriage == Side::right ? *all.begin() : *all.rbegin();
    const int end = op.carriage == Side::right ? *all.rbegin() : *all.begin();
    // one bed's needles only, unless it is a zigzag; both beds' ends at one position belong to the main bed
    const auto bed_at = [&](int n) { return needles[0].count(n) || (op.bed == Bed::second && !zigzag) ? Bed::main : Bed::second; };
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
}

void SlowMachine::run(const Hang& op) {
  if (!sock_.has(op.edge)) {
    say(FaultKind::edge_not_open).a = -1;
    return;
  }
  Edge& edge = sock_.edges[op.edge.value];
  if (edge.state == EdgeState::used) {
    say(FaultKind::edge_already_used, Bed::main, {}, edge.used).edge = op.edge;
    return;
  }
  if (edge.kind == EdgeKind::selvedge || edge.kind == EdgeKind::gathered || edge.state == EdgeState::forming) {
    Fault& fault = say(FaultKind::edge_not_open);
    fault.a = static_cast<std::int64_t>(edge.state);
    fault.edge = op.edge;
    return;
  }
  const bool folded = op.order == HangOrder::folded;
  if (folded && !bed_there(Bed::second, op.second_needles)) return;
  const Bed first_bed = folded ? Bed::main : op.bed;
  std::array<Needles, 2> needles;
  needles[static_cast<std::size_t>(first_bed)] = there(first_bed, op.needles);
  if (folded) needles[1] = there(Bed::second, op.second_needles);
  const int count = static_cast<int>(needles[0].size() + needles[1].size());
  if (count == 0) return;
  const bool bare = nothing_on_needles();
  if (op.carriage) carriage_at(*op.carriage, bare || !place(threaded()));
  bool fits = false;
  int loops = edge.whole;
  if (op.loops == Loops::whole && edge.whole > 0) {
    fits = count == edge.whole;
  } else {
    loops = edge.between;
    fits = count == edge.between || (edge.half > 0 && count - 1 == edge.between);
  }
  if (!fits) {
    std::vector<int> order = ordered(needles[static_cast<std::size_t>(first_bed)]);
    Needles left;
    for (int without = count - loops; without > 0 && !order.empty(); --without) {
      left.insert(order.back());
      order.pop_back();
    }
    Fault& fault = say(FaultKind::hang_counts_differ, first_bed, left, edge.made);
    fault.a = count;
    fault.b = edge.whole;
    fault.c = edge.between;
    fault.d = edge.half;
    fault.edge = op.edge;
  }
  if (comb_ && comb_in_ == op.edge) {
    if (!op.moves_comb) {
      say(FaultKind::comb_hangs_in_edge, Bed::main, {}, comb_tag_).edge = op.edge;
      comb_ = false;
    }
    comb_in_ = {};
  }
  for (const Bed bed : {Bed::main, Bed::second}) {
    for (const int n : needles[static_cast<std::size_t>(bed)]) {
      Needle& needle = at(bed, n);
      needle.loops.push_back(Loop{});
      needle.eyelet = false;
      if (!needle.held()) needle.position = Needle::Position::work;
    }
    bed_of(bed).fabric.reset();
    say_full(bed, needles[static_cast<std::size_t>(bed)]);
  }
  ledger_.hung += count;
  section_begun();
  if (bare) began_with_.reset();
  if (folded) {
    tube_ = true;
    bed_of(Bed::main).last_pass = bed_of(Bed::second).last_pass = -1;
  }
  Edge& used = sock_.edges[op.edge.value];   // the section may have made edges meanwhile
  if (used.kind != EdgeKind::slot_lower && used.kind != EdgeKind::slot_upper) used.waste_in = false;
  used.state = EdgeState::used;
  used.used = tag_;
}

void SlowMachine::run(const PickUp& op) {
  std::int64_t rows = 0;
  for (const EdgeId id : op.along) {
    if (!sock_.has(id) || sock_.edges[id.value].kind != EdgeKind::selvedge) {
      Fault& fault = say(FaultKind::edge_not_open);
      fault.a = sock_.has(id) ? static_cast<std::int64_t>(sock_.edges[id.value].state) : -1;
      fault.edge = id;
      return;
    }
    if (sock_.edges[id.value].state == EdgeState::used) {
      say(FaultKind::edge_already_used, Bed::main, {}, sock_.edges[id.value].used).edge = id;
      return;
    }
    rows += sock_.edges[id.value].rows;
  }
  Needles full, needles;
  for (const int n : there(op.bed, op.needles)) (at(op.bed, n).carries() ? full : needles).insert(n);
  if (!full.empty()) say(FaultKind::needles_carry, op.bed, full);
  if (needles.empty()) return;
  const Needles layer = carrying(op.bed);
  if (!layer.empty()) {
    bool beside = *needles.rbegin() - *needles.begin() + 1 == static_cast<int>(needles.size());
    if (op.onto == Side::left) beside = beside && layer.count(*needles.rbegin() + 1) && *needles.rbegin() < *layer.begin();
    if (op.onto == Side::right) beside = beside && layer.count(*needles.begin() - 1) && *needles.begin() > *layer.rbegin();
    if (!beside) say(FaultKind::pick_up_apart, op.bed, needles);
  }
  const std::int64_t count = static_cast<std::int64_t>(needles.size());
  const std::int64_t most = rows * std::max(op.loops, 1) / std::max(op.rows, 1);
  if (count != most) {
    Fault& fault = say(count < most ? FaultKind::pick_up_leaves_rows : FaultKind::pick_up_too_many, op.bed, needles);
    fault.a = count;
    fault.b = most;
    fault.c = rows;
    if (!op.along.empty()) fault.edge = op.along[0];
  }
  for (const int n : needles) {
    Needle& needle = at(op.bed, n);
    needle.loops = {Loop{Loop::Kind::stitch, true, false}};
    needle.position = Needle::Position::work;
    needle.eyelet = false;
  }
  ledger_.picked_up += count;
  section_begun();
  for (const EdgeId id : op.along) {
    sock_.edges[id.value].state = EdgeState::used;
    sock_.edges[id.value].used = tag_;
  }
}

void SlowMachine::run(const HangComb& op) {
  if (nothing_on_needles() || (op.on.given() && !sock_.has(op.on))) {
    say(FaultKind::comb_without_fabric);
    return;
  }
  const EdgeId edge = op.on.given() ? op.on : began_edge_;
  if (began_with_ && edge == began_edge_ && !comb_was_hung_) {
    const bool zigzag = *began_with_ == CastOnMethod::zigzag;
    const bool closed = *began_with_ == CastOnMethod::closed_by_latch || *began_with_ == CastOnMethod::closed_by_crochet;
    const int needed = zigzag ? 0 : closed ? 1 : 3;
    if (zigzag && rows_since_ > 0) say(FaultKind::comb_too_late, Bed::main, {}, began_tag_);
    if (rows_since_ < needed) {
      Fault& fault = say(FaultKind::comb_too_early, Bed::main, {}, began_tag_);
      fault.a = rows_since_;
      fault.b = needed;
    }
  }
  comb_ = comb_was_hung_ = true;
  comb_in_ = edge;
  comb_tag_ = tag_;
}

void SlowMachine::run(const HangWeights&) {
  for (BedOfNeedles& bed : beds_) {
    for (Needle& needle : bed.needles) {
      if (needle.held()) needle.held_since = passes_;
      needle.told_long = false;
    }
  }
}

void SlowMachine::run(const RemoveComb&) {
  if (!comb_) say(FaultKind::no_comb);
  comb_ = false;
  comb_in_ = {};
}

// -------------------------------------------------------------------------------------------------------- taking off

EdgeId SlowMachine::take_off_as(Bed bed, const Needles& needles, EdgeKind kind, EdgeState state, bool live) {
  Edge edge;
  edge.kind = kind;
  edge.state = state;
  edge.live = live;
  edge.waste_in = state == EdgeState::on_waste;
  edge.whole = static_cast<int>(needles.size());
  edge.bed = bed;
  for (const int n : needles) edge.needles.insert(n);
  edge.piece = piece_;
  edge.section = section_;
  edge.made = tag_;
  const EdgeId id{static_cast<std::uint32_t>(sock_.edges.size())};
  for (const HangingEnd& hanging : hanging_) {
    if (hanging.bed != bed || needles.count(hanging.needle) == 0) continue;
    YarnEnd& end = sock_.ends[hanging.end];
    end.edge = id;
    end.needle = hanging.needle;
    edge.yarn = end.yarn;
  }
  sock_.edges.push_back(edge);
  for (const int n : needles) {
    (live ? ledger_.to_edges : ledger_.secured) += static_cast<std::int64_t>(at(bed, n).loops.size());
    clear_needle(bed, n);
  }
  if (!needles.empty()) after_taking_off();
  return id;
}

void SlowMachine::run(const ScrapOff& op) {
  if (!sock_.has(op.waste)) {
    say(FaultKind::no_such_yarn, op.bed);
    return;
  }
  std::vector<Needles> parts;
  Needles all;
  for (const NeedleSet& part : op.parts) {
    Needles once, twice;
    for (const int n : there(op.bed, part)) (all.count(n) ? twice : once).insert(n);
    say_by_cause(FaultKind::without_loops, op.bed, twice);
    parts.push_back(loaded(op.bed, once));
    all.insert(parts.back().begin(), parts.back().end());
  }
  if (all.empty()) return;
  free_feeder({}, {});
  const int rows = op.rows > 0 ? op.rows : spec_.usual_waste_rows;
  if (rows < spec_.least_waste_rows) {
    Fault& fault = say(FaultKind::too_little_waste, op.bed, all);
    fault.a = rows;
    fault.b = spec_.least_waste_rows;
  }
  section_begun();
  for (const int n : all) {
    Needle& needle = at(op.bed, n);
    ledger_.merged += static_cast<std::int64_t>(needle.loops.size()) - 1;
    needle.loops.resize(1);
    sock_.yarn_loops[op.waste.value] += rows;
  }
  for (const Needles& part : parts) take_off_as(op.bed, part, EdgeKind::live, EdgeState::on_waste, true);
  for (int row = 0; row < rows; ++row) {
    ++passes_;
    ++counter_;
    if (carriage_) carriage_ = opposite(*carriage_);
  }
}

void SlowMachine::run(const TakeOff& op) {
  const Needles needles = loaded(op.bed, there(op.bed, op.needles));
  if (needles.empty()) return;
  section_begun();
  take_off_as(op.bed, needles, EdgeKind::live, EdgeState::on_holder, true);
}

void SlowMachine::run(const BindOff& op) {
  const Needles needles = loaded(op.bed, there(op.bed, op.needles));
  if (needles.empty()) return;
  section_begun();
  const int left = *needles.begin(), right = *needles.rbegin();
  const auto last = place(threaded());
  const bool here = last && last->bed == op.bed;
  if (!here || (last->needle != left && last->needle != right)) {
    say(FaultKind::yarn_not_at_end, op.bed, needles).needle = last ? last->needle : -1;
  }
  const int goes_to = last && last->needle == left ? right : left;
  const EdgeId edge = take_off_as(op.bed, needles, EdgeKind::bound_off, EdgeState::secure, false);
  if (feeder_.empty()) return;
  sock_.edges[edge.value].yarn = threaded();
  place_yarn(threaded(), YarnPlace{op.bed, goes_to, passes_});
}

void SlowMachine::run(const Gather& op) {
  const Needles needles = loaded(op.bed, there(op.bed, op.needles));
  if (needles.empty()) return;
  section_begun();
  const HangingEnd* found = nullptr;
  for (const HangingEnd& end : hanging_) {
    if (end.bed == op.bed && (end.needle == *needles.begin() || end.needle == *needles.rbegin())) found = &end;
  }
  if (found != nullptr) {
    YarnEnd& end = sock_.ends[found->end];
    end.used = true;
    if (end.tail_micrometres < op.tail_needed_micrometres) {
      Fault& fault = say(FaultKind::tail_too_short, op.bed, needles);
      fault.a = end.tail_micrometres;
      fault.b = op.tail_needed_micrometres;
      fault.yarn = end.yarn;
    }
  } else if (hanging_.empty()) {
    say(FaultKind::yarn_not_cut, op.bed, needles).yarn = threaded();
  } else {
    Fault& fault = say(FaultKind::tail_elsewhere, op.bed, needles);
    fault.needle = hanging_.back().needle;
    fault.a = *needles.rbegin();
    fault.yarn = sock_.ends[hanging_.back().end].yarn;
  }
  take_off_as(op.bed, needles, EdgeKind::gathered, EdgeState::secure, false);
}

void SlowMachine::run(const Drop& op) {
  const Needles needles = loaded(op.bed, there(op.bed, op.needles));
  for (const int n : needles) {
    ledger_.dropped += static_cast<std::int64_t>(at(op.bed, n).loops.size());
    clear_needle(op.bed, n);
  }
  if (!needles.empty()) after_taking_off();
}

void SlowMachine::run(const OpenSlot& op) {
  if (!sock_.has(op.slot)) {
    say(FaultKind::edge_not_open).a = -1;
    return;
  }
  Slot& slot = sock_.slots[op.slot.value];
  if (slot.opened) {
    Fault& fault = say(FaultKind::edge_already_used, Bed::main, {}, slot.opened_by);
    fault.slot = op.slot;
    fault.edge = slot.lower;
    return;
  }
  if (!slot.knitted_over) say(FaultKind::slot_not_knitted, Bed::main, {}, slot.made).slot = op.slot;
  for (const bool upper : {false, true}) {
    Edge& edge = sock_.edges[(upper ? slot.upper : slot.lower).value];
    edge.waste_in = false;
    if (edge.state == EdgeState::used || edge.state == EdgeState::on_holder) continue;
    edge.state = EdgeState::on_holder;
    if (upper && op.upper_on_holder) continue;
    Fault& fault = say(FaultKind::loops_hang_free, Bed::main, {}, slot.made);
    fault.a = upper;
    fault.slot = op.slot;
  }
  slot.opened = true;
  slot.opened_by = tag_;
}

void SlowMachine::run(const DrawWaste& op) {
  if (comb_ && op.edge.given() && comb_in_ == op.edge) {
    say(FaultKind::comb_hangs_in_edge, Bed::main, {}, comb_tag_).edge = op.edge;
    comb_ = false;
    comb_in_ = {};
  }
  for (Fault fault : sock_.finish(FinishingOperation{tag_, op})) {
    fault.counter = counter_;
    fault.pass = passes_;
    faults_.push_back(fault);
  }
}

void SlowMachine::run(const EndPiece&) {
  for (const Bed bed : {Bed::main, Bed::second}) {
    const Needles left = carrying(bed);
    if (left.empty()) continue;
    say(FaultKind::loops_on_needles, bed, left);
    for (const int n : left) {
      ledger_.dropped += static_cast<std::int64_t>(at(bed, n).loops.size());
      clear_needle(bed, n);
    }
    after_taking_off();
  }
  for (std::uint32_t yarn = 0; yarn < sock_.yarns.size(); ++yarn) {
    if (const auto last = place(YarnId{yarn})) {
      make_end(YarnId{yarn}, true, *last, 0);
      place_yarn(YarnId{yarn}, std::nullopt);
    }
  }
  feeder_.clear();
  hanging_.clear();
  comb_ = false;
  comb_in_ = {};
}

// --------------------------------------------------------------------------------------------------------- finishing

std::vector<Fault> Sock::finish(const FinishingOperation& operation) {
  std::vector<Fault> faults;
  const Tag tag = operation.tag;
  const auto say = [&](FaultKind kind, EdgeId edge = {}, Tag cause = no_tag) -> Fault& {
    Fault fault;
    fault.kind = kind;
    fault.tag = tag;
    fault.cause = cause;
    fault.edge = edge;
    faults.push_back(fault);
    return faults.back();
  };
  const auto ready = [&](EdgeId id, bool must_live) {
    if (!has(id)) {
      say(FaultKind::edge_not_open, id).a = -1;
      return false;
    }
    const Edge& edge = edges[id.value];
    if (edge.state == EdgeState::used) {
      say(FaultKind::edge_already_used, id, edge.used);
      return false;
    }
    if (must_live ? !edge.live || edge.state == EdgeState::forming : edge.live || edge.kind == EdgeKind::gathered) {
      say(FaultKind::edge_not_open, id).a = static_cast<std::int64_t>(edge.state);
      return false;
    }
    return true;
  };
  const auto use = [&](EdgeId id) {
    edges[id.value].state = EdgeState::used;
    edges[id.value].used = tag;
    edges[id.value].waste_in = false;
  };
  const auto too_short = [&](YarnEnd& end, std::int64_t needed, EdgeId a, EdgeId b) {
    end.used = true;
    if (end.tail_micrometres >= needed) return;
    Fault& fault = say(FaultKind::tail_too_short, a);
    fault.other_edge = b;
    fault.yarn = end.yarn;
    fault.a = end.tail_micrometres;
    fault.b = needed;
  };

  if (const auto* draw = std::get_if<DrawWaste>(&operation.what)) {
    if (!has(draw->edge)) {
      say(FaultKind::edge_not_open, draw->edge).a = -1;
      return faults;
    }
    Edge& edge = edges[draw->edge.value];
    if (edge.waste_in && edge.state != EdgeState::used) {
      say(FaultKind::waste_still_holds, draw->edge, edge.made);
      edge.state = EdgeState::free;
      edge.live = false;
    }
    edge.waste_in = false;
  } else if (const auto* graft = std::get_if<Graft>(&operation.what)) {
    const bool a_ready = ready(graft->a, true);
    if (graft->a == graft->b) {
      if (a_ready) say(FaultKind::edge_already_used, graft->b, tag);
      return faults;
    }
    const bool b_ready = ready(graft->b, true);
    if (!a_ready || !b_ready) return faults;
    const Edge a = edges[graft->a.value], b = edges[graft->b.value];
    const auto stitches = [](const Edge& edge) { return edge.whole > 0 ? edge.whole : edge.between + 1; };
    const bool two_feet = a.whole == 0 && b.whole == 0;
    const auto proper_foot = [](const Edge& edge) { return edge.whole > 0 || edge.half == 2; };
    if (two_feet || stitches(a) != stitches(b) || !proper_foot(a) || !proper_foot(b)) {
      Fault& fault = say(FaultKind::graft_counts_differ, graft->a);
      fault.other_edge = graft->b;
      fault.a = a.whole;
      fault.b = b.whole;
      fault.c = a.between;
      fault.d = b.between;
    }
    if (graft->with_tail) {
      // the needle of each edge where the work begins
      int of_a = graft->from == GraftFrom::left ? a.needles.first() : a.needles.last();
      int of_b = graft->from == GraftFrom::left ? b.needles.first() : b.needles.last();
      if (graft->from == GraftFrom::open_side || graft->from == GraftFrom::fold) {
        const bool a_on_left = a.needles.last() < b.needles.first();
        const bool outer = graft->from == GraftFrom::open_side;
        of_a = a_on_left == outer ? a.needles.first() : a.needles.last();
        of_b = a_on_left == outer ? b.needles.last() : b.needles.first();
      }
      YarnEnd* begin = nullptr;
      YarnEnd* other = nullptr;
      for (YarnEnd& end : ends) {
        if (!end.last) continue;
        if (end.edge == graft->a) (end.needle == of_a ? begin : other) = &end;
        if (end.edge == graft->b) (end.needle == of_b ? begin : other) = &end;
      }
      if (begin != nullptr) {
        too_short(*begin, graft->tail_needed_micrometres, graft->a, graft->b);
      } else {
        Fault& fault = say(FaultKind::tail_elsewhere, graft->a);
        fault.other_edge = graft->b;
        fault.bed = a.bed;
        fault.a = of_a;
        if (other != nullptr) {
          fault.bed = other->bed;
          fault.needle = other->needle;
          fault.a = other->edge == graft->b ? of_b : of_a;
          fault.yarn = other->yarn;
          other->used = true;
        }
      }
    }
    use(graft->a);
    use(graft->b);
  } else if (const auto* seam = std::get_if<Seam>(&operation.what)) {
    std::vector<EdgeId> all = seam->a;
    all.insert(all.end(), seam->b.begin(), seam->b.end());
    bool good = true, rows = false, stitches = false;
    std::int64_t lengths[2] = {0, 0}, allowed = 0;
    std::set<SectionId> sewn;
    for (std::size_t index = 0; index < all.size(); ++index) {
      const EdgeId id = all[index];
      if (!ready(id, false)) {
        good = false;
        continue;
      }
      const Edge& edge = edges[id.value];
      const bool selvedge = edge.kind == EdgeKind::selvedge;
      rows = rows || selvedge;
      stitches = stitches || !selvedge;
      lengths[index < seam->a.size() ? 0 : 1] += selvedge ? edge.rows : edge.whole;
      sewn.insert(edge.section);
    }
    const EdgeId first = seam->a.empty() ? EdgeId{} : seam->a[0], second = seam->b.empty() ? EdgeId{} : seam->b[0];
    if (good && rows && stitches) {
      say(FaultKind::seam_sorts_differ, first).other_edge = second;
    } else if (good) {
      for (const SectionId id : sewn) {
        if (rows) allowed += 2 * sections[id.value].short_row_series;
      }
      if (rows) allowed += std::max(lengths[0], lengths[1]) * 5 / 100;
      if (std::abs(lengths[0] - lengths[1]) > allowed) {
        Fault& fault = say(FaultKind::seam_counts_differ, first);
        fault.other_edge = second;
        fault.a = lengths[0];
        fault.b = lengths[1];
        fault.c = allowed;
      }
    }
    for (const EdgeId id : all) {
      if (has(id) && edges[id.value].state != EdgeState::used && !edges[id.value].live) use(id);
    }
    if (seam->with_tail) {
      YarnEnd* longest = nullptr;
      for (YarnEnd& end : ends) {
        if (!end.last || sewn.count(end.section) == 0) continue;
        if (longest == nullptr || longest->tail_micrometres < end.tail_micrometres) longest = &end;
      }
      if (longest != nullptr) {
        too_short(*longest, seam->tail_needed_micrometres, first, second);
      } else {
        Fault& fault = say(FaultKind::tail_elsewhere, first);
        fault.other_edge = second;
        fault.a = -1;
      }
    }
  } else if (const auto* close = std::get_if<CloseCorners>(&operation.what)) {
    if (!has(close->slot) || !slots[close->slot.value].opened) say(FaultKind::slot_not_opened).slot = close->slot;
    if (has(close->slot)) slots[close->slot.value].closed = true;
    for (const EdgeId id : close->selvedges) {
      if (!has(id)) {
        say(FaultKind::edge_not_open, id).a = -1;
      } else if (edges[id.value].state == EdgeState::used) {
        say(FaultKind::edge_already_used, id, edges[id.value].used);
      } else {
        use(id);
      }
    }
  } else if (const auto* thread = std::get_if<ThreadThrough>(&operation.what)) {
    for (const SectionId id : thread->sections) {
      if (id.value < sections.size() && sections[id.value].eyelets > 0) {
        sections[id.value].eyelets = 0;
      } else {
        say(FaultKind::no_eyelets).section = id;
      }
    }
  } else if (std::holds_alternative<WeaveInEnds>(operation.what)) {
    for (YarnEnd& end : ends) end.woven = true;
  } else {
    for (std::size_t index = 0; index < edges.size(); ++index) {
      const Edge& edge = edges[index];
      const EdgeId id{static_cast<std::uint32_t>(index)};
      if (edge.kind == EdgeKind::slot_lower || edge.kind == EdgeKind::slot_upper || edge.state == EdgeState::used) continue;
      if (edge.state == EdgeState::forming) {
        say(FaultKind::waste_left, id, edge.made);
      } else if (edge.live) {
        say(FaultKind::edge_never_secured, id, edge.made).a = edge.whole;
      }
    }
    for (std::size_t index = 0; index < slots.size(); ++index) {
      const Slot& slot = slots[index];
      const bool filled =
          edges[slot.lower.value].state == EdgeState::used && edges[slot.upper.value].state == EdgeState::used;
      if (filled && slot.closed) continue;
      Fault& fault = say(FaultKind::slot_not_closed, slot.lower, slot.made);
      fault.slot = SlotId{static_cast<std::uint32_t>(index)};
      fault.a = filled;
    }
    std::int64_t loose = 0;
    for (const YarnEnd& end : ends) loose += !end.used && !end.woven;
    if (loose > 0) say(FaultKind::ends_not_woven).a = loose;
  }
  return faults;
}

}  // namespace stk::model
