// The slow finishing.
#include <algorithm>

#include "tests/model/reference.hpp"

namespace stk::model {

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
    const bool closed = edge.kind == EdgeKind::gathered || edge.kind == EdgeKind::row;
    if (must_live ? !edge.live || edge.state == EdgeState::forming : edge.live || closed) {
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
  } else if (const auto* divide = std::get_if<DivideEdge>(&operation.what)) {
    if (!has(divide->edge)) {
      say(FaultKind::edge_not_open, divide->edge).a = -1;
      return faults;
    }
    const Edge before = edges[divide->edge.value];
    std::vector<int> order;   // its needles, from the side that is asked for
    for (const int n : before.needles) order.push_back(n);
    if (divide->side == Side::right) std::reverse(order.begin(), order.end());
    const std::set<EdgeKind> kinds{EdgeKind::cast_on, EdgeKind::live, EdgeKind::bound_off};
    const int there = static_cast<int>(order.size()), asked = divide->stitches;
    if (before.state == EdgeState::used) {
      say(FaultKind::edge_already_used, divide->edge, before.used);
    } else if (!kinds.count(before.kind) || before.state == EdgeState::forming || there != before.whole) {
      say(FaultKind::edge_not_open, divide->edge).a = static_cast<std::int64_t>(before.state);
    } else if (asked < 1 || asked > there) {
      Fault& fault = say(FaultKind::edge_runs_out, divide->edge, before.made);
      fault.a = asked;
      fault.b = there;
    } else if (asked < there) {
      const bool between = before.between > 0;
      Edge part = before, rest = before;
      part.needles = rest.needles = NeedleSet();
      for (int index = 0; index < there; ++index) (index < asked ? part : rest).needles.insert(order[static_cast<std::size_t>(index)]);
      part.whole = asked;
      rest.whole = there - asked;
      if (between) part.between = asked - 1, rest.between = there - asked - 1;
      for (YarnEnd& end : ends) {
        for (int index = 0; index < asked; ++index) {
          if (end.edge == divide->edge && end.needle == order[static_cast<std::size_t>(index)])
            end.edge = EdgeId{static_cast<std::uint32_t>(edges.size())};
        }
      }
      edges[divide->edge.value] = rest;
      edges.push_back(part);
    }
  } else if (const auto* graft = std::get_if<Graft>(&operation.what)) {
    const bool a_ready = ready(graft->a, true);
    if (graft->a == graft->b) {
      if (a_ready) {
        say(FaultKind::edge_already_used, graft->b, tag);
        use(graft->a);
      } else if (has(graft->a) && edges[graft->a.value].live && edges[graft->a.value].state != EdgeState::used) {
        use(graft->a);
      }
      return faults;
    }
    const bool b_ready = ready(graft->b, true);
    if (!a_ready || !b_ready) {
      for (const EdgeId id : {graft->a, graft->b}) {
        if (has(id) && edges[id.value].live && edges[id.value].state != EdgeState::used) use(id);
      }
      return faults;
    }
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
        if (end.edge != graft->a && end.edge != graft->b) continue;
        if (end.needle != (end.edge == graft->a ? of_a : of_b)) {
          other = &end;
        } else if (begin == nullptr || end.tail_micrometres > begin->tail_micrometres) {
          begin = &end;
        }
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
    std::set<SectionId> sewn;
    for (std::size_t index = 0; index < all.size(); ++index) {
      const EdgeId id = all[index];
      if (has(id) && edges[id.value].state != EdgeState::used && index >= seam->a.size() &&
          std::count(seam->a.begin(), seam->a.end(), id) > 0) {
        say(FaultKind::edge_already_used, id, tag);
        good = false;
        continue;
      }
      if (!ready(id, false)) {
        good = false;
        continue;
      }
      const Edge& edge = edges[id.value];
      const bool selvedge = edge.kind == EdgeKind::selvedge;
      rows = rows || selvedge;
      stitches = stitches || !selvedge;
      sewn.insert(edge.section);
    }
    const EdgeId first = seam->a.empty() ? EdgeId{} : seam->a[0], second = seam->b.empty() ? EdgeId{} : seam->b[0];
    if (good && rows && stitches) {
      say(FaultKind::seam_sorts_differ, first).other_edge = second;
    } else if (good) {
      // walk along the seam, stretch by stretch, until one does not fit
      struct Side {
        std::int64_t length = 0;
        std::set<SectionId> of;
        EdgeId first{};
      };
      const auto walk = [&](const std::vector<EdgeId>& along, std::size_t& from, std::size_t end) {
        Side on;
        if (from < along.size()) on.first = along[from];
        while (from < end && from < along.size()) {
          const Edge& edge = edges[along[from++].value];
          on.length += rows ? edge.rows - edge.joined : edge.whole;
          on.of.insert(edge.section);
        }
        return on;
      };
      const auto allowed = [&](const Side& longer) {
        std::int64_t more = longer.length * 5 / 100;
        for (const SectionId id : longer.of) more += 3 * sections[id.value].short_row_series;
        return rows ? more : 0;
      };
      const auto too_long = [&](const Side& one, const Side& other) {
        return one.length - other.length > allowed(one) || other.length - one.length > allowed(other);
      };
      std::size_t at_a = 0, at_b = 0, whole_a = 0, whole_b = 0;
      const Side all_a = walk(seam->a, whole_a, seam->a.size()), all_b = walk(seam->b, whole_b, seam->b.size());
      auto stretches = seam->stretches;
      stretches.push_back({static_cast<std::uint32_t>(seam->a.size()), static_cast<std::uint32_t>(seam->b.size())});
      for (const auto& [end_a, end_b] : stretches) {
        const Side one = walk(seam->a, at_a, end_a), two = walk(seam->b, at_b, end_b);
        if (!too_long(one, two)) continue;
        Fault& fault = say(FaultKind::seam_counts_differ, one.first);
        fault.other_edge = two.first;
        fault.a = one.length;
        fault.b = two.length;
        fault.c = allowed(one.length > two.length ? one : two);
        fault.d = too_long(all_a, all_b) ? 0 : 1;
        break;
      }
    }
    for (const EdgeId id : all) {
      if (has(id) && edges[id.value].state != EdgeState::used) use(id);
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
    if (close->slot.given() && (!has(close->slot) || !slots[close->slot.value].opened)) say(FaultKind::slot_not_opened).slot = close->slot;
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
      if (edge.kind == EdgeKind::slot_lower || edge.kind == EdgeKind::slot_upper || edge.state == EdgeState::used)
        continue;
      if (edge.state == EdgeState::forming) {
        say(FaultKind::waste_left, id, edge.made);
      } else if (edge.live) {
        say(FaultKind::edge_never_secured, id, edge.made).a = edge.whole;
      }
    }
    for (std::size_t index = 0; index < edges.size(); ++index) {
      const Edge& edge = edges[index];
      if (edge.kind != EdgeKind::selvedge || edge.state == EdgeState::used || edge.rows <= edge.joined) continue;
      bool others_sewn = false;
      for (const Edge& other : edges) {
        const bool sewn = other.state == EdgeState::used || other.joined > 0;
        others_sewn = others_sewn || (other.kind == EdgeKind::selvedge && other.piece == edge.piece && sewn);
      }
      if (!others_sewn || sections[edge.section.value].layer_alone) continue;
      // sideways: the ring is closed by its first and last rows, one side is shut, this one wholly open
      std::set<Tag> first_rows, last_rows;
      bool only_this_open = true;
      for (const Edge& other : edges) {
        if (other.piece != edge.piece || other.kind == EdgeKind::gathered) continue;
        const bool taken = other.state == EdgeState::used;
        if (other.kind != EdgeKind::selvedge) {
          only_this_open = only_this_open && taken;
          if (taken && other.kind == EdgeKind::cast_on) first_rows.insert(other.used);
          if (taken && (other.kind == EdgeKind::live || other.kind == EdgeKind::bound_off)) last_rows.insert(other.used);
        } else if (other.side == edge.side) {
          only_this_open = only_this_open && !taken && other.joined <= 0;
        } else {
          only_this_open = only_this_open && (taken || other.joined >= other.rows);
        }
      }
      const bool ring = std::any_of(first_rows.begin(), first_rows.end(), [&](Tag at) { return last_rows.count(at) > 0; });
      if (ring && only_this_open) continue;
      Fault& fault = say(FaultKind::selvedge_left_open, EdgeId{static_cast<std::uint32_t>(index)}, edge.made);
      fault.section = edge.section;
      fault.a = edge.rows - edge.joined;
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
