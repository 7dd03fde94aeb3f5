// The words that begin a line, by the place where they may, and the words that cannot be names. Plain lists: the
// grammar, the findings (which word was meant?), completion and highlighting take them from here.
#pragma once

#include <array>
#include <string_view>

namespace stk::grammar {

using namespace std::string_view_literals;

inline constexpr std::array reserved_words = {
    "if"sv, "then"sv, "else"sv, "or"sv,   "and"sv,  "not"sv, "is"sv,  "rounded"sv, "mod"sv,    "as"sv,   "of"sv,
    "to"sv, "from"sv, "on"sv,   "over"sv, "with"sv, "by"sv,  "for"sv, "at"sv,      "except"sv, "each"sv, "times"sv};

inline constexpr std::array unit_words = {"mm"sv,     "cm"sv,      "m"sv,    "in"sv,    "st"sv,
                                          "sts"sv,    "row"sv,     "rows"sv, "round"sv, "rounds"sv,
                                          "needle"sv, "needles"sv, "g"sv,    "kg"sv,    "tex"sv,
                                          "ft"sv,     "yd"sv,      "oz"sv,   "lb"sv};

inline constexpr std::array part_words = {"pattern"sv, "library"sv,   "use"sv,   "sizes"sv,  "measures"sv, "edition"sv,
                                          "machine"sv, "setting"sv,   "ease"sv,  "floats"sv, "finished"sv, "let"sv,
                                          "chart"sv,   "technique"sv, "piece"sv, "finish"sv};

inline constexpr std::array edition_words = {"machine"sv, "yarn"sv, "gauge"sv};

inline constexpr std::array contract_words = {"needs"sv, "leaves"sv, "says"sv};

inline constexpr std::array step_words = {
    "let"sv,     "section"sv,  "only"sv,   "if"sv,       "repeat"sv,   "say"sv,  "note"sv,  "caution"sv,
    "expect"sv,  "work"sv,     "cast"sv,   "knit"sv,     "thread"sv,   "cut"sv,  "rest"sv,  "tension"sv,
    "counter"sv, "hang"sv,     "remove"sv, "hold"sv,     "release"sv,  "wrap"sv, "bring"sv, "put"sv,
    "set"sv,     "move"sv,     "lift"sv,   "increase"sv, "decrease"sv, "fill"sv, "cross"sv, "tuck"sv,
    "slip"sv,    "pick"sv,     "open"sv,   "latch"sv,    "scrap"sv,    "take"sv, "bind"sv,  "gather"sv,
    "pitch"sv,   "carriage"sv, "graft"sv,  "seam"sv,     "close"sv,    "weave"sv,
    "mark"sv};

}  // namespace stk::grammar
