// A text in quotation marks, with values in braces: "Toe, from {begin} to {begin + 2 * widen} sts".
//
// A text ends on its line. Without a closing mark it goes to the end of the line, or to a `{` that ends the line, so
// that the block behind it is still read. Typographic marks are read as what they look like, and found in the tree.
#pragma once

#include "grammar/tokens.hpp"

namespace stk::grammar {

struct expression;

struct text_literal {};  // leaf nodes that the text rule makes itself
struct text_unclosed {};

struct piece_close : token<sign_scanner<"}">, "}", TokenClass::sign, Voice::word, After::nothing> {};
struct piece_open : token<sign_scanner<"{">, "{", TokenClass::sign, Voice::silent> {};
struct text_value : seq<piece_open, group<"a value", expression>, piece_close> {};

// A value that could not be read: what was expected is noted, and the text goes on behind its brace.
struct bad_text_value : seq<noted, pegtl::any> {};

// " or ' or a typographic mark: its length, or 0.
inline std::ptrdiff_t quotation_mark(const char* at, const char* end) {
  if (at < end && (*at == '"' || *at == '\'')) return 1;
  if (end - at >= 3 && byte_at(at) == 0xE2 && byte_at(at + 1) == 0x80 && byte_at(at + 2) >= 0x98 &&
      byte_at(at + 2) <= 0x9F)
    return 3;
  if (end - at >= 2 && byte_at(at) == 0xC2 && (byte_at(at + 1) == 0xAB || byte_at(at + 1) == 0xBB)) return 2;
  return 0;
}

// Where the text that begins at `at` (behind its opening mark) ends: at its closing mark, whose length is `mark`, or,
// with mark 0, where an unclosed text is taken to end.
struct TextEnd {
  const char* at;
  std::ptrdiff_t mark;
};
inline TextEnd text_end(const char* at, const char* end, const char* opening) {
  const bool straight = *opening == '"';
  const char* odd = nullptr;  // a mark of another shape, which closes the text only if no straight one does
  const char* to = at;
  for (; to < end && *to != '\n'; ++to) {
    if (*to == '\\' && end - to >= 2 && to[1] != '\n') {
      ++to;
    } else if (*to == '"') {
      return {to, 1};
    } else if (*to == '\'' && *opening == '\'') {
      return {to, 1};
    } else if (const auto length = quotation_mark(to, end); length > 1) {
      if (!straight) return {to, length};
      odd = to;
    }
  }
  if (odd != nullptr) return {odd, quotation_mark(odd, end)};
  while (to > at && (to[-1] == ' ' || to[-1] == '\t' || to[-1] == '\r')) --to;
  if (to > at && to[-1] == '{') --to;
  while (to > at && (to[-1] == ' ' || to[-1] == '\t')) --to;
  return {to, 0};
}

struct text {
  using rule_t = typename seq<pegtl::any, star<sor<text_value, bad_text_value>>>::rule_t;
  using subs_t = pegtl::type_list<pegtl::any, star<sor<text_value, bad_text_value>>>;

  template <pegtl::apply_mode A, pegtl::rewind_mode, template <class...> class Action,
            template <class...> class Control, class Input, class State>
  static bool match(Input& in, State& st) {
    const std::ptrdiff_t opening = st.in_text ? 0 : quotation_mark(in.current(), in.end());
    if (opening == 0) {
      st.failed(static_cast<std::uint32_t>(in.byte()), "a text in quotation marks",
                st.in_text ? Voice::silent : Voice::phrase);
      return false;
    }
    const TextEnd close = text_end(in.current() + opening, in.end(), in.current());
    take(in, st, in.current() + opening, After::nothing, TokenClass::text);
    const auto brackets = st.brackets;
    st.brackets = 0;
    st.in_text = true;
    while (in.current() < close.at) {
      if (*in.current() == '{') {
        value<A, Action, Control>(in, st, close);
      } else {
        literal(in, st, close.at);
      }
    }
    st.in_text = false;
    st.brackets = brackets;
    if (close.mark == 0) {
      st.template leaf<text_unclosed>(static_cast<std::uint32_t>(in.byte()));
      take(in, st, in.current(), After::blanks, TokenClass::text);
    } else {
      take(in, st, in.current() + close.mark, After::blanks, TokenClass::text);
    }
    return true;
  }

 private:
  template <class Input, class State>
  static void literal(Input& in, State& st, const char* close) {
    const auto begin = static_cast<std::uint32_t>(in.byte());
    const char* to = in.current();
    while (to < close && *to != '{') to += *to == '\\' && close - to >= 2 ? 2 : 1;
    take(in, st, to, After::nothing, TokenClass::text);
    st.template leaf<text_literal>(begin);
  }

  template <pegtl::apply_mode A, template <class...> class Action, template <class...> class Control, class Input,
            class State>
  static void value(Input& in, State& st, TextEnd close) {
    if (Control<text_value>::template match<A, pegtl::rewind_mode::required, Action, Control>(in, st)) return;
    const char* to = in.current() + 1;
    while (to < close.at && *to != '}' && *to != '{') ++to;
    if (to < close.at && *to == '}') ++to;
    const auto begin = static_cast<std::uint32_t>(in.byte());
    take(in, st, to, After::nothing, TokenClass::other);
    if (close.mark > 0) st.template bad_value<bad_text_value>(begin);
  }
};

}  // namespace stk::grammar
