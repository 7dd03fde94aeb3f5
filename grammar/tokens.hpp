// Every word and sign of the language, and the phrase that a reader sees where one is missing.
//
// Words are contextual: a statement begins with its verb, so no verb is reserved. Only words that may follow an amount
// and the units cannot be names (words.hpp). Signs that look alike (× for *, – for -, “ for ") are read as what they
// are meant to be; the finding about them is made from the tree.
#pragma once

#include <array>
#include <string_view>

#include "grammar/rules.hpp"
#include "grammar/words.hpp"

namespace stk::grammar {

// Asked for every word of a source: the length and the first letter tell nearly all apart before a comparison is called.
template <class List>
constexpr bool among(const List& list, std::string_view word) {
  for (const std::string_view each : list) {
    if (each.size() == word.size() && each.front() == word.front() && each == word) return true;
  }
  return false;
}
constexpr bool reserved(std::string_view word) {
  return among(reserved_words, word);
}
constexpr bool is_unit(std::string_view word) {
  return among(unit_words, word);
}
// `row` is a unit and yet free as a name, as half, left, all and main are.
constexpr bool free_as_name(std::string_view word) {
  return word == "row" || (!reserved(word) && !is_unit(word));
}

// --------------------------------------------------------------------------------------------------------- letters

constexpr bool is_digit(char c) {
  return c >= '0' && c <= '9';
}
constexpr bool is_letter(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}
constexpr bool is_word_byte(char c) {
  return is_letter(c) || is_digit(c) || c == '_';
}
constexpr unsigned byte_at(const char* at) {
  return static_cast<unsigned char>(*at);
}

// The length of an accented letter (U+00C0 to U+024F but × and ÷), which a name may hold only with a finding; 0 if
// none.
inline std::ptrdiff_t accented(const char* at, const char* end) {
  if (end - at < 2 || byte_at(at) < 0xC3 || byte_at(at) > 0xC9) return 0;
  if (byte_at(at) == 0xC3 && (byte_at(at + 1) == 0x97 || byte_at(at + 1) == 0xB7)) return 0;
  return 2;
}
inline const char* word_end(const char* at, const char* end) {
  while (at < end) {
    if (is_word_byte(*at)) {
      ++at;
    } else if (const auto length = accented(at, end); length > 0) {
      at += length;
    } else {
      break;
    }
  }
  return at;
}
inline bool starts(const char* at, const char* end, std::string_view text) {
  // The first byte tells nearly all words apart.
  return static_cast<std::size_t>(end - at) >= text.size() && *at == text.front() &&
         std::string_view(at, text.size()) == text;
}

// A line that begins with a word of its own and goes on as a statement does: `hold right half`, but not `rest - 2`,
// which may be the rest of a sum.
inline bool begins_statement(const char* at, const char* end) {
  const char* to = word_end(at, end);
  if (to == at || !is_letter(*at)) return at == end || *at == '}';
  const std::string_view found(at, static_cast<std::size_t>(to - at));
  if (found == "if" || !(among(step_words, found) || among(part_words, found) || among(contract_words, found) ||
                         among(edition_words, found)))
    return false;
  const char* next = skip_blanks(to, end, false);
  if (next == to || next == end) return false;
  if (*next == '"' || *next == '{' || is_digit(*next)) return true;
  const char* next_to = word_end(next, end);
  if (next_to == next || !is_letter(*next)) return false;
  const std::string_view second(next, static_cast<std::size_t>(next_to - next));
  return !reserved(second) && !is_unit(second);
}

// Over line ends, where a line goes on; but a line that begins a statement ends what was left open before it.
inline const char* skip_joined(const char* at, const char* end) {
  const char* here = skip_blanks(at, end, false);
  if (here == end || *here != '\n') return here;
  const char* next = skip_blanks(here, end, true);
  return begins_statement(next, end) ? here : next;
}

// ---------------------------------------------------------------------------------------------------------- scanners

template <Fixed W>
struct word_scanner {
  static const char* scan(const char* at, const char* end) {
    constexpr std::string_view text = W.view();
    if (!starts(at, end, text)) return nullptr;
    const char* to = at + text.size();
    return to < end && (is_word_byte(*to) || accented(to, end) > 0) ? nullptr : to;
  }
};
template <Fixed... Spellings>
struct sign_scanner {
  static const char* scan(const char* at, const char* end) {
    const char* to = nullptr;
    ((to == nullptr && starts(at, end, Spellings.view()) ? to = at + Spellings.view().size() : to), ...);
    return to;
  }
};

// Whole words that may stand for a name; capitals and accents are let through and found in the tree.
struct name_scanner {
  static const char* scan(const char* at, const char* end) {
    if (at == end || !(is_letter(*at) || accented(at, end) > 0)) return nullptr;
    const char* to = word_end(at, end);
    return free_as_name({at, static_cast<std::size_t>(to - at)}) ? to : nullptr;
  }
};
// Where a name is declared a hyphen between letters is taken into it: foot-around is one mistaken name.
struct declared_scanner {
  static const char* scan(const char* at, const char* end) {
    const char* to = name_scanner::scan(at, end);
    while (to != nullptr && end - to >= 2 && *to == '-' && is_letter(to[1])) to = word_end(to + 1, end);
    return to;
  }
};
struct any_word_scanner {
  static const char* scan(const char* at, const char* end) {
    if (at == end || !(is_letter(*at) || *at == '_' || accented(at, end) > 0)) return nullptr;
    return word_end(at, end);
  }
};
struct callee_scanner {  // `(` glued to a word is a call: rows(x), or h.short_row_heel(x) of a file used as h
  static const char* scan(const char* at, const char* end) {
    const char* to = any_word_scanner::scan(at, end);
    while (to != nullptr && to < end && *to == '.') to = any_word_scanner::scan(to + 1, end);
    if (to == nullptr || to == end || *to != '(' || reserved({at, static_cast<std::size_t>(to - at)})) return nullptr;
    return to;
  }
};
struct label_scanner {  // down_to: in an argument list
  static const char* scan(const char* at, const char* end) {
    const char* to = any_word_scanner::scan(at, end);
    if (to == nullptr) return nullptr;
    const char* behind = skip_blanks(to, end, true);
    return behind < end && *behind == ':' ? to : nullptr;
  }
};
struct unit_scanner {  // all but `in`, which needs a number before it; never glued to `(`
  static const char* scan(const char* at, const char* end) {
    if (at < end && *at == '%') return at + 1;
    const char* to = any_word_scanner::scan(at, end);
    if (to == nullptr || (to < end && *to == '(')) return nullptr;
    const std::string_view word(at, static_cast<std::size_t>(to - at));
    return word != "in" && is_unit(word) ? to : nullptr;
  }
};
struct inch_scanner {  // `in` after a number, not before `work`
  static const char* scan(const char* at, const char* end) {
    const char* to = word_scanner<"in">::scan(at, end);
    if (to == nullptr || word_scanner<"work">::scan(skip_blanks(to, end, false), end) != nullptr) return nullptr;
    return to;
  }
};

// One digit, plain or full width (U+FF10 to U+FF19, a look-alike): its length in bytes, or 0.
inline std::ptrdiff_t digit(const char* at, const char* end) {
  if (at < end && is_digit(*at)) return 1;
  if (end - at >= 3 && byte_at(at) == 0xEF && byte_at(at + 1) == 0xBC && byte_at(at + 2) >= 0x90 &&
      byte_at(at + 2) <= 0x99)
    return 3;
  return 0;
}
inline const char* digits(const char* at, const char* end) {
  while (const auto length = digit(at, end)) at += length;
  return at;
}
// ¼ ½ ¾ (U+00BC to U+00BE), and ⅐ to ⅞ (U+2150 to U+215E): length in bytes, or 0.
inline std::ptrdiff_t vulgar(const char* at, const char* end) {
  if (end - at >= 2 && byte_at(at) == 0xC2 && byte_at(at + 1) >= 0xBC && byte_at(at + 1) <= 0xBE) return 2;
  if (end - at >= 3 && byte_at(at) == 0xE2 && byte_at(at + 1) == 0x85 && byte_at(at + 2) >= 0x90 &&
      byte_at(at + 2) <= 0x9E)
    return 3;
  return 0;
}
// 12, 2.5, 1/2, 1½, ½. A decimal comma is taken into it (and found in the tree) where Comma says that no list can
// stand.
template <bool Comma>
struct number_scanner {
  static const char* scan(const char* at, const char* end) {
    const char* to = digits(at, end);
    if (to == at) {
      const auto length = vulgar(at, end);
      return length > 0 ? at + length : nullptr;
    }
    if (to < end && (*to == '.' || (Comma && *to == ',') || *to == '/')) {
      if (const char* more = digits(to + 1, end); more != to + 1) return more;
    }
    return to + vulgar(to, end);
  }
};
struct yarn_count_scanner {  // 9.5/1, behind the name of a count system
  static const char* scan(const char* at, const char* end) {
    const char* to = digits(at, end);
    if (to == at) return nullptr;
    for (const char part : {'.', '/'}) {
      if (to < end && *to == part) {
        const char* more = digits(to + 1, end);
        if (more != to + 1) to = more;
      }
    }
    return to;
  }
};
struct ordinal_scanner {  // 3rd, 4th
  static const char* scan(const char* at, const char* end) {
    const char* to = digits(at, end);
    if (to == at) return nullptr;
    for (std::string_view tail : {"st"sv, "nd"sv, "rd"sv, "th"sv}) {
      if (starts(to, end, tail) && (to + 2 == end || !is_word_byte(to[2]))) return to + 2;
    }
    return nullptr;
  }
};
struct needle_scanner {  // L12, R5
  static const char* scan(const char* at, const char* end) {
    if (at == end || (*at != 'L' && *at != 'R')) return nullptr;
    const char* to = digits(at + 1, end);
    return to == at + 1 || (to < end && is_word_byte(*to)) ? nullptr : to;
  }
};
// What stands between brackets and is read as a picture: [| | .] and [..x.]
template <bool Tile>
struct picture_scanner {
  static const char* scan(const char* at, const char* end) {
    if (at == end || *at != '[') return nullptr;
    for (const char* to = at + 1; to < end && *to != '\n' && *to != '"' && *to != '{'; ++to) {
      if (*to == ']') return to + 1;
      if (Tile && *to != '|' && *to != '.' && *to != ' ' && *to != '\t') return nullptr;
    }
    return nullptr;
  }
};
struct mark_scanner {  // one sign of a chart's key, with a blank behind it
  static const char* scan(const char* at, const char* end) {
    if (end - at < 2 || *at == '[' || *at == ']' || *at == '{' || *at == '}' || *at == '"' || *at == '#')
      return nullptr;
    return *at > ' ' && (at[1] == ' ' || at[1] == '\t') ? at + 1 : nullptr;
  }
};
struct line_end_scanner {
  static const char* scan(const char* at, const char* end) { return at < end && *at == '\n' ? at + 1 : nullptr; }
};
struct end_scanner {
  static const char* scan(const char* at, const char* end) { return at == end ? at : nullptr; }
};

// ------------------------------------------------------------------------------------------------------------ tokens

template <Fixed W>
struct word : token<word_scanner<W>, W, TokenClass::word, Voice::word> {};
template <Fixed W>  // could always follow: never shown as what was expected
struct weak_word : token<word_scanner<W>, W, TokenClass::word, Voice::weak_word> {};
template <Fixed W>  // the line goes on after it
struct joining_word : token<word_scanner<W>, W, TokenClass::word, Voice::weak_word, After::joined> {};
template <Fixed S, Fixed... Spellings>
struct sign : token<sign_scanner<S, Spellings...>, S, TokenClass::sign, Voice::word> {};
template <Fixed S>
struct silent_sign : token<sign_scanner<S>, S, TokenClass::sign, Voice::silent> {};
template <Fixed S, Fixed... Spellings>
struct joining_sign : token<sign_scanner<S, Spellings...>, S, TokenClass::sign, Voice::weak_word, After::joined> {};

// The verb of a step, so that findings can point at it: verb_of<"scrap", "off">.
template <Fixed... W>
struct verb_of : seq<word<W>...> {};
struct verb {};  // the node that every verb_of makes

struct comma : token<sign_scanner<",">, "a comma", TokenClass::sign, Voice::phrase, After::joined> {};
struct equals : token<sign_scanner<"=">, "=", TokenClass::sign, Voice::word, After::joined> {};
struct colon : token<sign_scanner<":">, ":", TokenClass::sign, Voice::word, After::joined> {};
struct dot : token<sign_scanner<".">, ".", TokenClass::sign, Voice::weak_word, After::nothing> {};
struct left_bracket : token<sign_scanner<"(">, "(", TokenClass::sign, Voice::word, After::joined> {};
struct quiet_left_bracket : token<sign_scanner<"(">, "(", TokenClass::sign, Voice::weak_word, After::joined> {};
struct right_bracket : token<sign_scanner<")">, ")", TokenClass::sign, Voice::word> {};
struct left_brace : token<sign_scanner<"{">, "{", TokenClass::sign, Voice::word, After::lines> {};
struct right_brace : token<sign_scanner<"}">, "}", TokenClass::sign, Voice::word> {};

struct line_end : token<line_end_scanner, "the end of the line", TokenClass::line_end, Voice::phrase, After::lines> {};
struct file_end : token<end_scanner, "the end of the file", TokenClass::sign, Voice::silent> {};

struct name : token<name_scanner, "a name", TokenClass::name> {};
struct declared_name : token<declared_scanner, "a name", TokenClass::name> {};
struct part_name : token<any_word_scanner, "a name", TokenClass::name> {};  // after a dot
struct callee : token<callee_scanner, "a name", TokenClass::name, Voice::weak_phrase, After::nothing> {};
struct label : token<label_scanner, "a name", TokenClass::name, Voice::weak_phrase> {};
struct field_word : token<any_word_scanner, "a word", TokenClass::word> {};  // by, version, summary
struct size_name : declared_name {};
struct unit : token<unit_scanner, "a unit", TokenClass::unit, Voice::weak_phrase> {};
struct inch : token<inch_scanner, "a unit", TokenClass::unit, Voice::weak_phrase> {};

// Inside brackets a comma parts two values; outside them 2,5 can only be a decimal comma.
struct number {
  using rule_t = typename pegtl::any::rule_t;
  using subs_t = pegtl::type_list<>;

  template <pegtl::apply_mode A, pegtl::rewind_mode M, template <class...> class Action,
            template <class...> class Control, class Input, class State>
  static bool match(Input& in, State& st) {
    if (st.brackets > 0) return listed::template match<A, M, Action, Control>(in, st);
    return alone::template match<A, M, Action, Control>(in, st);
  }

 private:
  using listed = token<number_scanner<false>, "a number", TokenClass::number>;
  using alone = token<number_scanner<true>, "a number", TokenClass::number>;
};

struct yarn_count : token<yarn_count_scanner, "a yarn count such as 9.5/1", TokenClass::number, Voice::silent> {};
struct ordinal : token<ordinal_scanner, "an ordinal such as 3rd", TokenClass::number> {};
struct needle : token<needle_scanner, "a needle such as L12", TokenClass::needle> {};
struct tile : token<picture_scanner<true>, "a setting such as [| | .]", TokenClass::picture> {};
struct chart_row : token<picture_scanner<false>, "a row of the chart such as [x..x]", TokenClass::picture> {};
struct mark : token<mark_scanner, "a mark", TokenClass::picture> {};

}  // namespace stk::grammar
