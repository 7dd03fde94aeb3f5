// Within names/: the walk over all trees of a program that looks every name up. One class over three files:
// declarations (resolve.cpp), statements (resolve_statements.cpp) and expressions (resolve_expressions.cpp).
#pragma once

#include <map>
#include <set>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "compiler/findings/findings.hpp"
#include "compiler/names/builtins.hpp"
#include "compiler/names/program.hpp"
#include "compiler/names/scope.hpp"

namespace stk::names {

// Which declaration uses which: lets name lets, techniques work techniques.
using Uses = std::map<const Declaration*, std::vector<std::pair<const Declaration*, text::Span>>>;

class Resolver {
 public:
  Resolver(const Program& program, findings::Findings& findings) : program_(program), findings_(findings) {}

  void resolve();

 private:
  // resolve.cpp
  void file(const LoadedFile& file);
  void item(const syntax::Item& item);
  void edition(const syntax::Edition& edition);
  void yarn(const syntax::Yarn& yarn);
  void chart(const syntax::Chart& chart);
  void technique(const syntax::Technique& technique);
  void kind_of(const syntax::Parameter& parameter);
  void let_of_the_pattern(const syntax::Let& let);
  void sizes(const syntax::Sizes& sizes);
  void report_rows_by_gauge();  // rows of the sizes that ask for a gauge, themselves or through what they name
  void report_unused();
  bool gives_to_all(text::FileId id) const;
  void close_scope();  // reports what was never used in it
  void check_spelling(std::string_view name, text::Span span, const std::vector<text::Span>& uses);

  // resolve_statements.cpp
  void block(const syntax::Block& block);
  void statement(const syntax::Statement& statement);
  void let_of_a_block(const syntax::Let& let);
  void fact(const syntax::Fact& fact);
  void step(const syntax::Step& step);
  void edge(const syntax::EdgeRef& edge);
  void clause(const syntax::Clause& clause);
  void only_for(const syntax::OnlyFor& only);
  void repeat(const syntax::Repeat& repeat);
  void choice(const syntax::If& choice);
  void work(const syntax::Work& work);
  void arguments_of_work(const syntax::Call& call, const syntax::Technique& technique, text::Span declared);
  void report_unknown_argument(const syntax::Name& label, std::string_view callee,
                               const std::vector<std::string>& known, text::Span declared);
  void argument(const syntax::Expr& value, const syntax::Parameter& parameter);

  // resolve_expressions.cpp
  void expression(const syntax::ExprPtr& expr);
  void expression(const syntax::Expr& expr);
  void name(const syntax::Expr& expr, const syntax::NameRef& ref);
  void call(const syntax::Expr& expr, const syntax::Call& call);
  void builtin_call(const syntax::Expr& expr, const syntax::Call& call, const BuiltinEntry& entry);
  void formula_call(const syntax::Expr& expr, const syntax::Call& call, const syntax::Let& let);
  void parameters_of_a_formula(const syntax::Let& let);
  bool compares_choice(const syntax::Binary& binary);
  const syntax::Parameter* choice_parameter(const syntax::ExprPtr& expr);
  void choice_word(const syntax::Name& word, const syntax::Parameter& parameter);
  void exceptions(const syntax::ExceptGrade& grade);

  // Looking up. Each reports what it does not find, once for a name and file, and remembers what was used.
  const Declaration* use(Space space, std::string_view name, text::Span span);
  void use_yarn(const syntax::Name& name);
  void use_chart(const syntax::Name& name);
  void use_fabric(const syntax::Name& name);
  void use_size(const syntax::Name& name);
  template <findings::Code C>
  void unknown(const syntax::Name& name, std::vector<std::string> known, std::string_view help);
  bool quiet_about(std::string_view name);
  void mark_used(std::string_view name);  // what a suggestion names is not unused as well
  void hides(const syntax::Name& name);

  const Program& program_;
  findings::Findings& findings_;
  const LoadedFile* file_ = nullptr;
  const Declaration* current_ = nullptr;  // the let or technique being walked
  Scope scope_;
  Uses uses_;
  std::set<const Declaration*> used_;
  std::map<const Declaration*, std::vector<text::Span>> used_at_;
  std::map<const Declaration*, text::Span> asks_gauge_;  // lets and rows with stitches(…) or its like in them
  std::set<std::uint16_t> used_files_;
  std::set<std::pair<std::uint16_t, std::string>> reported_;
  std::set<const syntax::Let*> used_early_;  // N16: not unused as well
  bool broken_ = false;                      // something was not understood: what it used is not known
};

// circles.cpp: lets that are worked out from themselves, techniques that work themselves, chains that are too long.
void report_circles(const Program& program, const Uses& uses, findings::Findings& findings);

}  // namespace stk::names
