// The slow machine begins: casting on, hanging, picking up, the comb.
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
  if (count == 0) {
    Fault& fault = say(FaultKind::hang_counts_differ, first_bed, {}, edge.made);
    fault.b = op.loops == Loops::whole ? edge.whole : 0;
    fault.c = edge.between;
    fault.d = edge.half;
    fault.edge = op.edge;
    return;
  }
  const bool bare = nothing_on_needles();
  if (op.carriage) carriage_at(*op.carriage, bare || !place(threaded()));
  bool ring = !folded && edge.kind == EdgeKind::cast_on && began_with_ && began_edge_ == op.edge;
  ring = ring && edge.bed == other(first_bed) && carrying(first_bed).empty() && !carrying(edge.bed).empty();
  bool fits = false;
  int loops = edge.whole;
  Needles outside;
  bool gaps_only = false;
  if (op.loops == Loops::whole && edge.whole > 0) {
    fits = count == edge.whole;
  } else {
    loops = edge.between;
    // the half loops of a cast-on are below its two end stitches
    if (edge.kind == EdgeKind::cast_on && edge.bed == first_bed) {
      for (const int n : needles[static_cast<std::size_t>(first_bed)]) {
        if (n < edge.needles.first() || n > edge.needles.last()) outside.insert(n);
      }
    }
    // one needle above each place where needles of the cast-on were out of work
    std::vector<int> cast_on;
    for (const int n : edge.needles) cast_on.push_back(n);
    std::size_t wide = 0, met = 0;
    for (std::size_t k = 1; k < cast_on.size(); ++k) {
      if (cast_on[k] - cast_on[k - 1] < 2) continue;
      ++wide;
      int above = 0;
      for (const int n : needles[static_cast<std::size_t>(first_bed)]) above += n > cast_on[k - 1] && n < cast_on[k];
      met += above == 1 ? 1 : 0;
    }
    gaps_only = edge.kind == EdgeKind::cast_on && edge.bed == first_bed && wide > 0 && met == wide &&
                needles[static_cast<std::size_t>(first_bed)].size() == wide;
    fits = gaps_only || count == edge.between || (edge.half > 0 && outside.empty() && count - 1 == edge.between);
  }
  if (!fits) {
    std::vector<int> order = ordered(needles[static_cast<std::size_t>(first_bed)]);
    Needles left;
    for (int without = count - loops; without > 0 && !order.empty(); --without) {
      left.insert(order.back());
      order.pop_back();
    }
    if (outside.size() == left.size() && !(op.loops == Loops::whole && edge.whole > 0)) left = outside;
    Fault& fault = say(FaultKind::hang_counts_differ, first_bed, left, edge.made);
    fault.a = count;
    fault.b = op.loops == Loops::whole ? edge.whole : 0;
    fault.c = edge.between;
    fault.d = edge.half;
    fault.edge = op.edge;
  }
  const Needles& goes_to = needles[static_cast<std::size_t>(first_bed)];
  if (fits && !folded && goes_to.size() > 1) order_hung(op, goes_to, gaps_only);
  Needles taken;
  bool outside_work = false;
  for (const int n : goes_to) {
    const Needles work = carrying(first_bed);
    if (work.count(n)) taken.insert(n);
    outside_work = outside_work || work.empty() || n < *work.begin() || n > *work.rbegin();
  }
  if (!folded && outside_work && !taken.empty() && taken.size() < goes_to.size()) say(FaultKind::needles_carry, first_bed, taken);
  bool fold_takes_weights = false;
  if (comb_ && comb_in_ == op.edge) {
    if (!op.moves_comb) {
      say(FaultKind::comb_hangs_in_edge, Bed::main, {}, comb_tag_).edge = op.edge;
      comb_ = false;
    }
    comb_in_ = {};
    weights_off();
    fold_takes_weights = comb_;
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
  if (fold_takes_weights) weights_on();
  if (bare) began_with_.reset();
  if (ring) tube_ = true;
  if (folded) {
    tube_ = true;
    bed_of(Bed::main).last_pass = bed_of(Bed::second).last_pass = -1;
  }
  Edge& used = sock_.edges[op.edge.value];   // the section may have made edges meanwhile
  if (used.kind != EdgeKind::slot_lower && used.kind != EdgeKind::slot_upper) used.waste_in = false;
  used.state = EdgeState::used;
  used.used = tag_;
}

// Follows the fabric from its cast-on edge to the needles.
void SlowMachine::order_hung(const Hang& op, const Needles& needles, bool gaps_only) {
  const Edge edge = sock_.edges[op.edge.value];
  if (edge.kind != EdgeKind::cast_on || edge.piece != piece_) return;
  const Needles work = carrying(edge.bed);
  if (work.empty()) return;
  int inside = 0, left = 0, right = 0;
  for (const int n : needles) {
    left += n < *work.begin();
    right += n > *work.rbegin();
    inside += n >= *work.begin() && n <= *work.rbegin();
  }
  const int all = static_cast<int>(needles.size());
  bool below = false;   // the edge of the stitches on the needles
  for (const int n : edge.needles) below = below || work.count(n);
  below = below && began_with_ && began_edge_ == op.edge;
  const bool turned = op.order == HangOrder::reversed;
  std::optional<int> crossed;
  if (op.bed == edge.bed && inside == all) {
    if (turned) crossed = 0;
  } else if (op.bed == edge.bed) {
    if (below && !turned && (left == all || right == all)) crossed = 2;
  } else if (below && turned) {
    crossed = 1;
  }
  if (crossed) {
    Fault& fault = say(FaultKind::hung_crossed, op.bed, needles, edge.made);
    fault.a = *crossed;
    fault.edge = op.edge;
    return;
  }
  if (op.bed != edge.bed || inside != all || gaps_only) return;
  std::vector<int> from;
  for (const int n : edge.needles) from.push_back(n);
  std::vector<int> to = ordered(needles);
  int farthest = 0;
  while (!to.empty() && !from.empty()) {
    int way = to.front() - from.front();
    if (!(op.loops == Loops::whole && edge.whole > 0) && from.size() > 1 && way > 0) way = std::max(0, to.front() - from[1]);
    if (std::abs(farthest) < std::abs(way)) farthest = way;
    to.erase(to.begin());
    from.erase(from.begin());
  }
  if (farthest == 0) return;
  Fault& fault = say(FaultKind::hung_aside, op.bed, needles, edge.made);
  fault.a = farthest;
  fault.edge = op.edge;
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
    rows += sock_.edges[id.value].rows - sock_.edges[id.value].joined;
  }
  const auto crosses = std::find_if(op.along.begin(), op.along.end(), [&](EdgeId id) {
    return sock_.edges[id.value].piece == piece_ && sock_.edges[id.value].side != op.onto;
  });
  if (crosses != op.along.end()) {
    Fault& fault = say(FaultKind::pick_up_from_far_end);
    fault.edge = fault.other_edge = *crosses;
    fault.a = 1;
  }
  for (std::size_t k = 0; k + 1 < op.along.size(); ++k) {
    const Edge& nearer = sock_.edges[op.along[k].value];
    const Edge& farther = sock_.edges[op.along[k + 1].value];
    if (nearer.piece == farther.piece && farther.section > nearer.section) {
      Fault& fault = say(FaultKind::pick_up_from_far_end);
      fault.edge = op.along[k];
      fault.other_edge = op.along[k + 1];
      k = op.along.size();
    }
  }
  Needles full, needles;
  for (const int n : there(op.bed, op.needles)) (at(op.bed, n).carries() ? full : needles).insert(n);
  if (!full.empty()) say(FaultKind::needles_carry, op.bed, full);
  if (needles.empty()) return;
  const Needles layer = carrying(op.bed);
  if (!layer.empty()) {
    bool beside = *needles.rbegin() - *needles.begin() + 1 == static_cast<int>(needles.size());
    if (op.onto == Side::left)
      beside = beside && layer.count(*needles.rbegin() + 1) && *needles.rbegin() < *layer.begin();
    if (op.onto == Side::right)
      beside = beside && layer.count(*needles.begin() - 1) && *needles.begin() > *layer.rbegin();
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
    needle.cause = tag_;
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
    const bool closed =
        *began_with_ == CastOnMethod::closed_by_latch || *began_with_ == CastOnMethod::closed_by_crochet;
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
  weights_on();
}

void SlowMachine::run(const HangWeights&) {
  if (nothing_on_needles()) {
    say(FaultKind::comb_without_fabric);
    return;
  }
  weights_on();
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
  weights_off();
}

void SlowMachine::weights_on() {
  weighed_ = carrying(Bed::main);
  for (const int n : carrying(Bed::second)) weighed_.insert(n);
  weighed_by_ = tag_;
  told_weights_ = false;
  outgrew_weights_.reset();
}

void SlowMachine::weights_off() {
  weighed_.clear();
  weighed_by_ = tag_;
  without_weights_since_ = passes_;
  told_weights_ = false;
  outgrew_weights_.reset();
}

// The nearest needle with a weight below it is too far away.
void SlowMachine::too_far_from_weights(const std::array<Needles, 2>& worked) {
  if (weighed_.empty() || told_weights_) return;
  for (const Bed bed : {Bed::main, Bed::second}) {
    Needles far;
    std::int64_t farthest = 0;
    for (const int n : worked[static_cast<std::size_t>(bed)]) {
      const std::int64_t away = std::max({0, *weighed_.begin() - n, n - *weighed_.rbegin()});
      if (away > spec_.weights_reach) far.insert(n);
      farthest = std::max(farthest, away);
    }
    if (far.empty()) continue;
    if (!outgrew_weights_) outgrew_weights_ = passes_;
    if (passes_ < *outgrew_weights_ + 2) continue;
    Fault& fault = say(FaultKind::weights_do_not_reach, bed, far, weighed_by_);
    fault.a = farthest;
    fault.b = spec_.weights_reach;
    told_weights_ = true;
  }
}

void SlowMachine::too_long_without_weights() {
  if (!weighed_.empty() || told_weights_ || carrying(Bed::main).size() + carrying(Bed::second).size() < 7) return;
  const std::int64_t rows = passes_ - without_weights_since_;
  if (rows <= spec_.rows_without_weights) return;
  Fault& fault = say(FaultKind::no_weights, Bed::main, {}, weighed_by_);
  fault.a = rows;
  fault.b = spec_.rows_without_weights;
  told_weights_ = true;
}

}  // namespace stk::model
