#include "compiler/document/worked.hpp"

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
         a.empties == b.empties && a.side == b.side && a.way == b.way && a.each_side == b.each_side && a.inset == b.inset &&
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

std::string edge_of_other_side(const std::string& edge) {
  const std::size_t dot = edge.rfind('.');
  const std::size_t last = dot == std::string::npos ? 0 : dot + 1;
  if (edge.compare(last, std::string::npos, "left") == 0) return edge.substr(0, last) + "right";
  if (edge.compare(last, std::string::npos, "right") == 0) return edge.substr(0, last) + "left";
  return edge;
}

bool sides_changed(const std::vector<std::string>& a, const std::vector<std::string>& b) {
  return a != b && std::equal(a.begin(), a.end(), b.begin(), b.end(),
                              [](const std::string& x, const std::string& y) { return edge_of_other_side(x) == y; });
}

// What the reader knows decides how a few steps are worded; the mirrored pieces and how to join do not.
bool same(const Memory& a, const Memory& b) {
  return a.comb_hung == b.comb_hung && a.only_weights == b.only_weights && a.one_bed == b.one_bed && a.threaded == b.threaded &&
         a.cast_on == b.cast_on && a.yarn_cut == b.yarn_cut && a.rounds == b.rounds &&
         a.needles_set == b.needles_set;
}

}  // namespace

namespace {

knit::Needle mirrored(knit::Needle needle) {
  return {-needle.number, needle.bed};
}
knit::NeedleSpan mirrored(const knit::NeedleSpan& span) {
  return {mirrored(span.last), mirrored(span.first)};
}
void mirror(MachineState& state) {
  state.carriage = other(state.carriage);
  state.span = mirrored(state.span);
  state.second_span = mirrored(state.second_span);
  state.working = mirrored(state.working);
}
void mirror(SizeRecord& record) {
  mirror(record.before);
  mirror(record.after);
  record.needles = mirrored(record.needles);
  if (record.yarn_needle.number != 0) record.yarn_side = other(record.yarn_side);
  record.yarn_needle = mirrored(record.yarn_needle);
  record.drawn.reset();   // the states say it all
}
void mirror(Selection& selection) {
  using Where = Selection::Where;
  Where& where = selection.where;   // of the other kinds it says nothing
  if (selection.kind == Selection::Kind::half || selection.kind == Selection::Kind::on_side) {
    where = where == Where::left ? Where::right : where == Where::right ? Where::left : where;
  } else if (selection.kind == Selection::Kind::of_each) {   // groups are counted from the left
    where = where == Where::first ? Where::last : where == Where::last ? Where::first : where;
  }
  for (knit::NeedleSpan& span : selection.needles) span = mirrored(span);
  for (Selection& part : selection.parts) mirror(part);
}

// "the right half" in what a technique says of itself.
std::string words_of_other_side(const std::string& text) {
  std::string changed;
  for (std::size_t at = 0; at < text.size();) {
    std::size_t end = text.find(' ', at);
    if (end == std::string::npos) end = text.size();
    const std::string word = text.substr(at, end - at);
    changed += word == "left" ? "right" : word == "right" ? "left" : word;
    if (end < text.size()) changed += ' ';
    at = end + 1;
  }
  return changed;
}

bool mirror(Steps& steps) {
  for (Step& step : steps) {
    Operation& o = step.operation;
    const bool reads_from_one_end = o.act == Act::knit_chart || o.act == Act::set_needles;
    if (step.kind == Kind::operation && reads_from_one_end) return false;
    if (o.side) o.side = other(*o.side);
    if (o.method == knit::Method::to_left || o.method == knit::Method::to_right) {
      o.method = o.method == knit::Method::to_left ? knit::Method::to_right : knit::Method::to_left;
    }
    if (o.from == "left" || o.from == "right") o.from = o.from == "left" ? "right" : "left";
    for (std::vector<std::string>* edges : {&o.edges, &o.edges_to}) {
      for (std::string& edge : *edges) edge = edge_of_other_side(edge);
    }
    for (knit::Joining& joining : o.joining) {
      joining.side = other(joining.side);
      for (std::string& edge : joining.edges) edge = edge_of_other_side(edge);
    }
    for (Selection& selection : o.selections) mirror(selection);
    for (SizeRecord& record : step.records) mirror(record);
    if (step.kind == Kind::technique) {
      for (std::string& title : step.title) title = words_of_other_side(title);
    }
    if (!mirror(step.steps)) return false;
    for (Steps& turn : step.turns) {
      if (!mirror(turn)) return false;
    }
  }
  return true;
}

}  // namespace

std::optional<Steps> with_sides_changed(const Steps& steps) {
  std::optional<Steps> changed = steps;
  if (!mirror(*changed)) changed.reset();
  return changed;
}

bool same_work(const Steps& a, const Steps& b, SizeSet scope) {
  return all_the_same(a, b, scope, true);
}
bool same_turn(const Steps& a, const Steps& b, SizeSet scope) {
  return all_the_same(a, b, scope, false);
}

bool same_on_other_side(const Step& a, const Step& b, SizeSet scope) {
  const Operation &x = a.operation, &y = b.operation;
  if (a.kind != Kind::operation || b.kind != Kind::operation || x.act != y.act || x.method != y.method) return false;
  if (x.yarns != y.yarns || x.with_own_tail != y.with_own_tail || x.rate_loops != y.rate_loops || x.rate_rows != y.rate_rows)
    return false;
  if (!sides_changed(x.edges, y.edges)) return false;
  if (!x.edges_to.empty() || !y.edges_to.empty()) {
    if (!sides_changed(x.edges_to, y.edges_to)) return false;
  }
  if (x.side.has_value() != y.side.has_value() || (x.side && x.side == y.side)) return false;
  for (std::size_t i = 0; i < a.records.size() && i < b.records.size(); ++i) {
    if (!knit::has(scope, i)) continue;
    if (!knit::has(a.sizes, i) || !knit::has(b.sizes, i)) return false;
    const SizeRecord &p = a.records[i], &q = b.records[i];
    if (p.idle != q.idle || p.amount != q.amount || p.second_amount != q.second_amount || p.rows != q.rows ||
        p.extra_rows != q.extra_rows)
      return false;
  }
  return true;
}

bool Worked::can_be_named(const Part& known, const Part& from) const {
  const auto place = places_.find({known.piece, known.section});
  const Place at = place == places_.end() ? Place{} : place->second;
  const bool here = known.piece == from.piece && known.section == from.section;
  return !here && !known.section.empty() && at.sections == 1 && (from.kind != Kind::turn || at.stars == 1);
}

bool Worked::corners_were_closed(const Part& known) const {
  const auto place = places_.find({known.piece, known.section});
  return known.kind == Kind::technique && place != places_.end() && place->second.corners;
}

const Worked::Part* Worked::find_other_side(const Part& part) const {
  if (part.kind != Kind::section && part.kind != Kind::technique) return nullptr;
  std::optional<Steps> changed;
  for (const Part& known : parts_) {
    if (known.kind != part.kind || (part.scope & ~known.scope) != 0 || !same(known.memory, part.memory)) continue;
    if (!can_be_named(known, part)) continue;
    if (!changed) changed = with_sides_changed(part.steps());
    if (!changed) return nullptr;
    if (same_work(known.steps(), *changed, part.scope)) return &known;
  }
  return nullptr;
}

const Worked::Part* Worked::find(const Part& part) const {
  for (const Part& known : parts_) {
    if (known.kind != part.kind || (part.scope & ~known.scope) != 0 || !same(known.memory, part.memory)) continue;
    if (part.kind == Kind::cast_on) {
      if (known.piece == part.piece || known.piece.empty()) continue;   // "as for the front"
    } else if (!can_be_named(known, part)) {
      continue;
    }
    const bool equal = part.kind == Kind::turn ? same_turn(known.steps(), part.steps(), part.scope)
                                               : same_work(known.steps(), part.steps(), part.scope);
    if (equal) return &known;
  }
  return nullptr;
}

void Worked::add(Part part) {
  const auto of_its_piece = [&](const Part& known) { return known.kind == Kind::cast_on && known.piece == part.piece; };
  if (part.kind == Kind::cast_on && std::any_of(parts_.begin(), parts_.end(), of_its_piece)) return;
  parts_.push_back(std::move(part));
}

}  // namespace stk::document
