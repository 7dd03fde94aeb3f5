// Blocks, and how reading goes on behind a mistake: at the next statement, line or part.
//
// Errors are nodes. Behind `{` nothing may fail: what no statement could be made of becomes bad_statement, a forgotten
// `}` becomes missing_brace, and a word that can only begin a part ends every block, so that it costs one finding. A
// statement whose name was read keeps it, though what followed was broken: nobody has to say that the name is unknown.
#pragma once

#include "grammar/steps.hpp"

namespace stk::grammar {

// From the beginning of what is broken to the end of the line that the mistake is on; before that to a `{` or `}`. A
// line that goes on (an open bracket, a comma) is followed, but never into a line that begins a statement.
inline const char* broken_end(const char* at, const char* end, const char* mistake) {
  const char* const begin = at;
  int open = 0;
  char last = ' ';
  while (at < end) {
    if (*at == '#') {
      while (at < end && *at != '\n') ++at;
    } else if (const auto length = quotation_mark(at, end); length > 0 && *at != '\'') {
      const TextEnd close = text_end(at + length, end, at);
      at = close.at + close.mark;
      last = '"';
    } else if (*at == '\n') {
      const char* next = skip_blanks(at, end, true);
      const bool goes_on = (open > 0 || last == ',') && !begins_statement(next, end);
      if (at >= mistake && !goes_on) return at;
      at = next;
    } else if ((*at == '{' || *at == '}') && at > begin) {
      return at;
    } else {
      if (*at == '(' || *at == '[') ++open;
      if (*at == ')' || *at == ']') --open;
      if (*at != ' ' && *at != '\t' && *at != '\r') last = *at;
      ++at;
    }
  }
  return at;
}

// Skips what is broken; leaves a `{` at its beginning to the block that follows, and takes any other byte there.
struct skip_broken {
  using rule_t = typename pegtl::any::rule_t;
  using subs_t = pegtl::type_list<>;

  template <pegtl::apply_mode, pegtl::rewind_mode, template <class...> class, template <class...> class, class Input,
            class State>
  static bool match(Input& in, State& st) {
    if (in.current() == in.end()) return false;
    if (*in.current() == '{') return true;
    const auto here = static_cast<std::uint32_t>(in.byte());
    const std::uint32_t mistake = std::max(st.mistake(), here);
    const char* to = broken_end(in.current(), in.end(), in.current() + (mistake - here));
    take(in, st, to, After::blanks, TokenClass::other);
    return true;
  }
};

// On to the `{` of this line.
struct skip_header {
  using rule_t = typename pegtl::any::rule_t;
  using subs_t = pegtl::type_list<>;

  template <pegtl::apply_mode, pegtl::rewind_mode, template <class...> class, template <class...> class, class Input,
            class State>
  static bool match(Input& in, State& st) {
    const char* to = broken_end(in.current(), in.end(), in.current());
    if (to == in.current() || to == in.end() || *to != '{') return false;
    take(in, st, to, After::blanks, TokenClass::other);
    return true;
  }
};

// A block, 256 deep at most. Deeper ones are passed over brace by brace, and a leaf says so.
struct too_deep {};
template <class Rule>
struct deeper {
  using rule_t = typename seq<Rule>::rule_t;
  using subs_t = pegtl::type_list<Rule>;

  template <pegtl::apply_mode A, pegtl::rewind_mode M, template <class...> class Action,
            template <class...> class Control, class Input, class State>
  static bool match(Input& in, State& st) {
    if (st.blocks >= nesting_limit) return pass_over(in, st);
    ++st.blocks;
    const bool found = Control<Rule>::template match<A, M, Action, Control>(in, st);
    --st.blocks;
    return found;
  }

 private:
  template <class Input, class State>
  static bool pass_over(Input& in, State& st) {
    const char* at = in.current();
    const char* const end = in.end();
    while (at < end && *at != '{' && *at != '\n' && *at != '}') ++at;
    if (at == end || *at != '{') return false;
    std::size_t open = 0;
    do {
      if (*at == '{') ++open;
      if (*at == '}') --open;
      ++at;
    } while (at < end && open > 0);
    const auto begin = static_cast<std::uint32_t>(in.byte());
    take(in, st, at, After::blanks, TokenClass::other);
    st.template leaf<too_deep>(begin);
    return true;
  }
};

// clang-format off

// What a merge left behind: <<<<<<< ours, then ======= to the line of >>>>>>>, which is not read.
struct merge_scanner {
  static const char* line_end_of(const char* at, const char* end) {
    while (at < end && *at != '\n') ++at;
    return at;
  }
  static const char* scan(const char* at, const char* end) {
    if (end - at < 7 || (*at != '<' && *at != '=' && *at != '>' && *at != '|')) return nullptr;
    for (int i = 1; i < 7; ++i) {
      if (at[i] != *at) return nullptr;
    }
    const char* to = line_end_of(at, end);
    if (*at == '<' || *at == '>') return to;
    for (const char* next = to; next < end; next = line_end_of(next + 1, end)) {
      if (starts(next + 1, end, ">>>>>>>")) return line_end_of(next + 1, end);
      if (starts(next + 1, end, "<<<<<<<") || starts(next + 1, end, {at, 7})) break;
    }
    return to;
  }
};
struct merge_marker : token<merge_scanner, "", TokenClass::other, Voice::silent> {};
struct merge_line : seq<merge_marker, opt<line_end>> {};

// Words that can only begin a part; seen at the beginning of a statement they end the block.
struct begins_part : sor<
    seq<word<"piece">, name>, seq<word<"finish">, left_brace>, seq<word<"technique">, callee>,
    seq<word<"edition">, name, left_brace>, seq<word<"sizes">, left_brace>, seq<word<"pattern">, sign<"\"">>,
    seq<word<"library">, name, left_brace>, seq<word<"chart">, name>, seq<word<"setting">, name, equals>,
    seq<word<"measures">, name, left_brace>, seq<word<"machine">, name, left_brace>, seq<word<"ease">, name>,
    seq<word<"floats">, word<"at">>, seq<word<"finished">, name, equals>, seq<word<"use">, sor<name, sign<"\"">>>> {};
struct lines {};   // the node that every lines_of makes
struct block_stop : sor<sign<"}">, file_end, begins_part> {};

struct missing_brace : seq<noted> {};
struct block_close : sor<right_brace, missing_brace> {};
struct missing_open : seq<ahead<line_end>, noted, line_end> {};
struct bad_statement : seq<noted, skip_broken, opt<struct block>, opt<line_end>> {};
struct bad_header : seq<noted, skip_header> {};
struct rest_of_line : seq<noted, skip_broken, opt<line_end>> {};

template <class Open, class Line, class Bad>
struct lines_of : seq<Open, star<seq<not_ahead<block_stop>, fresh, sor<merge_line, Line, Bad>>>, block_close> {};

struct block : deeper<lines_of<left_brace, a_statement, bad_statement>> {};
struct late_block : deeper<lines_of<missing_open, a_statement, bad_statement>> {};      // its `{` was forgotten
struct with_block : sor<block, late_block, seq<bad_header, block>> {};

// clang-format on

}  // namespace stk::grammar
