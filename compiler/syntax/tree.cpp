// Names of kinds and the way down a flat tree.
#include "compiler/syntax/tree.hpp"

#include <algorithm>

namespace stk::syntax {

std::string_view name_of(Kind kind) {
  switch (kind) {
#define STK_TOKEN_CLASS(name)
#define STK_FOLDED(rule) STK_NODE(rule)
#define STK_LEAF(rule) STK_NODE(rule)
#define STK_NODE(rule) \
  case Kind::rule:     \
    return #rule;
#include "grammar/kinds.def"
#undef STK_NODE
#undef STK_FOLDED
#undef STK_LEAF
#undef STK_TOKEN_CLASS
  }
  return "";
}

std::string_view name_of(TokenClass token_class) {
  switch (token_class) {
#define STK_NODE(rule)
#define STK_FOLDED(rule)
#define STK_LEAF(rule)
#define STK_TOKEN_CLASS(name) \
  case TokenClass::name:      \
    return #name;
#include "grammar/kinds.def"
#undef STK_NODE
#undef STK_FOLDED
#undef STK_LEAF
#undef STK_TOKEN_CLASS
  }
  return "";
}

std::vector<std::uint32_t> Tree::children(std::uint32_t node) const {
  std::vector<std::uint32_t> found;
  const std::uint32_t first = node + 1 - nodes[node].size;  // the index of the first node of the subtree
  for (std::uint32_t at = node; at > first;) {
    --at;
    found.push_back(at);
    at = at + 1 - nodes[at].size;
  }
  std::reverse(found.begin(), found.end());
  return found;
}

std::string dump(const Tree& tree) {
  std::vector<std::uint32_t> depth(tree.nodes.size(), 0);
  std::string out;
  for (std::uint32_t at = static_cast<std::uint32_t>(tree.nodes.size()); at > 0;) {
    --at;
    for (const std::uint32_t child : tree.children(at)) depth[child] = depth[at] + 1;
  }
  // Parents first: walk with a stack.
  std::vector<std::uint32_t> open;
  if (!tree.nodes.empty()) open.push_back(tree.root());
  while (!open.empty()) {
    const std::uint32_t at = open.back();
    open.pop_back();
    const Node& node = tree.nodes[at];
    out.append(2 * depth[at], ' ');
    out += name_of(node.kind);
    out += ' ' + std::to_string(node.begin) + ".." + std::to_string(node.end);
    if (node.size == 1 && node.end > node.begin) out += " `" + std::string(tree.text(node)) + '`';
    out += '\n';
    const auto below = tree.children(at);
    open.insert(open.end(), below.rbegin(), below.rend());
  }
  return out;
}

}  // namespace stk::syntax
