// What a finding about a mistake needs to know of the tree around it. Private to this folder.
#pragma once

#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "compiler/findings/findings.hpp"
#include "compiler/syntax/tree.hpp"
#include "compiler/text/source.hpp"

namespace stk::syntax {

class Mistakes {
 public:
  Mistakes(const Tree& tree, const text::Source& source, findings::Findings& findings);
  void report();

 private:
  using Id = std::uint32_t;

  // syntax_findings.cpp
  void visit(Id id);
  void file_items();
  void missing_version();
  void check_version(Id id);
  void stray(Id id);
  void merge_marker(Id id);
  void deep(std::uint32_t begin, std::uint32_t end);

  // missing_findings.cpp: braces and marks that are not there
  void missing_brace(Id id);
  void missing_open(Id id);
  void unclosed_text(std::uint32_t begin, std::uint32_t end);
  Id unclosed_inside(Id lines) const;
  std::uint32_t indent(std::uint32_t byte) const;
  std::string opener(Id lines) const;

  // unexpected_findings.cpp: something else was expected
  void unexpected(Id id);
  void unknown_word(Id id, const ErrorNote& note, text::Span word);
  void expected(const ErrorNote& note);
  std::string_view verb_before(std::uint32_t byte) const;
  static bool has_verbs(Kind owner);  // lines between its braces begin with a verb
  bool unclosed_in(Id bad, const ErrorNote& note);

  // spelling_findings.cpp: what was read, and is spelled otherwise
  static bool has_spelling(Kind kind);
  void spelling(Id id);
  void odd_number(Id id);
  void odd_text(Id id);
  void odd_name(Id id);
  void look_alike_sign(text::Span at, std::string_view plain);

  Kind kind(Id id) const { return tree_.nodes[id].kind; }
  const Node& node(Id id) const { return tree_.nodes[id]; }
  std::string_view text(text::Span at) const { return tree_.source.substr(at.begin, at.end - at.begin); }
  text::Span span(std::uint32_t begin, std::uint32_t end) const { return {begin, end, source_.id()}; }
  text::Span span(Id id) const { return span(node(id).begin, node(id).end); }
  text::Span word_at(std::uint32_t byte) const;  // the word, number or sign there; empty at a line's end
  bool first_at(std::uint32_t byte);             // nothing was reported there yet, and something may be now

  const Tree& tree_;
  const text::Source& source_;
  findings::Findings& findings_;
  std::vector<Id> parent_;
  std::set<std::uint32_t> places_;  // where something was reported: one mistake, one finding
  std::size_t reported_ = 0;
  bool stopped_ = false;  // nested too deep or too many: the rest of the file is not to be trusted
};

}  // namespace stk::syntax
