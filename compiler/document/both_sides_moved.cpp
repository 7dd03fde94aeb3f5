#include "compiler/document/both_sides_moved.hpp"

namespace stk::document {

namespace {

using knit::Selection;
using knit::Side;
using knit::SizeRecord;
using knit::Step;
using Where = Selection::Where;

// `1 on left`, or the same of a part.
const Selection* on_one_side(const Step& step) {
  if (step.kind != Step::Kind::operation || step.operation.act != knit::Act::move) return nullptr;
  if (step.operation.selections.size() != 1 || !step.operation.selections.front().name.empty()) return nullptr;
  const Selection* s = &step.operation.selections.front();
  if (s->kind == Selection::Kind::of && s->parts.size() == 2) s = &s->parts.front();
  const bool sided = s->where == Where::left || s->where == Where::right;
  return s->kind == Selection::Kind::on_side && sided && s->name.empty() ? s : nullptr;
}

bool outwards(const Step& step, const Selection& chosen) {
  const knit::Operation& o = step.operation;
  return o.way == knit::Way::aside && o.side && (*o.side == Side::left) == (chosen.where == Where::left);
}

bool of_the_same_part(const Selection& a, const Selection& b) {
  if (a.kind != b.kind) return false;
  if (a.kind != Selection::Kind::of) return true;
  const Selection &x = a.parts[1], &y = b.parts[1];
  const bool said = !x.name.empty() || !x.needles.empty();   // `middle 8` has no name, but is evaluated each time
  return said && x.kind == y.kind && x.name == y.name && x.needles == y.needles;
}

bool can_be_drawn_as_one(const SizeRecord& a, const SizeRecord& b) {
  if (!a.drawn || !b.drawn) return !a.drawn && !b.drawn;
  return a.drawn->first == b.drawn->first && a.drawn->before.size() == b.drawn->after.size();
}

}  // namespace

std::optional<Step> both_sides_moved(const Step& a, const Step& b, knit::SizeSet scope) {
  const Selection *x = on_one_side(a), *y = on_one_side(b);
  if (x == nullptr || y == nullptr || x->where == y->where || !outwards(a, *x) || !outwards(b, *y)) return std::nullopt;
  const knit::Operation &first = a.operation, &second = b.operation;
  if (a.sizes != b.sizes || x->count != y->count || first.empties != second.empties || first.prongs != second.prongs) return std::nullopt;
  if (first.empties == knit::Empties::filled || !of_the_same_part(first.selections.front(), second.selections.front())) return std::nullopt;
  Step both = a;
  for (std::size_t i = 0; i < a.records.size(); ++i) {
    if (!knit::has(scope & a.sizes, i)) continue;
    const SizeRecord &p = a.records[i], &q = b.records[i];
    if (p.idle != q.idle || p.amount != q.amount || p.target != q.target || p.emptied != q.emptied || !can_be_drawn_as_one(p, q))
      return std::nullopt;
    SizeRecord& record = both.records[i];
    record.after = q.after;
    record.amount += q.amount;
    record.emptied += q.emptied;
    const bool left_first = x->where == Where::left;
    record.needles = {left_first ? p.needles.first : q.needles.first, left_first ? q.needles.last : p.needles.last};
    if (!record.drawn) continue;
    record.drawn->after = q.drawn->after;
    record.drawn->moves.insert(record.drawn->moves.end(), q.drawn->moves.begin(), q.drawn->moves.end());
  }
  both.operation.side.reset();
  both.operation.way = knit::Way::outward;
  Selection& chosen = both.operation.selections.front();
  (chosen.kind == Selection::Kind::of ? chosen.parts.front() : chosen).where = Where::each;
  return both;
}

}  // namespace stk::document
