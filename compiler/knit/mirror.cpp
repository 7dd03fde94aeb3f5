#include "compiler/knit/mirror.hpp"

#include <utility>

namespace stk::knit {
namespace {

Side other(Side side) { return side == Side::left ? Side::right : Side::left; }
Needle other(Needle needle) { return {-needle.number, needle.bed}; }
NeedleSpan other(NeedleSpan span) { return {other(span.last), other(span.first)}; }

void mirror(Selection& selection) {
  using W = Selection::Where;
  if (selection.where == W::left) selection.where = W::right;
  else if (selection.where == W::right) selection.where = W::left;
  else if (selection.kind == Selection::Kind::of_each && selection.where == W::first) selection.where = W::last;
  else if (selection.kind == Selection::Kind::of_each && selection.where == W::last) selection.where = W::first;
  for (Selection& part : selection.parts) mirror(part);
}

bool mirrored(const MachineState& a, const MachineState& b) {
  return a.carriage == other(b.carriage) && a.row_counter == b.row_counter && a.stitches == b.stitches && a.in_work == b.in_work &&
         a.held == b.held && a.second_bed == b.second_bed && a.tension_hundredths == b.tension_hundredths &&
         a.second_tension_hundredths == b.second_tension_hundredths && a.span == other(b.span) && a.second_span == other(b.second_span);
}

bool mirrored(const Step& a, const Step& b) {
  if (a.kind != b.kind || a.sizes != b.sizes || a.title != b.title || a.records.size() != b.records.size() ||
      a.steps.size() != b.steps.size() || a.turns.size() != b.turns.size() || a.operation.act != b.operation.act)
    return false;
  for (std::size_t i = 0; i < a.records.size(); ++i) {
    if (!has(a.sizes, i)) continue;
    const SizeRecord &x = a.records[i], &y = b.records[i];
    if (x.idle != y.idle || x.amount != y.amount || x.target != y.target || x.emptied != y.emptied) return false;
    if (a.kind == Step::Kind::only_for || a.kind == Step::Kind::condition || a.kind == Step::Kind::note || a.kind == Step::Kind::caution) continue;
    if (!mirrored(x.before, y.before) || !mirrored(x.after, y.after) || !(x.needles == other(y.needles))) return false;
  }
  if (!mirrors_exactly(a.steps, b.steps)) return false;
  for (std::size_t t = 0; t < a.turns.size(); ++t)
    if (!mirrors_exactly(a.turns[t], b.turns[t])) return false;
  return true;
}

}  // namespace

void mirror_words(std::vector<Step>& steps) {
  for (Step& step : steps) {
    if (step.operation.side) step.operation.side = other(*step.operation.side);
    if (step.operation.filled_from) step.operation.filled_from = other(*step.operation.filled_from);
    if (step.operation.from == "left") step.operation.from = "right";
    else if (step.operation.from == "right") step.operation.from = "left";
    for (std::string& edge : step.operation.edges) {   // a part of one
      if (edge.starts_with("left ")) edge.replace(0, 4, "right");
      else if (edge.starts_with("right ")) edge.replace(0, 5, "left");
    }
    for (Selection& selection : step.operation.selections) mirror(selection);
    mirror_words(step.steps);
    for (std::vector<Step>& turn : step.turns) mirror_words(turn);
  }
}

bool mirrors_exactly(const std::vector<Step>& first, const std::vector<Step>& second) {
  if (first.size() != second.size()) return false;
  for (std::size_t i = 0; i < first.size(); ++i)
    if (!mirrored(first[i], second[i])) return false;
  return true;
}

}  // namespace stk::knit
