// Finishing: waste drawn, edges grafted and seamed, corners closed, ends woven in, and the last look over the whole
// sock.
#include <algorithm>
#include <array>
#include <cstdlib>
#include <span>
#include <utility>
#include <vector>

#include "runtime/fabric.hpp"

namespace stk::runtime {

// One finishing operation on a fabric.
class Finishing {
 public:
  Finishing(Fabric& fabric, Tag tag, Outcome& outcome) : fabric_(fabric), tag_(tag), outcome_(outcome) {}

  void operator()(const DrawWaste& draw);
  void operator()(const DivideEdge& divide);
  void operator()(const Graft& graft);
  void operator()(const Seam& seam);
  void operator()(const CloseCorners& close);
  void operator()(const ThreadThrough& thread);
  void operator()(const WeaveInEnds& weave);
  void operator()(const Finish& finish);

 private:
  Fault& raise(FaultKind kind, EdgeId edge = {}, Tag cause = no_tag) {
    Fault fault;
    fault.kind = kind;
    fault.tag = tag_;
    fault.cause = cause;
    fault.edge = edge;
    outcome_.faults.push_back(fault);
    return outcome_.faults.back();
  }
  Edge& edge(EdgeId id) { return fabric_.edges_[id.value]; }
  bool unused(EdgeId id);
  bool is_top(PieceId piece, Side side) const;
  bool live(EdgeId id);
  void use(EdgeId id);
  void check_graft_tail(const Graft& graft);
  struct Lengths {   // of the two sides of a seam, and how much longer one may be
    std::array<std::int64_t, 2> of{0, 0};
    std::int64_t allowed = 0;
    bool differ() const { return std::abs(of[0] - of[1]) > allowed; }
  };
  Lengths lengths(std::span<const EdgeId> a, std::span<const EdgeId> b, bool rows);
  void check_stretches(const Seam& seam, bool rows);

  Fabric& fabric_;
  Tag tag_;
  Outcome& outcome_;
};

Outcome Fabric::apply(const FinishingOperation& operation) {
  Outcome outcome;
  std::visit(Finishing(*this, operation.tag, outcome), operation.what);
  return outcome;
}

bool Finishing::unused(EdgeId id) {
  if (!fabric_.has(id)) {
    raise(FaultKind::edge_not_open, id).a = -1;
    return false;
  }
  if (edge(id).state != EdgeState::used) return true;
  raise(FaultKind::edge_already_used, id, edge(id).used);
  return false;
}

bool Finishing::live(EdgeId id) {
  if (!unused(id)) return false;
  if (edge(id).live && edge(id).state != EdgeState::forming) return true;
  raise(FaultKind::edge_not_open, id).a = static_cast<std::int64_t>(edge(id).state);
  return false;
}

void Finishing::use(EdgeId id) {
  edge(id).state = EdgeState::used;
  edge(id).used = tag_;
  if (edge(id).waste_in) outcome_.waste_drawn = true;
  edge(id).waste_in = false;
}

void Finishing::operator()(const DrawWaste& draw) {
  if (!fabric_.has(draw.edge)) {
    raise(FaultKind::edge_not_open, draw.edge).a = -1;
    return;
  }
  Edge& of = edge(draw.edge);
  if (!of.waste_in) return;   // it came away with what used the edge
  if (of.state != EdgeState::used) {
    raise(FaultKind::waste_still_holds, draw.edge, of.made);
    of.state = EdgeState::free;
    of.live = false;          // the loops are lost: said here, so not again at the end
  }
  of.waste_in = false;
  outcome_.waste_drawn = true;
}

void Finishing::operator()(const DivideEdge& divide) {
  if (!unused(divide.edge)) return;
  const Edge whole = edge(divide.edge);
  const bool of_stitches = whole.kind == EdgeKind::cast_on || whole.kind == EdgeKind::live || whole.kind == EdgeKind::bound_off;
  // A zigzag lies on two beds: its stitches have no order along one of them.
  if (!of_stitches || whole.state == EdgeState::forming || whole.needles.count() != whole.whole) {
    raise(FaultKind::edge_not_open, divide.edge).a = static_cast<std::int64_t>(whole.state);
    return;
  }
  if (divide.stitches < 1 || divide.stitches > whole.whole) {
    Fault& fault = raise(FaultKind::edge_runs_out, divide.edge, whole.made);
    fault.a = divide.stitches;
    fault.b = whole.whole;
    return;
  }
  if (divide.stitches == whole.whole) {
    outcome_.edges.push_back(divide.edge);
    return;
  }
  Edge part = whole;
  part.needles = {};
  int left = divide.stitches;
  for (int needle = divide.side == Side::left ? whole.needles.first() : whole.needles.last(); left > 0; --left) {
    part.needles.insert(needle);
    needle = divide.side == Side::left ? whole.needles.next(needle + 1) : whole.needles.previous(needle - 1);
  }
  // Where loops lie between the stitches, the one between the two parts is half of either.
  const auto cut_to = [](Edge& of, int stitches) {
    of.whole = stitches;
    if (of.between > 0) of.between = stitches - 1;
  };
  cut_to(part, divide.stitches);
  Edge& rest = edge(divide.edge);
  rest.needles -= part.needles;
  cut_to(rest, whole.whole - divide.stitches);
  const NeedleSet taken = part.needles;
  const EdgeId id = fabric_.add(std::move(part));
  for (YarnEnd& end : fabric_.ends_) {
    if (end.edge == divide.edge && taken.contains(end.needle)) end.edge = id;
  }
  outcome_.edges.push_back(id);
}

void Finishing::check_graft_tail(const Graft& graft) {
  const Edge& a = edge(graft.a);
  const Edge& b = edge(graft.b);
  Side of_a = graft.from == GraftFrom::left ? Side::left : Side::right, of_b = of_a;
  if (graft.from == GraftFrom::open_side || graft.from == GraftFrom::fold) {
    const bool a_left = a.needles.last() < b.needles.first();
    const bool open = graft.from == GraftFrom::open_side;
    of_a = a_left == open ? Side::left : Side::right;
    of_b = opposite(of_a);
  }
  const auto begin = [](const Edge& at, Side side) {
    return side == Side::left ? at.needles.first() : at.needles.last();
  };
  YarnEnd* tail = nullptr;
  YarnEnd* elsewhere = nullptr;
  for (YarnEnd& end : fabric_.ends_) {
    if (!end.last || (end.edge != graft.a && end.edge != graft.b)) continue;
    const bool here = end.edge == graft.a ? end.needle == begin(a, of_a) : end.needle == begin(b, of_b);
    if (!here) elsewhere = &end;
    else if (tail == nullptr || end.tail_micrometres > tail->tail_micrometres) tail = &end;   // she takes the longer
  }
  if (tail == nullptr) {
    Fault& fault = raise(FaultKind::tail_elsewhere, graft.a);
    fault.other_edge = graft.b;
    fault.bed = elsewhere ? elsewhere->bed : a.bed;
    fault.needle = elsewhere ? elsewhere->needle : -1;
    const bool with_b = elsewhere && elsewhere->edge == graft.b;
    fault.a = with_b ? begin(b, of_b) : begin(a, of_a);
    if (elsewhere) fault.yarn = elsewhere->yarn;
    if (elsewhere) elsewhere->used = true;
    return;
  }
  tail->used = true;
  if (tail->tail_micrometres >= graft.tail_needed_micrometres) return;
  Fault& fault = raise(FaultKind::tail_too_short, graft.a);
  fault.other_edge = graft.b;
  fault.yarn = tail->yarn;
  fault.a = tail->tail_micrometres;
  fault.b = graft.tail_needed_micrometres;
}

void Finishing::operator()(const Graft& graft) {
  const bool a_live = live(graft.a), b_live = graft.a != graft.b && live(graft.b);
  if (graft.a == graft.b && a_live) raise(FaultKind::edge_already_used, graft.b, tag_);
  if (!a_live || !b_live) {   // meant to be joined: what is open of them is not said to be open once more at the end
    for (const EdgeId id : {graft.a, graft.b}) {
      if (fabric_.has(id) && edge(id).live && edge(id).state != EdgeState::used) use(id);
    }
    return;
  }
  const Edge a = edge(graft.a), b = edge(graft.b);
  // head to head: n whole to n whole. Head to foot: n whole to the n - 1 loops between and the half at each end.
  const auto head_to_foot = [](const Edge& head, const Edge& foot) {
    return foot.whole == 0 && foot.half == 2 && head.whole > 0 && foot.between == head.whole - 1;
  };
  const bool heads = a.whole > 0 && a.whole == b.whole;
  if (!heads && !head_to_foot(a, b) && !head_to_foot(b, a)) {
    Fault& fault = raise(FaultKind::graft_counts_differ, graft.a);
    fault.other_edge = graft.b;
    fault.a = a.whole;
    fault.b = b.whole;
    fault.c = a.between;
    fault.d = b.between;
  }
  if (graft.with_tail) check_graft_tail(graft);
  use(graft.a);
  use(graft.b);
}

// Short rows leave two rows more on the side where they are worked, three where the carriage wraps.
Finishing::Lengths Finishing::lengths(std::span<const EdgeId> a, std::span<const EdgeId> b, bool rows) {
  Lengths result;
  std::array<std::int64_t, 2> series{0, 0};
  for (std::size_t side = 0; side < 2; ++side) {
    std::vector<SectionId> counted;
    for (const EdgeId id : side == 0 ? a : b) {
      const Edge& of = edge(id);
      result.of[side] += rows ? of.rows - of.joined : of.whole;
      if (!rows || std::find(counted.begin(), counted.end(), of.section) != counted.end()) continue;
      counted.push_back(of.section);
      series[side] += fabric_.section(of.section).short_row_series;
    }
  }
  const std::size_t longer = result.of[0] > result.of[1] ? 0 : 1;
  result.allowed = rows ? 3 * series[longer] + result.of[longer] / 20 : 0;
  return result;
}

// Each stretch of a seam by itself: rows too many below a heel are not made good by rows too few above it.
void Finishing::check_stretches(const Seam& seam, bool rows) {
  const std::span<const EdgeId> a(seam.a), b(seam.b);
  std::array<std::size_t, 2> from{0, 0};
  for (std::size_t stretch = 0; stretch <= seam.stretches.size(); ++stretch) {
    std::array<std::size_t, 2> to{a.size(), b.size()};
    if (stretch < seam.stretches.size()) {
      to = {std::clamp<std::size_t>(seam.stretches[stretch][0], from[0], a.size()),
            std::clamp<std::size_t>(seam.stretches[stretch][1], from[1], b.size())};
    }
    const Lengths here = lengths(a.subspan(from[0], to[0] - from[0]), b.subspan(from[1], to[1] - from[1]), rows);
    if (!here.differ()) {
      from = to;
      continue;
    }
    Fault& fault = raise(FaultKind::seam_counts_differ, from[0] < a.size() ? a[from[0]] : EdgeId{});
    fault.other_edge = from[1] < b.size() ? b[from[1]] : EdgeId{};
    fault.a = here.of[0];
    fault.b = here.of[1];
    fault.c = here.allowed;
    fault.d = lengths(a, b, rows).differ() ? 0 : 1;
    return;
  }
}

void Finishing::operator()(const Seam& seam) {
  std::vector<SectionId> sections;
  bool rows = false, stitches = false, usable = true;
  for (const std::vector<EdgeId>* side : {&seam.a, &seam.b}) {
    for (const EdgeId id : *side) {
      if (!unused(id)) {
        usable = false;
        continue;
      }
      if (side == &seam.b && std::find(seam.a.begin(), seam.a.end(), id) != seam.a.end()) {   // sewn to itself
        raise(FaultKind::edge_already_used, id, tag_);
        usable = false;
        continue;
      }
      const Edge& of = edge(id);
      if (of.live || of.kind == EdgeKind::gathered || of.kind == EdgeKind::row) {
        raise(FaultKind::edge_not_open, id).a = static_cast<std::int64_t>(of.state);
        usable = false;
        continue;
      }
      const bool selvedge = of.kind == EdgeKind::selvedge;
      (selvedge ? rows : stitches) = true;
      if (std::find(sections.begin(), sections.end(), of.section) == sections.end()) sections.push_back(of.section);
    }
  }
  const EdgeId first = seam.a.empty() ? EdgeId{} : seam.a.front(), other = seam.b.empty() ? EdgeId{} : seam.b.front();
  if (usable && rows && stitches) {
    raise(FaultKind::seam_sorts_differ, first).other_edge = other;
  } else if (usable) {
    check_stretches(seam, rows);
  }
  for (const std::vector<EdgeId>* side : {&seam.a, &seam.b}) {
    for (const EdgeId id : *side) {
      if (fabric_.has(id) && edge(id).state != EdgeState::used) use(id);
    }
  }
  if (!seam.with_tail) return;
  YarnEnd* tail = nullptr;      // the longest in any of the sections sewn
  for (YarnEnd& end : fabric_.ends_) {
    if (!end.last || std::find(sections.begin(), sections.end(), end.section) == sections.end()) continue;
    if (tail == nullptr || end.tail_micrometres > tail->tail_micrometres) tail = &end;
  }
  if (tail == nullptr) {
    Fault& fault = raise(FaultKind::tail_elsewhere, first);
    fault.other_edge = other;
    fault.a = -1;
    return;
  }
  tail->used = true;
  if (tail->tail_micrometres >= seam.tail_needed_micrometres) return;
  Fault& fault = raise(FaultKind::tail_too_short, first);
  fault.other_edge = other;
  fault.yarn = tail->yarn;
  fault.a = tail->tail_micrometres;
  fault.b = seam.tail_needed_micrometres;
}

void Finishing::operator()(const CloseCorners& close) {
  const bool opened = fabric_.has(close.slot) && fabric_.slot(close.slot).opened;
  if (close.slot.given() && !opened) raise(FaultKind::slot_not_opened).slot = close.slot;
  if (fabric_.has(close.slot)) fabric_.slots_[close.slot.value].closed = true;
  for (const EdgeId id : close.selvedges) {
    if (unused(id)) use(id);
  }
}

void Finishing::operator()(const ThreadThrough& thread) {
  for (const SectionId id : thread.sections) {
    if (fabric_.has(id) && fabric_.section(id).eyelets > 0) {
      fabric_.sections_[id.value].eyelets = 0;
    } else {
      raise(FaultKind::no_eyelets).section = id;
    }
  }
}

void Finishing::operator()(const WeaveInEnds&) {
  for (YarnEnd& end : fabric_.ends_) end.woven = true;
}

// A piece knitted sideways: its first row is joined to its last one, one side is closed all along, and nothing else of it
// is open. The other side is then the top, and no one's to sew.
bool Finishing::is_top(PieceId piece, Side side) const {
  bool ring = false;
  for (const Edge& of : fabric_.edges_) {
    if (of.piece != piece || of.kind == EdgeKind::gathered) continue;
    if (of.kind == EdgeKind::selvedge) {
      if (of.side == side ? of.state == EdgeState::used || of.joined > 0 : of.state != EdgeState::used && of.joined < of.rows) return false;
      continue;
    }
    if (of.state != EdgeState::used) return false;
    if (of.kind != EdgeKind::cast_on) continue;
    ring = ring || std::any_of(fabric_.edges_.begin(), fabric_.edges_.end(), [&](const Edge& other) {
             const bool end = other.kind == EdgeKind::live || other.kind == EdgeKind::bound_off;
             return end && other.piece == piece && other.state == EdgeState::used && other.used == of.used;
           });
  }
  return ring;
}

void Finishing::operator()(const Finish&) {
  for (std::uint32_t index = 0; index < fabric_.edges_.size(); ++index) {
    const Edge& of = fabric_.edges_[index];
    if (of.state == EdgeState::used || of.kind == EdgeKind::slot_lower || of.kind == EdgeKind::slot_upper) continue;
    if (of.state == EdgeState::forming) {
      raise(FaultKind::waste_left, EdgeId{index}, of.made);
    } else if (of.live) {
      raise(FaultKind::edge_never_secured, EdgeId{index}, of.made).a = of.whole;
    }
  }
  // Where some selvedges of a piece are sewn, joined or picked up, the others of it are meant to be.
  std::vector<bool> sewn(fabric_.pieces_);
  const auto taken = [](const Edge& of) { return of.state == EdgeState::used || of.joined > 0; };
  for (const Edge& of : fabric_.edges_) {
    if (of.kind == EdgeKind::selvedge && taken(of)) sewn[of.piece.value] = true;
  }
  std::vector<std::array<bool, 2>> top(fabric_.pieces_);
  for (std::uint32_t piece = 0; piece < fabric_.pieces_; ++piece) {
    if (!sewn[piece]) continue;
    for (const Side side : {Side::left, Side::right}) top[piece][static_cast<std::size_t>(side)] = is_top({piece}, side);
  }
  for (std::uint32_t index = 0; index < fabric_.edges_.size(); ++index) {
    const Edge& of = fabric_.edges_[index];
    if (of.kind != EdgeKind::selvedge || of.state == EdgeState::used || of.joined >= of.rows || !sewn[of.piece.value])
      continue;
    if (fabric_.section(of.section).layer_alone || top[of.piece.value][static_cast<std::size_t>(of.side)]) continue;
    Fault& fault = raise(FaultKind::selvedge_left_open, EdgeId{index}, of.made);
    fault.section = of.section;
    fault.a = of.rows - of.joined;
  }
  for (std::uint32_t index = 0; index < fabric_.slots_.size(); ++index) {
    const Slot& slot = fabric_.slots_[index];
    const bool filled = edge(slot.lower).state == EdgeState::used && edge(slot.upper).state == EdgeState::used;
    if (slot.closed && filled) continue;
    Fault& fault = raise(FaultKind::slot_not_closed, slot.lower, slot.made);
    fault.slot = SlotId{index};
    fault.a = filled ? 1 : 0;
  }
  std::int64_t loose = 0;
  for (const YarnEnd& end : fabric_.ends_) loose += end.used || end.woven ? 0 : 1;
  if (loose > 0) raise(FaultKind::ends_not_woven).a = loose;
}

}  // namespace stk::runtime
