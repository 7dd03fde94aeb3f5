// The building blocks of the grammar, over PEGTL: tokens that eat what follows them, quiet look-ahead, groups that
// speak with one voice, and guards for brackets and depth.
//
// No rule here throws or keeps anything by itself. All is told to the state that the parser passes through, which has
//   failed(byte, text, kind)       a token was not found there: part of the farthest failure (see group)
//   token(begin, end, after, how)  a token was found; `after` is where its trailing blanks and comments end
//   mark(), rewind(mark)           the size of the tree so far, and back to it
//   brackets, depth, quiet, in_text   counters that the guards below raise and lower again
// A token is matched by plain code in one go, so that no failure is ever noted in the middle of a word.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string_view>
#include <tao/pegtl/apply_mode.hpp>
#include <tao/pegtl/ascii.hpp>
#include <tao/pegtl/rewind_mode.hpp>
#include <tao/pegtl/rules.hpp>

namespace stk::grammar {

namespace pegtl = tao::pegtl;
using pegtl::at;
using pegtl::not_at;
using pegtl::opt;
using pegtl::plus;
using pegtl::seq;
using pegtl::sor;
using pegtl::star;

// A text as a template argument: word<"knit">.
template <std::size_t N>
struct Fixed {
  char text[N]{};
  consteval Fixed(const char (&from)[N]) {
    for (std::size_t i = 0; i < N; ++i) text[i] = from[i];
  }
  constexpr std::string_view view() const { return {text, N - 1}; }
};

// What a missing token is called. Words and signs are shown in ticks; weak ones could always follow and are only used
// for suggestions; hints are what a group stands for; silent ones are never mentioned.
enum class Voice : std::uint8_t { phrase, word, weak_word, weak_phrase, too_deep, hint, silent };

// What lies behind a token: blanks and comments; line ends too where the line goes on (after a comma, an operator,
// inside brackets), unless the next line begins a statement; all line ends; nothing.
enum class After : std::uint8_t { blanks, joined, lines, nothing };

enum class TokenClass : std::uint8_t {
#define STK_NODE(rule)
#define STK_FOLDED(rule)
#define STK_LEAF(rule)
#define STK_TOKEN_CLASS(name) name,
#include "grammar/kinds.def"
#undef STK_NODE
#undef STK_FOLDED
#undef STK_LEAF
#undef STK_TOKEN_CLASS
};

inline constexpr std::uint32_t nesting_limit = 256;  // of blocks, and of expressions

// Blanks (a no-break blank and a byte order mark among them), comments, and line ends where they mean nothing.
const char* skip_joined(const char* at, const char* end);  // tokens.hpp

inline const char* skip_blanks(const char* at, const char* end, bool lines) {
  while (at < end) {
    const auto byte = static_cast<unsigned char>(*at);
    if (byte == ' ' || byte == '\t' || byte == '\r' || byte == '\f' || (lines && byte == '\n')) {
      ++at;
    } else if (byte == '#') {
      while (at < end && *at != '\n') ++at;
    } else if (byte == 0xC2 && end - at >= 2 && static_cast<unsigned char>(at[1]) == 0xA0) {
      at += 2;
    } else if (byte == 0xEF && end - at >= 3 && at[1] == '\xBB' && at[2] == '\xBF') {
      at += 3;
    } else {
      break;
    }
  }
  return at;
}

// Takes the text from the input's place to `to` as one token and what follows it as trivia.
template <class Input, class State>
void take(Input& in, State& st, const char* to, After after, TokenClass how) {
  const auto begin = static_cast<std::uint32_t>(in.byte());
  const char* from = in.current();
  const char* behind = to;
  if (after == After::joined || (after == After::blanks && st.brackets > 0)) {
    behind = skip_joined(to, in.end());
  } else if (after != After::nothing) {
    behind = skip_blanks(to, in.end(), after == After::lines);
  }
  st.token(begin, begin + static_cast<std::uint32_t>(to - from), begin + static_cast<std::uint32_t>(behind - from),
           how);
  in.bump(static_cast<std::size_t>(behind - from));
}

// Scanner::scan(begin, end) gives the end of the match, or null. It sees the bytes before `begin` too.
template <class Scanner, Fixed Phrase, TokenClass How, Voice V = Voice::phrase, After Then = After::blanks>
struct token {
  using rule_t = typename pegtl::any::rule_t;
  using subs_t = pegtl::type_list<>;

  template <pegtl::apply_mode, pegtl::rewind_mode, template <class...> class, template <class...> class, class Input,
            class State>
  static bool match(Input& in, State& st) {
    const char* to = Scanner::scan(in.current(), in.end());
    if (to == nullptr) {
      st.failed(static_cast<std::uint32_t>(in.byte()), Phrase.view(), V);
      return false;
    }
    take(in, st, to, Then, How);
    return true;
  }
};

// Looks ahead without a word: nothing inside is noted as expected, and nothing it built stays.
template <class Rule>
struct quiet {
  using rule_t = typename seq<Rule>::rule_t;
  using subs_t = pegtl::type_list<Rule>;

  template <pegtl::apply_mode A, pegtl::rewind_mode M, template <class...> class Action,
            template <class...> class Control, class Input, class State>
  static bool match(Input& in, State& st) {
    const auto mark = st.mark();
    ++st.quiet;
    const bool found = Control<Rule>::template match<A, M, Action, Control>(in, st);
    --st.quiet;
    st.rewind(mark);
    return found;
  }
};
template <class... Rules>
struct ahead : at<quiet<seq<Rules...>>> {};
template <class... Rules>
struct not_ahead : not_at<quiet<seq<Rules...>>> {};

// `an amount`: where the rule fails without having got beyond its first token, the phrase stands for all that could
// have begun it; where it got further, what was missing there is said.
template <Fixed Phrase, class Rule>
struct group {
  using rule_t = typename seq<Rule>::rule_t;
  using subs_t = pegtl::type_list<Rule>;

  template <pegtl::apply_mode A, pegtl::rewind_mode M, template <class...> class Action,
            template <class...> class Control, class Input, class State>
  static bool match(Input& in, State& st) {
    const auto here = static_cast<std::uint32_t>(in.byte());
    const std::size_t known = st.expected_at(here);
    const bool found = Control<Rule>::template match<A, M, Action, Control>(in, st);
    if (!found) st.replace_expected(here, known, Phrase.view());
    return found;
  }
};

// Open, inside, close, with line ends meaning nothing between. A missing close remembers its opening.
template <class Open, class Inside, class Close>
struct bracketed {
  using rule_t = typename seq<Open, Inside, Close>::rule_t;
  using subs_t = pegtl::type_list<Open, Inside, Close>;

  template <pegtl::apply_mode A, pegtl::rewind_mode M, template <class...> class Action,
            template <class...> class Control, class Input, class State>
  static bool match(Input& in, State& st) {
    auto marker = in.template mark<pegtl::rewind_mode::required>();
    const auto opening = static_cast<std::uint32_t>(in.byte());
    ++st.brackets;
    bool found = Control<Open>::template match<A, pegtl::rewind_mode::active, Action, Control>(in, st) &&
                 Control<Inside>::template match<A, pegtl::rewind_mode::active, Action, Control>(in, st);
    --st.brackets;
    if (found) {
      found = Control<Close>::template match<A, pegtl::rewind_mode::active, Action, Control>(in, st);
      if (!found) st.unclosed(static_cast<std::uint32_t>(in.byte()), opening);
    }
    return marker(found);
  }
};

// One level deeper in an expression. Beyond the limit it is a plain failure of a kind of its own.
template <class Rule>
struct nested {
  using rule_t = typename seq<Rule>::rule_t;
  using subs_t = pegtl::type_list<Rule>;

  template <pegtl::apply_mode A, pegtl::rewind_mode M, template <class...> class Action,
            template <class...> class Control, class Input, class State>
  static bool match(Input& in, State& st) {
    if (st.depth >= nesting_limit) {
      st.failed(static_cast<std::uint32_t>(in.byte()), "", Voice::too_deep);
      return false;
    }
    ++st.depth;
    const bool found = Control<Rule>::template match<A, M, Action, Control>(in, st);
    --st.depth;
    return found;
  }
};

// a + b + c: every further operand makes the tree one level deeper, and counts so.
template <class Tail>
struct climbing {
  using rule_t = typename star<Tail>::rule_t;
  using subs_t = pegtl::type_list<Tail>;

  template <pegtl::apply_mode A, pegtl::rewind_mode, template <class...> class Action,
            template <class...> class Control, class Input, class State>
  static bool match(Input& in, State& st) {
    const std::uint32_t before = st.depth;
    while (Control<nested<Tail>>::template match<A, pegtl::rewind_mode::required, Action, Control>(in, st)) ++st.depth;
    st.depth = before;
    return true;
  }
};

// Blanks, comments and empty lines before the first token of all.
struct leading {
  using rule_t = typename pegtl::success::rule_t;
  using subs_t = pegtl::type_list<>;

  template <pegtl::apply_mode, pegtl::rewind_mode, template <class...> class, template <class...> class, class Input,
            class State>
  static bool match(Input& in, State&) {
    in.bump(static_cast<std::size_t>(skip_blanks(in.current(), in.end(), true) - in.current()));
    return true;
  }
};

// An item begins: what failed before it no longer matters. The marker is out of the way of PEGTL's own analysis.
struct fresh {
  using rule_t = typename pegtl::success::rule_t;
  using subs_t = pegtl::type_list<>;

  template <pegtl::apply_mode, pegtl::rewind_mode, template <class...> class, template <class...> class, class Input,
            class State>
  static bool match(Input& in, State& st) {
    st.forget(static_cast<std::uint32_t>(in.byte()));
    return true;
  }
};

// The farthest failure becomes a leaf of the tree, which a finding is made from if the leaf stays in the tree.
struct noted {
  using rule_t = typename pegtl::success::rule_t;
  using subs_t = pegtl::type_list<>;

  template <pegtl::apply_mode, pegtl::rewind_mode, template <class...> class, template <class...> class, class Input,
            class State>
  static bool match(Input& in, State& st) {
    st.note(static_cast<std::uint32_t>(in.byte()));
    return true;
  }
};

}  // namespace stk::grammar
