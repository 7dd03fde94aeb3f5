#include "compiler/document/words.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <bitset>
#include <cctype>
#include <set>

namespace stk::document {

namespace {

char upper(char c) {
  return static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
}

bool ends_with_word(std::string_view text, std::string_view word) {
  if (text.size() < word.size() || text.substr(text.size() - word.size()) != word) return false;
  return text.size() == word.size() || text[text.size() - word.size() - 1] == ' ';
}

std::vector<std::string_view> split(std::string_view text, char at) {
  std::vector<std::string_view> parts;
  while (true) {
    const std::size_t end = text.find(at);
    parts.push_back(text.substr(0, end));
    if (end == std::string_view::npos) return parts;
    text.remove_prefix(end + 1);
  }
}

}  // namespace

std::string needle_name(std::int32_t number) {
  if (number == 0) return {};
  return number < 0 ? fmt::format("L{}", -static_cast<std::int64_t>(number)) : fmt::format("R{}", number);
}

std::string span_name(const knit::NeedleSpan& span) {
  if (span.first == span.last) return needle_name(span.first.number);
  return needle_name(span.first.number) + "–" + needle_name(span.last.number);
}

std::string side_word(knit::Side side) {
  return side == knit::Side::left ? "left" : "right";
}
std::string bed_word(knit::Bed bed) {
  return bed == knit::Bed::main ? "main" : "second";
}
std::string carriage_word(knit::Side side) {
  return side == knit::Side::left ? "COL" : "COR";
}
knit::Side other(knit::Side side) {
  return side == knit::Side::left ? knit::Side::right : knit::Side::left;
}

std::string counter_digits(std::int64_t rows) {
  return fmt::format("{:03}", rows);
}

std::string tension_word(std::int32_t hundredths) {
  if (hundredths == 0) return "MT";
  const std::int32_t size = hundredths < 0 ? -hundredths : hundredths;
  std::string text = fmt::format("MT{}{}", hundredths < 0 ? "−" : "+", size / 100);
  if (size % 100 != 0) text += size % 10 == 0 ? fmt::format(".{}", size % 100 / 10) : fmt::format(".{:02}", size % 100);
  return text;
}

std::string ordinal(std::int64_t n) {
  static constexpr std::array<std::string_view, 6> words{"", "first", "second", "third", "fourth", "fifth"};
  if (n > 0 && n < static_cast<std::int64_t>(words.size())) return std::string(words[static_cast<std::size_t>(n)]);
  const std::int64_t ten = n % 100;
  const bool teen = ten >= 11 && ten <= 13;
  const char* ending = teen ? "th" : n % 10 == 1 ? "st" : n % 10 == 2 ? "nd" : n % 10 == 3 ? "rd" : "th";
  return fmt::format("{}{}", n, ending);
}

bool along_rows(const std::string& edge) {
  const std::string last = edge.substr(edge.rfind('.') + 1);   // npos + 1: the whole of it
  return last == "left" || last == "right";
}

std::string joined(const std::vector<std::string>& words) {
  std::string text;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (i > 0) text += i + 1 == words.size() ? " and " : ", ";
    text += words[i];
  }
  return text;
}

std::string capitalised(std::string text) {
  if (!text.empty()) text[0] = upper(text[0]);
  return text;
}

std::string words_of(std::string_view name) {
  std::string text(name);
  std::replace(text.begin(), text.end(), '_', ' ');
  return text;
}

std::string kept_together(std::string_view text) {
  std::string kept;
  for (const char c : text) c == ' ' ? kept.append(no_break) : kept.append(1, c);
  return kept;
}

std::string size_list(knit::SizeSet scope, const std::vector<knit::SizeName>& sizes) {
  std::vector<std::string> names;
  for (std::size_t i = 0; i < sizes.size(); ++i) {
    if (knit::has(scope, i))
      names.push_back(kept_together(sizes[i].printed.empty() ? sizes[i].name : sizes[i].printed));
  }
  return joined(names);
}

std::string only_for(knit::SizeSet scope, knit::SizeSet printed, const std::vector<knit::SizeName>& sizes) {
  const knit::SizeSet others = printed & ~scope;
  if (others == 0) return "All sizes";
  const auto count = [](knit::SizeSet set) { return std::bitset<64>(set).count(); };
  if (count(others) < count(scope)) return "All sizes but " + size_list(others, sizes);
  return fmt::format("{} {} only", count(scope) == 1 ? "Size" : "Sizes", size_list(scope, sizes));
}

std::map<std::string, YarnWord> yarn_words(const std::vector<knit::YarnFacts>& yarns) {
  std::map<std::string, YarnWord> words;
  std::set<std::string> taken{"MT", "HP", "WP", "RC", "MY", "WY", "CC"};  // a yarn "might" is not called MY too
  for (const knit::YarnFacts& yarn : yarns) {
    if (yarn.name == "main") words[yarn.name] = {"MY", "main yarn"};
    if (yarn.name == "waste") words[yarn.name] = {"WY", "waste yarn"};
    if (yarn.name == "contrast") words[yarn.name] = {"CC", "contrast colour"};
  }
  for (const knit::YarnFacts& yarn : yarns) {
    if (words.count(yarn.name) != 0) continue;
    const std::string name = words_of(yarn.name);
    std::vector<std::string> codes;
    if (const std::size_t blank = name.find(' '); blank != std::string::npos && blank + 1 < name.size()) {
      codes.push_back({upper(name[0]), upper(name[blank + 1])});
    }
    if (!name.empty()) codes.push_back({upper(name[0]), 'Y'});
    for (std::size_t i = 1; i < name.size(); ++i) codes.push_back({upper(name[0]), upper(name[i])});
    const auto free = std::find_if(codes.begin(), codes.end(), [&](const std::string& code) {
      return code.find(' ') == std::string::npos && taken.count(code) == 0;
    });
    const std::string code = free != codes.end() ? *free : "the " + name + " yarn";
    taken.insert(code);
    words[yarn.name] = {code, name + (ends_with_word(name, "yarn") ? "" : " yarn")};
  }
  return words;
}

namespace {

std::string lower(std::string_view text) {
  std::string result(text);
  for (char& c : result) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  return result;
}

// "the cuff", or `the section “Rib”`.
std::string section_words(std::string_view name, const Headings& headings) {
  const std::string words = words_of(name);
  const auto heading = headings.sections.find(std::string(name));
  if (heading == headings.sections.end()) return "the " + words;
  const std::string text = " " + lower(heading->second);
  if (text.find(" " + lower(words)) != std::string::npos) return "the " + words;
  return fmt::format("the section “{}”", heading->second);
}

// A part of an edge's name: the piece, which may be called like one of its sections, comes first.
template <class Parts, class At>
std::string called(const Parts& parts, At part, const Headings& headings) {
  const bool piece = part + 1 == parts.rend() && *part == headings.piece;
  return piece ? "the " + words_of(*part) : section_words(*part, headings);
}

}  // namespace

std::string part_words(std::string_view part, std::string_view piece, const Headings& headings) {
  std::vector<std::string_view> parts = split(part, '.');
  if (parts.size() > 1 && parts.front() == piece) parts.erase(parts.begin());
  std::string text;
  for (auto word = parts.rbegin(); word != parts.rend(); ++word)
    text += (text.empty() ? "" : " of ") + called(parts, word, headings);
  return text;
}

std::string edge_words(std::string_view edge, std::string_view piece, const Headings& headings) {
  if (edge.find(' ') != std::string_view::npos) {  // printed words already
    return edge.substr(0, 4) == "the " ? std::string(edge) : "the " + std::string(edge);
  }
  std::vector<std::string_view> parts = split(edge, '.');
  const std::string last = words_of(parts.back());
  parts.pop_back();
  if (!piece.empty() && !parts.empty() && parts.front() == piece) parts.erase(parts.begin());
  std::string text = "the ";
  if (last == "left" || last == "right" || last == "upper" || last == "lower") {
    text += last + " edge";
  } else if (last == "cast on") {
    text += "cast-on edge";
  } else {
    text += last;
    static constexpr std::array<std::string_view, 7> nouns{"edge", "end", "sts", "top", "loops", "eyelets", "tip"};
    if (std::none_of(nouns.begin(), nouns.end(), [&](std::string_view n) { return ends_with_word(last, n); })) {
      text += " edge";
    }
  }
  for (auto part = parts.rbegin(); part != parts.rend(); ++part) text += " of " + called(parts, part, headings);
  return text;
}

std::string joined_edges(std::vector<std::string> edges) {
  static constexpr std::string_view of = " edge of ";
  const std::size_t at = edges.empty() ? std::string::npos : edges.front().find(of);
  if (edges.size() < 2 || at == std::string::npos) return joined(edges);
  const std::string shared = edges.front().substr(0, at + of.size());
  std::vector<std::string> places;
  for (const std::string& edge : edges) {
    if (edge.compare(0, shared.size(), shared) != 0) return joined(edges);
    places.push_back(edge.substr(shared.size()));
  }
  return fmt::format("{} edges of {}", edges.front().substr(0, at), joined_parts(std::move(places)));
}

std::string joined_parts(std::vector<std::string> parts) {
  const std::size_t at = parts.size() < 2 ? std::string::npos : parts.back().find(" of the ");
  if (at == std::string::npos) return joined(parts);
  const std::string shared = parts.back().substr(at);
  for (std::size_t i = 0; i + 1 < parts.size(); ++i) {
    const std::string& part = parts[i];
    if (part.size() <= shared.size() || part.compare(part.size() - shared.size(), shared.size(), shared) != 0) return joined(parts);
  }
  for (std::size_t i = 0; i + 1 < parts.size(); ++i) parts[i].resize(parts[i].size() - shared.size());
  return joined(parts);
}

}  // namespace stk::document
