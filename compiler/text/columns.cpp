#include "compiler/text/columns.hpp"

#include <utf8proc.h>

#include <algorithm>

namespace stk::text {
namespace {

constexpr std::string_view replacement = "\xEF\xBF\xBD";  // U+FFFD
constexpr std::string_view four_blanks = "    ";

struct CodePoint {
  utf8proc_int32_t value = 0;
  std::size_t bytes = 1;
  bool bad = false;
};

CodePoint code_point(std::string_view utf8, std::size_t at) {
  utf8proc_int32_t value = 0;
  const auto* const start = reinterpret_cast<const utf8proc_uint8_t*>(utf8.data()) + at;
  const utf8proc_ssize_t used = utf8proc_iterate(start, static_cast<utf8proc_ssize_t>(utf8.size() - at), &value);
  if (used <= 0) return {0xFFFD, 1, true};
  return {value, static_cast<std::size_t>(used), false};
}

bool unprintable(CodePoint c) {
  const auto v = c.value;
  const bool control = v < 0x20 || (v >= 0x7F && v < 0xA0) || v == 0x2028 || v == 0x2029;
  const bool turns =
      (v >= 0x202A && v <= 0x202E) || (v >= 0x2066 && v <= 0x2069) || v == 0x200E || v == 0x200F || v == 0x061C;
  return c.bad || control || turns;
}

bool is_regional_indicator(utf8proc_int32_t c) {
  return c >= 0x1F1E6 && c <= 0x1F1FF;
}

}  // namespace

std::vector<Cluster> clusters(std::string_view utf8) {
  std::vector<Cluster> result;
  std::size_t column = 0;
  utf8proc_int32_t before = 0, state = 0;
  for (std::size_t i = 0; i < utf8.size();) {
    const CodePoint c = code_point(utf8, i);
    // A control character is always a cluster of its own (rules GB4 and GB5 of UAX #29).
    const bool breaks = i == 0 || utf8proc_grapheme_break_stateful(before, c.value, &state);
    const auto width = static_cast<std::size_t>(std::max(0, utf8proc_charwidth(c.value)));
    if (!breaks) {
      // A cluster is as wide as its widest part; two regional indicators make one flag of two cells.
      Cluster& open = result.back();
      const std::size_t wider = is_regional_indicator(c.value) ? 2 : std::max(open.width, width);
      column += wider - open.width;
      open.width = wider;
      open.end = i + c.bytes;
      open.shown = utf8.substr(open.begin, open.end - open.begin);
    } else if (c.value == '\t') {
      const std::size_t blanks = 4 - column % 4;
      result.push_back({i, i + 1, column, blanks, four_blanks.substr(0, blanks)});
      column += blanks;
    } else if (unprintable(c)) {
      result.push_back({i, i + c.bytes, column, 1, replacement});
      column += 1;
    } else {
      result.push_back({i, i + c.bytes, column, width, utf8.substr(i, c.bytes)});
      column += width;
    }
    before = c.value;
    i += c.bytes;
  }
  return result;
}

std::size_t display_width(std::string_view utf8) {
  const std::vector<Cluster> all = clusters(utf8);
  return all.empty() ? 0 : all.back().column + all.back().width;
}

std::string printable(std::string_view utf8) {
  std::string result;
  for (const Cluster& cluster : clusters(utf8)) result += cluster.shown;
  return result;
}

std::vector<std::string> wrapped(std::string_view utf8, std::size_t width, std::string_view first,
                                 std::string_view rest) {
  std::vector<std::string> lines;
  std::string line(first);
  std::size_t used = display_width(first);
  bool empty = true;  // nothing but the indentation stands in the line
  const auto next_line = [&] {
    while (!line.empty() && line.back() == ' ') line.pop_back();
    lines.push_back(std::move(line));
    line = rest;
    used = display_width(rest);
    empty = true;
  };
  for (std::size_t i = 0; i < utf8.size();) {
    if (utf8[i] == '\n') {
      next_line();
      ++i;
    } else if (utf8[i] == ' ') {
      ++i;
    } else {
      const std::size_t end = std::min(utf8.find_first_of(" \n", i), utf8.size());
      const std::string word = printable(utf8.substr(i, end - i));
      const std::size_t word_width = display_width(word);
      if (!empty && used + 1 + word_width > width) next_line();
      if (!empty) {
        line += ' ';
        ++used;
      }
      line += word;
      used += word_width;
      empty = false;
      i = end;
    }
  }
  next_line();
  return lines;
}

}  // namespace stk::text
