// Prints the typed tree: see dump.hpp for the form.
#include "compiler/syntax/dump.hpp"

#include <string_view>

namespace stk::syntax {
namespace {

constexpr std::string_view side_names[] = {"left", "right", "each_side", "carriage_side", "far_side"};
constexpr std::string_view direction_names[] = {"left", "right", "inward", "outward", "inside", "outside"};
constexpr std::string_view bed_names[] = {"main_bed", "second_bed", "both_beds"};
constexpr std::string_view op_names[] = {"+", "-", "*", "/", "mod", "<", "<=", ">", ">=", "is", "is_not", "and", "or"};
constexpr std::string_view fact_names[] = {"carriage",  "carriage_beside", "nothing_held", "row",   "in_work",
                                           "held",      "empty",           "side_by_side", "count", "rows_knitted",
                                           "edge_rows", "condition"};
constexpr std::string_view step_names[] = {
    "cast_on",        "knit",        "knit_to_row", "knit_chart",      "thread",          "cut",
    "rest_yarn",      "tension",     "counter",     "hang_comb",       "hang_weights",    "remove_comb",
    "hold",           "release",     "wrap",        "bring_into_work", "put_out_of_work", "set_needles",
    "move",           "move_to_bed", "lift",        "increase",        "decrease",        "fill",
    "cross",          "tuck",        "slip",        "mark_row",        "hang_edge",       "pick_up",         "open",
    "latch_up",       "scrap_off",   "take_off",    "bind_off",        "gather",          "pitch",
    "carriage_knits", "graft",       "seam",        "thread_through",  "close_corners",   "weave_in_ends"};
constexpr std::string_view clause_names[] = {"method",      "carriage",    "placed",    "ending",   "second_bed",
                                             "empties",     "inset",       "filled",    "tail",     "onto",
                                             "every_rows",  "from",        "open_side", "upper_on", "with",
                                             "repeat_from", "end_needles", "as",        "rows",     "joining"};

template <class Enum, std::size_t N>
std::string name_of(const std::string_view (&names)[N], Enum value) {
  return std::string(names[static_cast<std::size_t>(value)]);
}

class Dumper {
 public:
  std::string out;

  std::string operator()(const Invalid&) const { return "?"; }
  std::string operator()(const Number& n) const { return n.digits; }
  std::string operator()(const SizeValue& v) const { return v.dash ? "-" : (v.negative ? "-" : "") + v.digits; }
  std::string operator()(const Grade& g) const {
    std::string made = "(grade";
    for (const SizeValue& value : g.values) made += ' ' + (*this)(value);
    return made + ')';
  }
  std::string operator()(const ExceptGrade& g) const {
    std::string made = "(but " + (*this)(g.others);
    for (const auto& [name, value] : g.exceptions) made += ' ' + name.text + ':' + (*this)(value);
    return made + ')';
  }
  std::string operator()(const WithUnit& w) const { return list("unit", *w.operand) + ' ' + w.unit.text + ')'; }
  std::string operator()(const As& a) const { return list("as", *a.operand) + ' ' + a.unit.text + ')'; }
  std::string operator()(const Text& t) const {
    std::string made = "\"";
    for (const TextPiece& piece : t.pieces) made += piece.value ? '{' + expr(*piece.value) + '}' : piece.literal;
    return made + '"';
  }
  std::string operator()(const NameRef& n) const { return joined(n.parts); }
  std::string operator()(const Call& c) const {
    std::string made = '(' + c.callee.text + "()";
    for (const Argument& a : c.arguments) made += ' ' + (a.label ? a.label->text + ": " : "") + expr(*a.value);
    return made + ')';
  }
  std::string operator()(const Unary& u) const {
    return list(u.op == Unary::Op::minus ? "-" : "not", *u.operand) + ')';
  }
  std::string operator()(const Binary& b) const {
    return list(op_names[static_cast<std::size_t>(b.op)], *b.left) + ' ' + expr(*b.right) + ')';
  }
  std::string operator()(const Rounded& r) const {
    constexpr std::string_view directions[] = {"nearest", "up", "down"};
    constexpr std::string_view targets[] = {"whole", "even", "odd", "multiple", "parity"};
    std::string made =
        list("rounded", *r.operand) + ' ' + name_of(directions, r.direction) + ' ' + name_of(targets, r.target);
    if (r.modulus) made += ' ' + expr(*r.modulus);
    if (r.offset) made += (r.offset_negative ? " minus " : " plus ") + expr(*r.offset);
    return made + ')';
  }
  std::string operator()(const Conditional& c) const {
    return list("if", *c.condition) + ' ' + expr(*c.consequent) + ' ' + expr(*c.alternative) + ')';
  }
  std::string operator()(const Fraction& f) const { return '(' + f.system.text + ' ' + f.count + '/' + f.ply + ')'; }
  std::string operator()(const BedSelector& b) const { return name_of(bed_names, b.bed); }
  std::string operator()(const HalfSelector& h) const { return name_of(side_names, h.side) + "_half"; }
  std::string operator()(const MiddleSelector& m) const { return list("middle", *m.count) + ')'; }
  std::string operator()(const OnSideSelector& o) const {
    return list("on", *o.count) + ' ' + name_of(side_names, o.side) + ')';
  }
  std::string operator()(const OfEachSelector& o) const {
    constexpr std::string_view which[] = {"first", "middle", "last"};
    return '(' + name_of(which, o.which) + ' ' + (o.count ? expr(*o.count) : "1") + " of_each " + expr(*o.group) + ')';
  }
  std::string operator()(const EverySelector& e) const {
    return e.ordinal ? list("every", *e.ordinal) + ')' : "every_other";
  }
  std::string operator()(const NeedleRange& n) const {
    return n.from.side + n.from.digits + (n.to ? std::string("..") + n.to->side + n.to->digits : "");
  }
  std::string operator()(const OfSelector& o) const { return list("of", *o.selection) + ' ' + expr(*o.within) + ')'; }
  std::string operator()(const ExceptSelector& e) const {
    return list("except", *e.from) + ' ' + expr(*e.without) + ')';
  }
  std::string operator()(const UnionSelector& u) const { return list("union", *u.left) + ' ' + expr(*u.right) + ')'; }

  std::string expr(const Expr& e) const { return std::visit(*this, e.node); }

  // ---- statements
  void block(const Block& b, int depth) {
    for (const Statement& s : b.statements) statement(s, depth);
  }
  void statement(const Statement& s, int depth) {
    std::visit([&](const auto& node) { put(node, depth); }, s.node);
  }
  void put(const Invalid&, int depth) { line(depth, "?"); }
  void put(const Let& l, int depth) {
    std::string made = "let " + l.name.text;
    if (l.has_parameters) made += "()";
    for (const Name& p : l.parameters) made += ' ' + p.text;
    line(depth, made + " = " + maybe(l.value));
  }
  void put(const Section& s, int depth) {
    line(depth, "section " + (s.name ? s.name->text + ' ' : "") + maybe(s.title));
  }
  void put(const OnlyFor& o, int depth) {
    line(depth, "only for" + spaced(o.names));
    block(o.body, depth + 1);
  }
  void put(const If& i, int depth) {
    line(depth, "if " + maybe(i.condition));
    block(i.then, depth + 1);
    if (i.otherwise) {
      line(depth, "else");
      statement(*i.otherwise, depth + 1);
    }
  }
  void put(const Nested& n, int depth) { block(n.body, depth); }
  void put(const Repeat& r, int depth) {
    line(depth, "repeat " + maybe(r.times) + (r.turn ? " as " + r.turn->text : ""));
    block(r.body, depth + 1);
  }
  void put(const Say& s, int depth) {
    line(depth, "say " + maybe(s.text));
    block(s.body, depth + 1);
  }
  void put(const Note& n, int depth) { line(depth, (n.caution ? "caution " : "note ") + maybe(n.text)); }
  void put(const Expect& e, int depth) { line(depth, "expect" + facts(e.facts)); }
  void put(const Work& w, int depth) { line(depth, "work " + (*this)(w.call) + (w.as ? " as " + w.as->text : "")); }
  void put(const Step& s, int depth) {
    std::string made = name_of(step_names, s.kind);
    if (s.amount) made += " amount=" + expr(*s.amount);
    if (s.second_amount) made += " second=" + expr(*s.second_amount);
    if (s.needles) made += " needles=" + expr(*s.needles);
    for (const EdgeRef& e : s.edges) made += " edge=" + edge(e);
    for (const EdgeRef& e : s.edges_to) made += " to=" + edge(e);
    for (const NamedSelection& n : s.named) made += " named=" + expr(*n.needles) + ':' + n.name.text;
    for (const Name& n : s.names) made += " name=" + n.text;
    if (s.side) made += " side=" + name_of(side_names, *s.side);
    if (s.direction) made += " direction=" + name_of(direction_names, *s.direction);
    if (s.bed) made += " bed=" + name_of(bed_names, *s.bed);
    if (s.tile) made += " tile=" + tile(*s.tile);
    if (s.tension) made += " tension=" + tension(*s.tension);
    if (!s.word.empty()) made += " word=" + s.word;
    line(depth, made);
    for (const Clause& c : s.clauses) clause(c, depth + 1);
  }
  void clause(const Clause& c, int depth) {
    std::string made = ", " + name_of(clause_names, c.kind);
    if (!c.word.empty()) made += ' ' + c.word;
    if (c.amount) made += " amount=" + expr(*c.amount);
    if (c.second_amount) made += " second=" + expr(*c.second_amount);
    if (c.needles) made += " needles=" + expr(*c.needles);
    if (c.side) made += " side=" + name_of(side_names, *c.side);
    if (c.direction) made += " direction=" + name_of(direction_names, *c.direction);
    if (c.tile) made += " tile=" + tile(*c.tile);
    if (c.name) made += " name=" + c.name->text;
    for (const EdgeRef& e : c.edges) made += " edge=" + edge(e);
    line(depth, made);
  }
  std::string facts(const std::vector<Fact>& all) const {
    std::string made;
    for (const Fact& f : all) {
      made += " [" + name_of(fact_names, f.kind);
      if (f.kind == Fact::Kind::carriage_side || f.kind == Fact::Kind::edge_rows)
        made += ' ' + name_of(side_names, f.side);
      if (f.amount) made += ' ' + expr(*f.amount);
      if (f.needles) made += ' ' + expr(*f.needles);
      if (f.counts_held) made += " held";
      if (f.bed) made += ' ' + name_of(bed_names, *f.bed);
      made += ']';
    }
    return made;
  }

  // ---- declarations
  void put(const Pattern& p, int depth) {
    line(depth, "pattern " + maybe(p.title));
    fields(p.fields, depth + 1);
  }
  void put(const Library& l, int depth) {
    line(depth, "library " + l.name.text);
    fields(l.fields, depth + 1);
  }
  void fields(const std::vector<Field>& all, int depth) {
    for (const Field& f : all) line(depth, f.name.text + spaced(f.texts));
  }
  void put(const Use& u, int depth) {
    line(depth, "use " + (u.library ? u.library->text : maybe(u.path)) + (u.alias ? " as " + u.alias->text : ""));
  }
  void put(const Sizes& s, int depth) {
    line(depth, "sizes" + spaced(s.columns));
    for (const FromRow& f : s.from) line(depth + 1, "from " + f.table.text + spaced(f.columns));
    rows(s.rows, depth + 1);
  }
  void put(const Measures& m, int depth) {
    line(depth, "measures " + m.name.text + spaced(m.columns));
    rows(m.rows, depth + 1);
  }
  void rows(const std::vector<TableRow>& all, int depth) {
    for (const TableRow& r : all) {
      std::string made = r.name.text;
      for (const auto& cell : r.cells) made += ' ' + std::visit(*this, cell);
      if (r.formula) made += " = " + maybe(r.formula);
      line(depth, made + (r.unit ? ' ' + r.unit->text : "") + (r.source ? " source " + maybe(r.source) : ""));
    }
  }
  std::string bought(const Yarn& y) {
    std::string made;
    for (const YarnLabel& l : y.labels) made += " label " + maybe(l.length) + ' ' + maybe(l.mass);
    for (const YarnStock& s : y.stock) made += " balls " + (s.balls ? maybe(s.balls) + ' ' : "") + maybe(s.size);
    return made + (y.margin ? " margin " + maybe(y.margin) : "");
  }
  void put(const Edition& e, int depth) {
    line(depth, "edition " + e.name.text);
    for (const MachineRef& m : e.machines)
      line(depth + 1, "machine " + m.name.text + (m.second_bed ? " second_bed" : ""));
    for (const Yarn& y : e.yarns)
      line(depth + 1, "yarn " + y.name.text + ' ' + maybe(y.description) + spaced(y.properties) + bought(y));
    for (const Gauge& g : e.gauges) {
      line(depth + 1, "gauge " + (g.fabric ? g.fabric->text + ' ' : "") + maybe(g.stitches) + ' ' + maybe(g.rows) +
                          " to " + maybe(g.over) + (g.tension ? " at " + tension(*g.tension) : ""));
    }
  }
  void put(const MachineClass& m, int depth) {
    line(depth, "machine " + m.name.text);
    for (const MachineField& f : m.fields) line(depth + 1, f.name.text + spaced(f.values));
  }
  void put(const Setting& s, int depth) {
    line(depth, "setting " + s.name.text + " = " + maybe(s.value) + " from " + maybe(s.from) + " to " + maybe(s.to) +
                    (s.step ? " step " + maybe(s.step) : "") + ' ' + maybe(s.text));
  }
  void put(const Ease& e, int depth) {
    std::string made = "ease";
    for (const EaseRange& r : e.ranges)
      made += " [" + r.measure.text + ' ' + maybe(r.from) + " to " + maybe(r.to) + ']';
    line(depth, made);
  }
  void put(const Floats& f, int depth) { line(depth, "floats " + maybe(f.limit)); }
  void put(const Finished& f, int depth) { line(depth, "finished " + f.measure.text + " = " + maybe(f.value)); }
  void put(const Chart& c, int depth) {
    line(depth, "chart " + c.name.text + (c.seen_from ? " seen from " + c.seen_from->text : ""));
    for (const Mark& m : c.key) line(depth + 1, std::string(1, m.mark) + ' ' + m.yarn.text);
    for (const ChartRow& r : c.rows) line(depth + 1, '[' + r.marks + ']');
  }
  void put(const Technique& t, int depth) {
    line(depth, "technique " + t.name.text);
    for (const Parameter& p : t.parameters)
      line(depth + 1,
           "parameter " + p.name.text + ":" + spaced(p.kinds) + (p.fallback ? " = " + maybe(p.fallback) : ""));
    for (const Contract& c : t.contracts)
      line(depth + 1, (c.leaves ? "leaves" : "needs") + facts(c.facts) + (c.message ? ' ' + maybe(c.message) : ""));
    if (t.says) line(depth + 1, "says " + maybe(t.says));
    block(t.body, depth + 1);
  }
  void put(const Piece& p, int depth) {
    line(depth, "piece " + p.name.text + (p.make ? " make " + maybe(p.make) : "") +
                    (p.second_mirrored ? " second_mirrored" : ""));
    block(p.body, depth + 1);
  }
  void put(const Finish& f, int depth) {
    line(depth, "finish");
    block(f.body, depth + 1);
  }

 private:
  void line(int depth, const std::string& text) {
    out += std::string(static_cast<std::size_t>(2 * depth), ' ') + text + '\n';
  }
  std::string list(std::string_view head, const Expr& first) const {
    return '(' + std::string(head) + ' ' + expr(first);
  }
  std::string maybe(const ExprPtr& e) const { return e ? expr(*e) : "nothing"; }
  std::string edge(const EdgeRef& e) const { return (e.part ? expr(*e.part) + '/' : "") + joined(e.parts); }
  static std::string joined(const std::vector<Name>& parts) {
    std::string made;
    for (const Name& part : parts) made += (made.empty() ? "" : ".") + part.text;
    return made;
  }
  static std::string spaced(const std::vector<Name>& names) {
    std::string made;
    for (const Name& name : names) made += ' ' + name.text;
    return made;
  }
  std::string spaced(const std::vector<ExprPtr>& values) const {
    std::string made;
    for (const ExprPtr& value : values) made += ' ' + expr(*value);
    return made;
  }
  static std::string tile(const Tile& t) {
    std::string made = "[";
    for (const bool in_work : t.needles) made += in_work ? '|' : '.';
    return made + ']';
  }
  std::string tension(const Tension& t) const {
    return std::string("MT") + (t.offset ? (t.negative ? "-" : "+") + expr(*t.offset) : "");
  }
};

}  // namespace

std::string dump(const Expr& expr) {
  return Dumper().expr(expr);
}

std::string dump(const File& file) {
  Dumper dumper;
  dumper.out = "version " + (file.version ? file.version->text : "none") + '\n';
  for (const Item& item : file.items) std::visit([&](const auto& node) { dumper.put(node, 0); }, item.node);
  return dumper.out;
}

}  // namespace stk::syntax
