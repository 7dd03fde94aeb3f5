// What must hold of every tree, whatever the text.
#pragma once

#include <string>

#include "compiler/syntax/tree.hpp"

namespace stk::test {

// Empty if all is well, or what is wrong.
inline std::string tree_problem(const syntax::Tree& tree) {
  if (tree.nodes.empty()) return "no node";
  const syntax::Node& root = tree.nodes[tree.root()];
  if (root.kind != syntax::Kind::file) return "the root is no file";
  if (root.size != tree.nodes.size()) return "nodes outside the root";
  if (!tree.tokens.empty()) {
    if (tree.tokens.back().end > root.end && tree.tokens.back().token_class != syntax::TokenClass::line_end)
      return "the root ends before the last token";
    if (tree.tokens.back().after != tree.source.size()) return "the text goes on behind the last token";
  }
  for (std::size_t i = 1; i < tree.tokens.size(); ++i) {
    if (tree.tokens[i].begin != tree.tokens[i - 1].after)
      return "tokens do not cover the text at " + std::to_string(tree.tokens[i].begin);
  }
  for (std::uint32_t id = 0; id < tree.nodes.size(); ++id) {
    const syntax::Node& node = tree.nodes[id];
    if (node.begin > node.end || node.end > tree.source.size())
      return "a span runs backwards at " + std::to_string(node.begin);
    if (node.size == 0 || node.size > id + 1) return "a subtree is larger than the tree";
    std::uint32_t at = node.begin;
    for (const std::uint32_t child : tree.children(id)) {
      const syntax::Node& below = tree.nodes[child];
      if (below.begin < at || (below.end > node.end && below.end > below.begin))
        return std::string(syntax::name_of(below.kind)) + " reaches out of " + std::string(syntax::name_of(node.kind)) +
               " at " + std::to_string(below.begin);
      at = below.end;
    }
  }
  return "";
}

}  // namespace stk::test
