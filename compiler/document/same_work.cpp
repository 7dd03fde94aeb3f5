#include "compiler/document/same_work.hpp"

#include <algorithm>

namespace stk::document {

namespace {

using knit::Act;
using knit::DrawnBed;
using knit::MachineState;
using knit::Operation;
using knit::Selection;
using knit::SizeRecord;
using knit::SizeSet;
using knit::Step;
using Kind = Step::Kind;
using Steps = std::vector<Step>;

template <class Value>
bool same_at(const std::vector<Value>& a, const std::vector<Value>& b, std::size_t size) {
  const bool here = size < a.size();
  return here == (size < b.size()) && (!here || a[size] == b[size]);
}

bool same(const Selection& a, const Selection& b, std::size_t size) {
  // What one of them calls by a name is the same where it came to the same needles.
  if (a.name != b.name) return size < a.needles.size() && same_at(a.needles, b.needles, size);
  return a.kind == b.kind && a.where == b.where && a.bed == b.bed && a.both_beds == b.both_beds && same_at(a.count, b.count, size) &&
         same_at(a.group, b.group, size) && same_at(a.needles, b.needles, size) &&
         std::equal(a.parts.begin(), a.parts.end(), b.parts.begin(), b.parts.end(),
                    [&](const Selection& x, const Selection& y) { return same(x, y, size); });
}

bool same_joining(const std::vector<knit::Joining>& a, const std::vector<knit::Joining>& b) {
  return std::equal(a.begin(), a.end(), b.begin(), b.end(), [](const knit::Joining& x, const knit::Joining& y) {
    return x.side == y.side && x.edges == y.edges;
  });
}

bool same(const Operation& a, const Operation& b, std::size_t size) {
  return a.act == b.act && a.method == b.method && a.edges == b.edges && a.edges_to == b.edges_to && a.yarns == b.yarns &&
         a.empties == b.empties && a.side == b.side && a.filled_from == b.filled_from && a.way == b.way && a.each_side == b.each_side && a.inset == b.inset &&
         a.prongs == b.prongs && a.tile == b.tile && a.ending == b.ending && a.second_tile == b.second_tile &&
         a.by_hand == b.by_hand && a.rate_loops == b.rate_loops && a.rate_rows == b.rate_rows &&
         a.upper_on_holder == b.upper_on_holder && a.chart == b.chart && a.chart_marks == b.chart_marks &&
         a.loose == b.loose && same_joining(a.joining, b.joining) && a.with_own_tail == b.with_own_tail &&
         a.from == b.from && a.waste_rows == b.waste_rows && a.waste_rows_before_comb == b.waste_rows_before_comb &&
         a.cord_rows == b.cord_rows &&
         std::equal(a.selections.begin(), a.selections.end(), b.selections.begin(), b.selections.end(),
                    [&](const Selection& x, const Selection& y) { return same(x, y, size); });
}

bool same(const std::optional<DrawnBed>& a, const std::optional<DrawnBed>& b) {
  if (!a || !b) return true;   // later turns of a repeat are not drawn
  return a->first == b->first && a->before == b->before && a->after == b->after && a->second == b->second &&
         std::equal(a->moves.begin(), a->moves.end(), b->moves.begin(), b->moves.end(),
                    [](const knit::DrawnMove& x, const knit::DrawnMove& y) { return x.from == y.from && x.to == y.to; });
}

bool same_but_counter(MachineState a, const MachineState& b) {
  a.row_counter = b.row_counter;
  return a == b;
}

bool same_but_counter(const SizeRecord& a, const SizeRecord& b) {
  return a.idle == b.idle && same_but_counter(a.before, b.before) && same_but_counter(a.after, b.after) &&
         a.amount == b.amount && a.target == b.target && a.emptied == b.emptied && a.needles == b.needles &&
         a.second_amount == b.second_amount && a.length == b.length && a.comb_moved == b.comb_moved &&
         a.waste_drawn == b.waste_drawn && a.rows == b.rows && a.extra_rows == b.extra_rows &&
         a.part_counts == b.part_counts && a.set_aside == b.set_aside && a.yarn_side == b.yarn_side &&
         a.yarn_needle == b.yarn_needle && same(a.drawn, b.drawn);
}

// One size's way through two sequences.
class Comparison {
 public:
  Comparison(std::size_t size, bool counters) : size_(size), counters_(counters) {}

  bool same(const Steps& a, const Steps& b) {
    auto x = a.begin();
    auto y = b.begin();
    // A check that held says nothing that is done.
    const auto skip = [&](auto& step, auto end) {
      while (step != end && (step->kind == Kind::expect || !knit::has(step->sizes, size_))) ++step;
    };
    while (true) {
      skip(x, a.end());
      skip(y, b.end());
      if (x == a.end() || y == b.end()) return x == a.end() && y == b.end();
      if (!same(*x, *y)) return false;
      ++x;
      ++y;
    }
  }

 private:
  bool same(const Step& a, const Step& b) {
    if (a.kind != b.kind) return false;
    if (a.kind == Kind::operation) return same_operation(a, b);
    if (a.title != b.title) return false;
    if (a.kind == Kind::needles_named) {
      return a.name == b.name && document::same(a.operation, b.operation, size_);
    }
    if (a.kind == Kind::repeat) {
      if (a.records[size_].amount != b.records[size_].amount) return false;
      const auto amount = static_cast<std::size_t>(std::max<std::int64_t>(0, a.records[size_].amount));
      const std::size_t turns = std::min(a.turns.size(), amount);
      if (turns != std::min(b.turns.size(), amount)) return false;
      for (std::size_t turn = 0; turn < turns; ++turn) {
        if (!same(a.turns[turn], b.turns[turn])) return false;
      }
      return true;
    }
    return same(a.steps, b.steps);
  }

  bool same_operation(const Step& a, const Step& b) {
    const SizeRecord &x = a.records[size_], &y = b.records[size_];
    if (!document::same(a.operation, b.operation, size_) || !same_but_counter(x, y)) return false;
    const bool set = a.operation.act == Act::counter || a.operation.act == Act::cast_on;
    const std::int64_t on_x = x.after.row_counter - x.before.row_counter;
    const std::int64_t on_y = y.after.row_counter - y.before.row_counter;
    if (!counters_) return set ? x.after.row_counter == y.after.row_counter : on_x == on_y;
    settled_ = settled_ || set || on_x != 0 || on_y != 0;
    return !settled_ || x.after.row_counter == y.after.row_counter;
  }

  std::size_t size_;
  bool counters_;           // whether the row counters are printed
  bool settled_ = false;    // until then the counter shows what it showed before, and nobody reads it
};

bool all_the_same(const Steps& a, const Steps& b, SizeSet scope, bool counters) {
  for (std::size_t size = 0; size < 64; ++size) {
    if (knit::has(scope, size) && !Comparison(size, counters).same(a, b)) return false;
  }
  return true;
}

}  // namespace

bool same_work(const Steps& a, const Steps& b, SizeSet scope) {
  return all_the_same(a, b, scope, true);
}
bool same_turn(const Steps& a, const Steps& b, SizeSet scope) {
  return all_the_same(a, b, scope, false);
}

}  // namespace stk::document
