#include "compiler/fit/words.hpp"

#include <algorithm>

namespace stk::fit {
namespace {

std::string with_minus(std::string text) {
  if (!text.empty() && text.front() == '-') text.replace(0, 1, "−");
  return text;
}

}  // namespace

std::string signed_percent(const Rational& ratio) {
  const std::string text = values::percent(ratio);
  return (text == "0" || text.front() == '-' ? with_minus(text) : "+" + text) + " %";
}

std::string range_words(const Rational& from, const Rational& to) {
  std::string high = values::percent(to);
  high = high == "0" || high.front() == '-' ? with_minus(high) : "+" + high;
  std::string low = values::percent(from);
  low = low == "0" || low.front() == '-' ? with_minus(low) : "+" + low;
  return low + " to " + high + " %";
}

std::string times_words(const Rational& opening) {
  return values::decimal(opening, 2) + " times";
}

std::string limit_words(const Rational& limit) {
  return values::number_text(limit, 2) + " times";
}

std::string counted(std::int64_t n, const char* one, const char* many) {
  return std::to_string(n) + " " + (n == 1 ? one : many);
}

std::string missing_words(std::int64_t n, const char* one, const char* many) {
  return n < 0 ? counted(-n, one, many) + " fewer" : counted(n, one, many) + " more";
}

std::string thousands(std::int64_t n) {
  std::string text = std::to_string(n);
  for (std::size_t at = text.size(); at > 3; at -= 3) text.insert(at - 3, ",");
  return text;
}

std::string listed(const std::vector<std::string>& words, const char* last) {
  std::string text;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (i > 0) text += i + 1 == words.size() ? std::string(" ") + last + " " : ", ";
    text += words[i];
  }
  return text;
}

std::string printed_name(const knit::Facts& facts, std::size_t size) {
  const knit::SizeName& name = facts.sizes[size];
  if (!name.printed.empty()) return name.printed;
  return name.name.empty() ? "the only size" : name.name;
}

std::string measure_words(const std::string& name) {
  std::string text = name;
  std::replace(text.begin(), text.end(), '_', ' ');
  return text;
}

}  // namespace stk::fit
