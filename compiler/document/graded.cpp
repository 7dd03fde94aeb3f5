#include "compiler/document/graded.hpp"

#include "compiler/document/words.hpp"

namespace stk::document {

namespace {

constexpr std::string_view none = "-";

std::string_view value_of(const PerSize& values, std::size_t size, knit::SizeSet scope) {
  if (!knit::has(scope, size) || size >= values.size() || !values[size]) return none;
  return *values[size];
}

std::vector<std::string> words_in(const std::string& text) {
  std::vector<std::string> words(1);
  for (const char c : text) c == ' ' ? (void)words.emplace_back() : (void)words.back().push_back(c);
  return words;
}

// A word without the comma, colon or bracket that stands after it: the mark stays outside the graded run.
std::size_t bare_length(const std::string& word) {
  std::size_t end = word.size();
  while (end > 0 && std::string_view(",.;:)").find(word[end - 1]) != std::string_view::npos) --end;
  return end;
}

}  // namespace

bool agree(const PerSize& values, knit::SizeSet scope) {
  const std::optional<std::string>* first = nullptr;
  for (std::size_t i = 0; i < values.size(); ++i) {
    if (!knit::has(scope, i)) continue;
    if (!values[i]) return false;
    if (first != nullptr && *first != values[i]) return false;
    first = &values[i];
  }
  return first != nullptr;
}

std::string graded(const PerSize& values, knit::SizeSet printed, knit::SizeSet scope) {
  scope &= printed;
  const bool one = agree(values, scope);
  std::string text, rest;
  bool first = true;
  for (std::size_t i = 0; i < values.size(); ++i) {
    if (!knit::has(printed, i)) continue;
    if (one && knit::has(scope, i)) return std::string(*values[i]);
    if (first) {
      text = value_of(values, i, scope);
      first = false;
    } else {
      rest += rest.empty() ? "" : ", ";
      rest += value_of(values, i, scope);
    }
  }
  if (rest.empty()) return text;
  return text.append(no_break).append("(").append(rest).append(")");
}

std::string counted(const PerSize& numbers, std::string_view noun, knit::SizeSet printed, knit::SizeSet scope) {
  const std::string number = graded(numbers, printed, scope);
  std::string text = number;
  text.append(no_break).append(noun);
  if (number != "1") text += 's';
  return text;
}

std::optional<std::string> merged(const std::vector<std::string>& per_size, knit::SizeSet printed,
                                  knit::SizeSet scope) {
  if (per_size.empty()) return std::string();
  if (per_size.size() == 1) return per_size[0];
  std::vector<std::vector<std::string>> words(per_size.size());
  std::optional<std::size_t> model;
  for (std::size_t i = 0; i < per_size.size(); ++i) {
    if (!knit::has(scope, i)) continue;
    words[i] = words_in(per_size[i]);
    if (!model) model = i;
    if (words[i].size() != words[*model].size()) return std::nullopt;
  }
  if (!model) return std::string();
  std::string text;
  for (std::size_t w = 0; w < words[*model].size(); ++w) {
    PerSize values(per_size.size());
    std::string mark;
    for (std::size_t i = 0; i < per_size.size(); ++i) {
      if (!knit::has(scope, i)) continue;
      const std::string& word = words[i][w];
      const std::size_t bare = bare_length(word);
      values[i] = word.substr(0, bare);
      mark = word.substr(bare);
    }
    text += (w > 0 ? " " : "") + graded(values, printed, scope) + mark;
  }
  return text;
}

}  // namespace stk::document
