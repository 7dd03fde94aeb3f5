// The slow machine hangs edges on needles, and picks loops up along them.
#include <algorithm>

#include "tests/model/reference.hpp"

namespace stk::model {

namespace {

std::vector<int> ordered(const Needles& needles) { return std::vector<int>(needles.begin(), needles.end()); }

}  // namespace

void SlowMachine::run(const MarkRow& op) {
  const std::size_t said = faults_.size();
  const Needles needles = loaded(op.bed, there(op.bed, op.needles));
  if (needles.empty()) {
    if (faults_.size() == said) say(FaultKind::nothing_in_work, op.bed);
    return;
  }
  section_begun();
  Edge edge;
  edge.kind = EdgeKind::row;
  edge.state = EdgeState::secure;
  edge.whole = static_cast<int>(needles.size());
  edge.bed = op.bed;
  for (const int n : needles) edge.needles.insert(n);
  edge.counter = counter_;
  edge.pass = passes_;
  edge.piece = piece_;
  edge.section = section_;
  edge.made = tag_;
  marked_rows_[static_cast<std::uint32_t>(sock_.edges.size())] = needles;
  sock_.edges.push_back(edge);
}

// Only straight above itself can it be hung, where its loops are not already.
bool SlowMachine::row_hung_wrongly(const Hang& op, const Needles& needles) {
  const Edge& edge = sock_.edges[op.edge.value];
  const auto wrong = [&](int why, const Needles& which) {
    Fault& fault = say(FaultKind::marked_row_unfit, op.bed, which, edge.made);
    fault.a = why;
    fault.edge = op.edge;
    return true;
  };
  if (op.loops == Loops::between || op.order == HangOrder::folded) return wrong(3, needles);
  const auto found = marked_rows_.find(op.edge.value);
  if (found == marked_rows_.end()) return wrong(1, needles);
  if (op.bed != edge.bed) return wrong(2, needles);
  Needles bare, own;
  for (const int n : needles) {
    if (!at(op.bed, n).carries()) bare.insert(n);
    if (found->second.count(n)) own.insert(n);
  }
  if (!bare.empty()) return wrong(2, bare);
  return !own.empty() && wrong(0, own);
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
  if (edge.kind == EdgeKind::row && row_hung_wrongly(op, needles[static_cast<std::size_t>(first_bed)])) return;
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
  if (edge.kind == EdgeKind::live && edge.piece == piece_) {
    // the yarn comes with the loop it hangs from
    for (auto& place : places_) {
      if (!place || place->bed != edge.bed || place->pass > edge.passes) continue;
      int loop = 0, found = -1;
      for (const int n : edge.needles) {
        if (n == place->needle) found = loop;
        ++loop;
      }
      if (found < 0) continue;
      std::vector<int> main = ordered(needles[0]), second = ordered(needles[1]);
      if (folded) {
        const bool open_right = op.open_side == Side::right;
        std::reverse(open_right ? second.begin() : main.begin(), open_right ? second.end() : main.end());
        const int on_second = static_cast<int>(second.size());
        if (found < on_second) place = YarnPlace{Bed::second, second[static_cast<std::size_t>(found)], place->pass};
        else if (found < count) place = YarnPlace{Bed::main, main[static_cast<std::size_t>(found - on_second)], place->pass};
        continue;
      }
      const int goes = op.order == HangOrder::reversed ? count - 1 - found : found;
      const std::vector<int>& on = first_bed == Bed::main ? main : second;
      if (goes >= 0 && goes < count) place = YarnPlace{first_bed, on[static_cast<std::size_t>(goes)], place->pass};
    }
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
  if (edge.kind != EdgeKind::cast_on && edge.kind != EdgeKind::row) return;
  if (edge.piece != piece_) return;
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

}  // namespace stk::model
