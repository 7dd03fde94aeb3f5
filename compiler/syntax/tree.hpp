// The concrete tree of a source: flat, in post-order (a node stands behind its children), with the tokens beside it.
//
// A node spans the bytes from its first token to the end of its last one. Blanks and comments are stored nowhere: they
// are what lies between the tokens, so a formatter finds every comment there (Token::end to the next Token::begin).
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace stk::syntax {

enum class Kind : std::uint8_t {
#define STK_TOKEN_CLASS(name)
#define STK_FOLDED(rule) STK_NODE(rule)
#define STK_LEAF(rule) STK_NODE(rule)
#define STK_NODE(rule) rule,
#include "grammar/kinds.def"
#undef STK_NODE
#undef STK_FOLDED
#undef STK_LEAF
#undef STK_TOKEN_CLASS
};
std::string_view name_of(Kind kind);  // "if_statement"

enum class TokenClass : std::uint8_t {
#define STK_TOKEN_CLASS(name) name,
#define STK_FOLDED(rule)
#define STK_LEAF(rule)
#define STK_NODE(rule)
#include "grammar/kinds.def"
#undef STK_NODE
#undef STK_FOLDED
#undef STK_LEAF
#undef STK_TOKEN_CLASS
};
std::string_view name_of(TokenClass token_class);

struct Node {
  Kind kind;
  std::uint32_t begin;
  std::uint32_t end;
  std::uint32_t size;  // nodes of its subtree, itself among them
  std::uint32_t note;  // of Kind::noted and bad_text_value: which of Tree::notes
};

struct Token {
  std::uint32_t begin;
  std::uint32_t end;
  std::uint32_t after;  // where the next token begins: blanks and comments end there
  TokenClass token_class;
};

// What would have fitted at the farthest place that was reached.
struct Expected {
  enum class Voice : std::uint8_t { phrase, word, weak_word, weak_phrase, too_deep, hint };
  std::string_view text;  // "an amount", or the word or sign itself
  Voice voice;
};
struct ErrorNote {
  std::uint32_t at;        // where reading stopped
  std::uint32_t good_end;  // the end of the last token that was still good
  std::uint32_t opening;   // of the bracket that is not closed; `none` if that is not what is missing
  std::vector<Expected> expected;
};

struct Tree {
  static constexpr std::uint32_t none = 0xFFFFFFFF;

  std::string_view source;
  std::vector<Node> nodes;
  std::vector<Token> tokens;
  std::vector<ErrorNote> notes;
  std::uint64_t attempts = 0;  // tokens that were looked for: what reading cost, the same on every machine

  std::uint32_t root() const { return static_cast<std::uint32_t>(nodes.size()) - 1; }
  std::string_view text(const Node& node) const { return source.substr(node.begin, node.end - node.begin); }
  std::vector<std::uint32_t> children(std::uint32_t node) const;  // in the order of the source
};

// Never fails. Broken source gives nodes of the kinds that stand first in kinds.def.
Tree parse_tree(std::string_view source);

// The tree as indented text, for tests.
std::string dump(const Tree& tree);

}  // namespace stk::syntax
