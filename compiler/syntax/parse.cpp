// The parser: the only file that includes PEGTL. One control hook makes the flat tree and takes it back where PEGTL
// backtracks; the Builder remembers the farthest place where a token failed, which is where a mistake is.
#include "compiler/syntax/parse.hpp"

#include <algorithm>
#include <tao/pegtl/memory_input.hpp>
#include <tao/pegtl/normal.hpp>
#include <tao/pegtl/nothing.hpp>
#include <tao/pegtl/parse.hpp>
#include <tuple>
#include <utility>

#include "compiler/syntax/build_ast.hpp"
#include "compiler/syntax/syntax_findings.hpp"
#include "compiler/syntax/tree.hpp"
#include "compiler/text/limits.hpp"
#include "grammar/parts.hpp"

namespace stk::syntax {
namespace {

namespace pegtl = tao::pegtl;

// -------------------------------------------------------------------------------------------- which rules make nodes

template <class Rule>
struct NodeOf {
  static constexpr bool made = false, folded = false;
};
template <Kind K, bool Folded>
struct MakesNode {
  static constexpr bool made = true, folded = Folded;
  static constexpr Kind kind = K;
};
#define STK_TOKEN_CLASS(name)
#define STK_NODE(rule) \
  template <>          \
  struct NodeOf<grammar::rule> : MakesNode<Kind::rule, false> {};
#define STK_FOLDED(rule) \
  template <>            \
  struct NodeOf<grammar::rule> : MakesNode<Kind::rule, true> {};
#define STK_LEAF(rule)                                  \
  template <>                                           \
  struct NodeOf<grammar::rule> {                        \
    static constexpr bool made = false, folded = false; \
    static constexpr Kind kind = Kind::rule;            \
  };
#include "grammar/kinds.def"
#undef STK_NODE
#undef STK_FOLDED
#undef STK_LEAF
#undef STK_TOKEN_CLASS
template <grammar::Fixed... W>
struct NodeOf<grammar::verb_of<W...>> : MakesNode<Kind::verb, false> {};
template <class Open, class Line, class Bad>
struct NodeOf<grammar::lines_of<Open, Line, Bad>> : MakesNode<Kind::lines, false> {};

// ------------------------------------------------------------------------------------------------------- the builder

class Builder {
 public:
  explicit Builder(Tree& tree) : tree_(tree) {}

  // The guards of grammar/rules.hpp raise and lower these.
  std::uint32_t brackets = 0, depth = 0, blocks = 0, quiet = 0;
  bool in_text = false;

  // Failures.
  void failed(std::uint32_t byte, std::string_view text, grammar::Voice voice) {
    ++tree_.attempts;
    if (quiet > 0 || voice == grammar::Voice::silent || byte < far_) return;
    if (byte > far_) {
      far_ = byte;
      good_end_ = end_before(byte);
      opening_ = Tree::none;
      expected_.clear();
    }
    expected_.push_back({text, static_cast<Expected::Voice>(voice)});  // more than once, perhaps: keep() makes it one
  }
  void unclosed(std::uint32_t byte, std::uint32_t opening) {
    if (quiet == 0 && byte == far_) opening_ = opening;
  }
  std::size_t expected_at(std::uint32_t byte) const { return byte == far_ ? expected_.size() : 0; }
  void replace_expected(std::uint32_t byte, std::size_t known, std::string_view phrase) {
    if (quiet > 0 || byte != far_) return;
    const bool deep = std::any_of(expected_.begin(), expected_.end(),
                                  [](const Expected& e) { return e.voice == Expected::Voice::too_deep; });
    if (deep) return;
    for (std::size_t i = known; i < expected_.size(); ++i) {
      const bool word = expected_[i].voice == Expected::Voice::word || expected_[i].voice == Expected::Voice::weak_word;
      if (word) expected_[i].voice = Expected::Voice::hint;  // not shown, but perhaps the one that was meant
    }
    expected_.erase(std::remove_if(expected_.begin() + static_cast<std::ptrdiff_t>(std::min(known, expected_.size())),
                                   expected_.end(), [](const Expected& e) { return e.voice != Expected::Voice::hint; }),
                    expected_.end());
    failed(byte, phrase, grammar::Voice::phrase);
  }
  void forget(std::uint32_t byte) {
    far_ = byte;
    good_end_ = end_before(byte);
    opening_ = Tree::none;
    expected_.clear();
  }

  // Notes: the farthest failure, kept for the finding.
  void note(std::uint32_t here) { leaf(Kind::noted, here, here, keep()); }
  template <class Rule>
  void bad_value(std::uint32_t begin) {
    const std::uint32_t end = end_before(tree_.source.size());
    if (far_ < begin || far_ > end) {
      forget(begin);
      expected_ = {{"a value", Expected::Voice::phrase}};
    }
    leaf(NodeOf<Rule>::kind, begin, end, keep());
  }
  std::uint32_t mistake() const { return tree_.notes.empty() ? 0 : tree_.notes.back().good_end; }

  // Tokens and nodes.
  void token(std::uint32_t begin, std::uint32_t end, std::uint32_t after, grammar::TokenClass how) {
    ++tree_.attempts;
    drop_tokens(begin);
    if (end > begin) {
      tree_.tokens.push_back({begin, end, after, static_cast<TokenClass>(how)});
    } else if (!tree_.tokens.empty()) {
      tree_.tokens.back().after = after;  // nothing but the blanks behind a text that is not closed
    }
  }
  template <class Rule>
  void leaf(std::uint32_t begin) {
    leaf(NodeOf<Rule>::kind, begin, std::max(begin, end_before(tree_.source.size())), Tree::none);
  }
  std::size_t mark() const { return tree_.nodes.size(); }
  // Most rules fail before they made a node: only a look then, as this is called for every one of them.
  void rewind(std::size_t mark) {
    if (tree_.nodes.size() != mark) tree_.nodes.resize(mark);
  }
  void close(Kind kind, bool folded, std::uint32_t begin, std::uint32_t here, std::size_t mark) {
    const std::size_t inside = tree_.nodes.size() - mark;
    if (folded && inside > 0 && tree_.nodes.back().size == inside) return;
    drop_tokens(here);
    const std::uint32_t end = std::max(begin, end_before(here));
    tree_.nodes.push_back({kind, begin, end, static_cast<std::uint32_t>(inside + 1), Tree::none});
  }

 private:
  // Tokens from `byte` on were read on a way that was given up.
  void drop_tokens(std::uint32_t byte) {
    while (!tree_.tokens.empty() && tree_.tokens.back().begin >= byte) tree_.tokens.pop_back();
  }
  // Where the last token before `byte` ends; a line's end belongs to no node.
  std::uint32_t end_before(std::size_t byte) const {
    std::size_t at = tree_.tokens.size();
    while (at > 0 && (tree_.tokens[at - 1].begin >= byte || tree_.tokens[at - 1].token_class == TokenClass::line_end))
      --at;
    return at == 0 ? 0 : tree_.tokens[at - 1].end;
  }
  void leaf(Kind kind, std::uint32_t begin, std::uint32_t end, std::uint32_t note) {
    tree_.nodes.push_back({kind, begin, end, 1, note});
  }
  std::uint32_t keep() {
    ErrorNote made{far_, good_end_, opening_, {}};
    for (const Expected& e : expected_) {
      const bool known = std::any_of(made.expected.begin(), made.expected.end(),
                                     [&e](const Expected& k) { return k.text == e.text && k.voice == e.voice; });
      if (!known) made.expected.push_back(e);
    }
    tree_.notes.push_back(std::move(made));
    return static_cast<std::uint32_t>(tree_.notes.size() - 1);
  }

  Tree& tree_;
  std::uint32_t far_ = 0;
  std::uint32_t good_end_ = 0;
  std::uint32_t opening_ = Tree::none;
  std::vector<Expected> expected_;
};

// ------------------------------------------------------------------------------------------------------- the control

template <class Rule>
struct Control : pegtl::normal<Rule> {
  static constexpr bool enable = false;

  template <pegtl::apply_mode A, pegtl::rewind_mode M, template <class...> class Action,
            template <class...> class Control_, class Input>
  static bool match(Input& in, Builder& builder) {
    if constexpr (NodeOf<Rule>::made) {
      const std::size_t mark = builder.mark();
      const auto begin = static_cast<std::uint32_t>(in.byte());
      if (!pegtl::match<Rule, A, M, Action, Control_>(in, builder)) {
        builder.rewind(mark);
        return false;
      }
      builder.close(NodeOf<Rule>::kind, NodeOf<Rule>::folded, begin, static_cast<std::uint32_t>(in.byte()), mark);
      return true;
    } else {
      const std::size_t mark = builder.mark();
      const bool found = pegtl::match<Rule, A, M, Action, Control_>(in, builder);
      if (!found) builder.rewind(mark);
      return found;
    }
  }
};

}  // namespace

Tree parse_tree(std::string_view source) {
  Tree tree;
  tree.source = source;
  Builder builder(tree);
  pegtl::memory_input<pegtl::tracking_mode::lazy, pegtl::eol::lf_crlf, const char*> in(
      source.data(), source.data() + source.size(), "");
  pegtl::parse<grammar::file, pegtl::nothing, Control>(in, builder);
  return tree;
}

File parse(const text::Source& source, findings::Findings& findings) {
  if (report_unreadable(source, findings)) return {};
  const Tree tree = parse_tree(source.text());
  report_mistakes(tree, source, findings);
  return build_ast(tree, source.id());
}

static_assert(grammar::nesting_limit == text::limits::block_depth && grammar::nesting_limit == text::limits::expression_depth,
              "the grammar and the table of limits agree");

bool is_reserved(std::string_view word) {
  const auto among = [&](const auto& words) { return std::find(words.begin(), words.end(), word) != words.end(); };
  return among(grammar::reserved_words) || among(grammar::unit_words);
}

}  // namespace stk::syntax
