// The same work on the other side of the bed.
#include <algorithm>
#include <string>

#include "compiler/document/same_work.hpp"
#include "compiler/document/words.hpp"

namespace stk::document {

namespace {

using knit::Act;
using knit::MachineState;
using knit::Operation;
using knit::Selection;
using knit::SizeRecord;
using knit::SizeSet;
using knit::Step;
using Kind = Step::Kind;
using Steps = std::vector<Step>;

std::string edge_of_other_side(const std::string& edge) {
  if (edge.starts_with("left ")) return "right " + edge.substr(5);   // a part of it
  if (edge.starts_with("right ")) return "left " + edge.substr(6);
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
    if (o.filled_from) o.filled_from = other(*o.filled_from);
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

}  // namespace stk::document
