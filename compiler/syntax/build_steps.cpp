// Machine steps, their clauses, and facts.
#include "compiler/syntax/build_ast.hpp"

namespace stk::syntax {
namespace {

// What the values of a step are, in the order in which they stand: a = amount, b = second amount, n = needles.
struct StepRow {
  Kind kind;
  StepKind step;
  std::string_view roles;
};
constexpr StepRow step_rows[] = {
    {Kind::step_cast_on, StepKind::cast_on, "n"},
    {Kind::step_knit, StepKind::knit, "an"},
    {Kind::step_knit_to_row, StepKind::knit_to_row, "a"},
    {Kind::step_knit_chart, StepKind::knit_chart, ""},
    {Kind::step_thread, StepKind::thread, ""},
    {Kind::step_thread_through, StepKind::thread_through, ""},
    {Kind::step_cut, StepKind::cut, ""},
    {Kind::step_rest_yarn, StepKind::rest_yarn, ""},
    {Kind::step_tension, StepKind::tension, "a"},
    {Kind::step_counter, StepKind::counter, "a"},
    {Kind::step_hang_comb, StepKind::hang_comb, ""},
    {Kind::step_hang_weights, StepKind::hang_weights, ""},
    {Kind::step_remove_comb, StepKind::remove_comb, ""},
    {Kind::step_hold, StepKind::hold, "n"},
    {Kind::step_release, StepKind::release, "n"},
    {Kind::step_wrap, StepKind::wrap, "n"},
    {Kind::step_bring_into_work, StepKind::bring_into_work, "n"},
    {Kind::step_put_out_of_work, StepKind::put_out_of_work, "n"},
    {Kind::step_set_needles, StepKind::set_needles, "n"},
    {Kind::step_move, StepKind::move, "na"},
    {Kind::step_lift, StepKind::lift, "n"},
    {Kind::step_increase, StepKind::increase, "a"},
    {Kind::step_decrease, StepKind::decrease, "a"},
    {Kind::step_fill, StepKind::fill, ""},
    {Kind::step_cross, StepKind::cross, "abn"},
    {Kind::step_tuck, StepKind::tuck, "na"},
    {Kind::step_slip, StepKind::slip, "na"},
    {Kind::step_mark_row, StepKind::mark_row, "n"},
    {Kind::step_hang_edge, StepKind::hang_edge, "n"},
    {Kind::step_pick_up, StepKind::pick_up, "a"},
    {Kind::step_open, StepKind::open, ""},
    {Kind::step_latch_up, StepKind::latch_up, "n"},
    {Kind::step_scrap_off, StepKind::scrap_off, ""},
    {Kind::step_take_off, StepKind::take_off, ""},
    {Kind::step_bind_off, StepKind::bind_off, "n"},
    {Kind::step_gather, StepKind::gather, "n"},
    {Kind::step_pitch, StepKind::pitch, ""},
    {Kind::step_carriage_knits, StepKind::carriage_knits, ""},
    {Kind::step_graft, StepKind::graft, ""},
    {Kind::step_seam, StepKind::seam, ""},
    {Kind::step_close_corners, StepKind::close_corners, ""},
    {Kind::step_weave_in_ends, StepKind::weave_in_ends, ""},
};

}  // namespace

EdgeRef AstBuilder::edge(Id id) {
  if (kind(id) == Kind::edge_part) {   // a half, or a number and its side; then the edge
    const Ids parts = children(id);
    EdgeRef made = edge(parts.back());
    made.part = kind(parts.front()) == Kind::half_selector
                    ? expr(parts.front(), Where::needles)
                    : make(span(parts.front()), OnSideSelector{expr(parts.front()), side(parts[1])});
    return made;
  }
  EdgeRef made;
  made.span = span(id);
  for (const Id at : children(id)) made.parts.push_back(name(at));
  return made;
}

std::vector<EdgeRef> AstBuilder::edges(Id id) {
  std::vector<EdgeRef> made;
  for (const Id at : children(id)) made.push_back(edge(at));
  return made;
}

Tension AstBuilder::tension(Id id) {
  Tension made;
  made.span = span(id);
  if (const Id offset = child(id, Kind::tension_offset); offset != Tree::none) {
    const Ids parts = children(offset);
    made.negative = text(parts.front()) != "+";
    made.offset = expr(parts.back());
  }
  return made;
}

// One child of a step's node; `roles` says what the values that are still to come are.
void AstBuilder::step_part(Step& step, Id id, std::string_view& roles) {
  switch (kind(id)) {
    case Kind::verb:
      step.verb = span(id);
      return;
    case Kind::name:
    case Kind::declared_name:
      step.names.push_back(name(id));
      return;
    case Kind::with_yarn:
    case Kind::as_name:
      step.names.push_back(name(children(id).front()));
      return;
    case Kind::edge:
    case Kind::edge_part:
      step.edges.push_back(edge(id));
      return;
    case Kind::edge_sum:
    case Kind::sewn_edges:
      step.edges = edges(id);
      return;
    case Kind::edges_to:
      step.edges_to = edges(children(id).front());
      return;
    case Kind::on_edge:
      step.edges.push_back(edge(children(id).front()));
      return;
    case Kind::named_selection: {
      const Ids parts = children(id);
      step.named.push_back({expr(parts.front(), Where::needles), name(parts.back())});
      return;
    }
    case Kind::side:
      step.side = side(id);
      return;
    case Kind::direction:
      step.direction = direction(id);
      return;
    case Kind::bed:
      step.bed = bed(id);
      return;
    case Kind::tile:
      step.tile = tile(id);
      return;
    case Kind::tension:
      step.tension = tension(id);
      return;
    case Kind::pitch_word:
      step.word = words(id);
      return;
    case Kind::carriage_way: {  // both_ways, to_left, to_right
      const Id side = child(id, Kind::left_or_right);
      step.word = side == Tree::none ? words(id) : "to_" + words(side);
      return;
    }
    case Kind::step_move_to_bed:
      step.kind = StepKind::move_to_bed;
      for (const Id at : children(id)) step_part(step, at, roles);
      return;
    case Kind::step_move_by:
      for (const Id at : children(id)) step_part(step, at, roles);
      return;
    default: {
      const char role = roles.empty() ? 'n' : roles.front();
      if (!roles.empty()) roles.remove_prefix(1);
      if (role == 'a') step.amount = expr(id);
      if (role == 'b') step.second_amount = expr(id);
      if (role == 'n') step.needles = expr(id, Where::needles);
    }
  }
}

Step AstBuilder::step(Id id) {
  Step made{};
  for (const Id at : children(id)) {
    const StepRow* found = nullptr;
    for (const StepRow& row : step_rows) {
      if (row.kind == kind(at)) found = &row;
    }
    if (found == nullptr) {
      made.clauses.push_back(clause(at));
      continue;
    }
    made.kind = found->step;
    std::string_view roles = found->roles;
    for (const Id part : children(at)) step_part(made, part, roles);
  }
  return made;
}

Clause AstBuilder::clause(Id id) {
  using K = Clause::Kind;
  Clause made{};
  made.span = span(id);
  const Ids parts = children(id);
  const auto side_or_needles = [&] {
    if (kind(parts.front()) == Kind::side || kind(parts.front()) == Kind::left_or_right) {
      made.side = side(parts.front());
    } else {
      made.needles = expr(parts.front(), Where::needles);
    }
  };
  switch (kind(id)) {
    case Kind::carriage_clause:
      made.kind = K::carriage;
      made.side = side(parts.front());
      break;
    case Kind::placed_clause:
      made.kind = K::placed;
      if (parts.empty()) {
        made.word = "centre";
      } else {
        made.needles = expr(parts.front(), Where::needles);
      }
      break;
    case Kind::ending_clause:
      made.kind = K::ending;
      made.tile = tile(parts.front());
      break;
    case Kind::second_bed_clause:
      made.kind = K::second_bed;
      made.tile = tile(parts.front());
      break;
    case Kind::empties_clause: {  // empties out of work: without its first word, and without the side
      made.kind = K::empties;
      made.word = words(id).substr(std::string_view("empties_").size());
      if (!parts.empty()) {
        made.word = "filled_from";
        made.direction = direction(parts.front());
        if (made.direction == Direction::left) made.side = Side::left;
        if (made.direction == Direction::right) made.side = Side::right;
      }
      break;
    }
    case Kind::inset_clause:
      made.kind = K::inset;
      made.amount = expr(parts.front());
      break;
    case Kind::filled_clause:
      made.kind = K::filled;
      if (parts.empty()) {
        made.word = "eyelet";
      } else {
        made.direction = direction(parts.front());
      }
      break;
    case Kind::tail_clause:
      made.kind = K::tail;
      made.amount = expr(parts.front());
      break;
    case Kind::onto_clause:
      made.kind = K::onto;
      side_or_needles();
      break;
    case Kind::every_rows_clause:
      made.kind = K::every_rows;
      made.amount = expr(parts.front());
      made.second_amount = expr(parts.back());
      break;
    case Kind::from_clause:
      made.kind = K::from;
      if (parts.empty()) {
        made.word = words(id).substr(std::string_view("from_").size());  // the_open_side, the_fold
      } else {
        side_or_needles();
      }
      break;
    case Kind::open_side_clause:
      made.kind = K::open_side;
      made.side = side(parts.front());
      break;
    case Kind::joining_clause:
      made.kind = K::joining;
      made.side = side(parts.front());
      made.edges = edges(parts.back());
      break;
    case Kind::upper_on_clause:
      made.kind = K::upper_on;
      if (parts.empty()) {
        made.word = "holder";
      } else {
        made.needles = expr(parts.front(), Where::needles);
      }
      break;
    case Kind::with_clause:
      made.kind = K::with;
      made.name = name(parts.front());
      break;
    case Kind::repeat_from_clause:
      made.kind = K::repeat_from;
      if (parts.empty()) {
        made.word = "centred";
      } else {
        made.needles = expr(parts.front(), Where::needles);
      }
      break;
    case Kind::end_needles_clause:
      made.kind = K::end_needles;
      made.name = name(parts.front());
      break;
    case Kind::as_clause:
      made.kind = K::as;
      made.name = name(parts.front());
      break;
    case Kind::rows_clause:
      made.kind = K::rows;
      made.amount = expr(parts.front());
      break;
    default:
      made.kind = K::method;
      made.word = words(id);
  }
  return made;
}

std::vector<Fact> AstBuilder::facts(const Ids& ids) {
  std::vector<Fact> made;
  for (const Id id : ids) {
    switch (kind(id)) {
      case Kind::fact_carriage_side:
      case Kind::fact_carriage_beside:
      case Kind::fact_nothing_held:
      case Kind::fact_row:
      case Kind::fact_edge_rows:
      case Kind::fact_value:
        made.push_back(fact(id));
        break;
      default:
        break;
    }
  }
  return made;
}

Fact AstBuilder::fact(Id id) {
  Fact made{};
  made.span = span(id);
  const Ids parts = children(id);
  switch (kind(id)) {
    case Kind::fact_carriage_side:
      made.kind = Fact::Kind::carriage_side;
      made.side = side(parts.front());
      return made;
    case Kind::fact_carriage_beside:
      made.kind = Fact::Kind::carriage_beside;
      made.needles = expr(parts.front(), Where::needles);
      return made;
    case Kind::fact_nothing_held:
      made.kind = Fact::Kind::nothing_held;
      return made;
    case Kind::fact_row:
      made.kind = Fact::Kind::row;
      made.amount = expr(parts.front());
      return made;
    case Kind::fact_edge_rows:
      made.kind = Fact::Kind::edge_rows;
      made.side = side(parts.front());
      made.amount = expr(parts.back());
      return made;
    default:
      return fact_value(id);
  }
}

// `part in work` speaks of needles, `20 sts in work` counts them: an amount shows by its unit or its arithmetic. A name
// alone, a call, a comparison is a condition.
Fact AstBuilder::fact_value(Id id) {
  Fact made{};
  made.span = span(id);
  const Ids parts = children(id);
  std::string state;
  for (const Id at : parts) {
    if (kind(at) == Kind::fact_state) state = words(at);
    if (kind(at) == Kind::fact_bed) made.bed = bed(children(at).front());
  }
  const bool about_needles = state == "side_by_side" || state == "empty";
  ExprPtr value = expr(parts.front(), about_needles ? Where::needles : Where::anywhere);
  bool amount = std::holds_alternative<WithUnit>(value->node) || std::holds_alternative<Number>(value->node) ||
                std::holds_alternative<Grade>(value->node) || std::holds_alternative<ExceptGrade>(value->node) ||
                std::holds_alternative<As>(value->node) || std::holds_alternative<Rounded>(value->node) ||
                made.bed.has_value();
  if (const auto* binary = std::get_if<Binary>(&value->node)) amount = amount || binary->op <= Binary::Op::mod;
  if (state == "knitted") {
    made.kind = Fact::Kind::rows_knitted;
  } else if (about_needles) {
    made.kind = state == "empty" ? Fact::Kind::empty : Fact::Kind::side_by_side;
  } else if (amount) {
    made.kind = Fact::Kind::count;
    made.counts_held = state == "held";
  } else if (state == "in_work" || state == "held") {
    made.kind = state == "held" ? Fact::Kind::held : Fact::Kind::in_work;
  } else {
    made.kind = Fact::Kind::condition;
  }
  const bool needles = about_needles || made.kind == Fact::Kind::held || made.kind == Fact::Kind::in_work;
  (needles ? made.needles : made.amount) = std::move(value);
  return made;
}

}  // namespace stk::syntax
