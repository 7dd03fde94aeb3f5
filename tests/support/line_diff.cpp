#include "tests/support/line_diff.hpp"

#include <algorithm>
#include <cstddef>

namespace stk::test {
namespace {

struct Line {
  char kind;  // ' ', '-', '+'
  std::string_view text;
  std::size_t expected, actual;  // numbers of the lines before it
};

// The longest common subsequence by the plain table; the texts are at most some thousand lines.
std::vector<Line> compared(const std::vector<std::string>& a, const std::vector<std::string>& b) {
  const std::size_t width = b.size() + 1;
  std::vector<std::uint32_t> common((a.size() + 1) * width, 0);
  for (std::size_t i = a.size(); i-- > 0;) {
    for (std::size_t j = b.size(); j-- > 0;) {
      common[i * width + j] = a[i] == b[j] ? common[(i + 1) * width + j + 1] + 1
                                           : std::max(common[(i + 1) * width + j], common[i * width + j + 1]);
    }
  }
  std::vector<Line> result;
  std::size_t i = 0, j = 0;
  while (i < a.size() || j < b.size()) {
    if (i < a.size() && j < b.size() && a[i] == b[j]) {
      result.push_back({' ', a[i], i, j});
      ++i, ++j;
    } else if (i < a.size() && (j == b.size() || common[(i + 1) * width + j] >= common[i * width + j + 1])) {
      result.push_back({'-', a[i], i, j});
      ++i;
    } else {
      result.push_back({'+', b[j], i, j});
      ++j;
    }
  }
  return result;
}

}  // namespace

std::vector<std::string> lines_of(std::string_view text) {
  std::vector<std::string> lines;
  while (!text.empty()) {
    const std::size_t end = text.find('\n');
    if (end == std::string_view::npos) {
      lines.push_back(std::string(text) + "\\ no line end");
      break;
    }
    lines.emplace_back(text.substr(0, end));
    text.remove_prefix(end + 1);
  }
  return lines;
}

std::string line_diff(std::string_view expected, std::string_view actual, const std::string& expected_name,
                      const std::string& actual_name) {
  if (expected == actual) return {};
  constexpr std::size_t context = 3;
  const std::vector<std::string> a = lines_of(expected), b = lines_of(actual);
  const std::vector<Line> all = compared(a, b);
  std::string out = "--- " + expected_name + "\n+++ " + actual_name + "\n";
  std::size_t i = 0;
  while (i < all.size()) {
    if (all[i].kind == ' ') {
      ++i;
      continue;
    }
    // A hunk: up to the last change that is followed by more than twice the context of equal lines.
    std::size_t last = i;
    for (std::size_t j = i; j < all.size() && j <= last + 2 * context; ++j) {
      if (all[j].kind != ' ') last = j;
    }
    const std::size_t begin = i > context ? i - context : 0, end = std::min(all.size(), last + context + 1);
    std::size_t minus = 0, plus = 0;
    std::string body;
    for (std::size_t j = begin; j < end; ++j) {
      minus += all[j].kind != '+' ? 1 : 0;
      plus += all[j].kind != '-' ? 1 : 0;
      body += all[j].kind;
      body.append(all[j].text);
      body += '\n';
    }
    const auto range = [](std::size_t before, std::size_t count) {
      return std::to_string(count == 0 ? before : before + 1) + "," + std::to_string(count);
    };
    out += "@@ -" + range(all[begin].expected, minus) + " +" + range(all[begin].actual, plus) + " @@\n" + body;
    i = end;
  }
  return out;
}

}  // namespace stk::test
