// From the concrete tree to the typed one: plain code, no grammar. Private to this folder.
//
// The builder walks node kinds and trusts their order, which grammar/ fixes. Nodes of mistakes become Invalid or are
// left out; their findings are made elsewhere (syntax_findings.cpp).
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "compiler/syntax/ast.hpp"
#include "compiler/syntax/tree.hpp"

namespace stk::syntax {

class AstBuilder {
 public:
  AstBuilder(const Tree& tree, text::FileId file) : tree_(tree), file_(file) {}

  File file();  // build_parts.cpp

 private:
  using Id = std::uint32_t;
  using Ids = std::vector<Id>;

  // build_ast.cpp: reading nodes
  const Node& node(Id id) const { return tree_.nodes[id]; }
  Kind kind(Id id) const { return tree_.nodes[id].kind; }
  std::string_view text(Id id) const { return tree_.text(tree_.nodes[id]); }
  Span span(Id id) const { return {node(id).begin, node(id).end, file_}; }
  Ids children(Id id) const { return tree_.children(id); }
  Id child(Id id, Kind kind) const;  // the first child of that kind, or Tree::none
  bool broken(Id id) const;          // a mistake lies in its subtree
  std::string_view first_word(Id id) const;
  std::string words(Id id) const;  // its words in lower case, joined by underscores
  Name name(Id id) const { return {std::string(text(id)), span(id)}; }
  std::vector<Name> names(const Ids& ids, Kind kind) const;
  Side side(Id id) const;
  Direction direction(Id id) const;
  Bed bed(Id id) const;
  Tile tile(Id id) const;

  // build_values.cpp
  enum class Where : std::uint8_t { anywhere, needles };  // whether `and` can only join needles
  ExprPtr expr(Id id, Where where = Where::anywhere);
  template <class T>
  ExprPtr make(Span at, T node);
  ExprPtr invalid(Span at);
  ExprPtr number(Id id);
  ExprPtr grade(Id id);
  ExprPtr except_grade(Id id);
  ExprPtr chain(Id id, Where where);
  ExprPtr tail(ExprPtr operand, Id tail, Where where);
  ExprPtr rounded(ExprPtr operand, Id tail);
  ExprPtr call_expr(Id id);
  ExprPtr of_each(Id id);
  ExprPtr needle_range(Id id);
  ExprPtr text_expr(Id id);
  SizeValue size_value(Id id);
  Call call(Id id);
  Text text_value(Id id);

  // build_steps.cpp
  Step step(Id id);
  void step_part(Step& step, Id id, std::string_view& roles);
  Clause clause(Id id);
  Fact fact(Id id);
  Fact fact_value(Id id);
  std::vector<Fact> facts(const Ids& ids);
  EdgeRef edge(Id id);
  std::vector<EdgeRef> edges(Id id);
  Tension tension(Id id);

  // build_statements.cpp
  Block block(Id owner);  // of the `lines` under a part or statement
  Block lines(Id id);
  Statement statement(Id id);
  Let let(Id id);
  If if_statement(Id id);

  // build_parts.cpp
  Item item(Id id);
  std::vector<Field> fields(Id owner);
  Use use(Id id);
  Sizes sizes(Id id);
  Measures measures(Id id);
  TableRow table_row(Id id);
  TableRow worked_row(Id id);
  Edition edition(Id id);
  Yarn yarn(Id id);
  Gauge gauge(Id id);
  MachineClass machine_class(Id id);
  Setting setting(Id id);
  Ease ease(Id id);
  Chart chart(Id id);
  Technique technique(Id id);
  Parameter parameter(Id id);
  Piece piece(Id id);

  const Tree& tree_;
  text::FileId file_;
};

inline File build_ast(const Tree& tree, text::FileId file) {
  return AstBuilder(tree, file).file();
}

// A number as later phases read it: plain digits, a point for a decimal comma.
std::string plain_number(std::string_view spelled);

// How a sign that looks like another should be spelled; empty for a sign that is none. `length` is its bytes.
std::string_view look_alike(std::string_view at, std::size_t& length);

// ---- templates

template <class T>
ExprPtr AstBuilder::make(Span at, T node) {
  auto made = std::make_unique<Expr>();
  made->span = at;
  made->node = std::move(node);
  return made;
}

// One mistake is one of these kinds of node.
bool is_mistake(Kind kind);

}  // namespace stk::syntax
