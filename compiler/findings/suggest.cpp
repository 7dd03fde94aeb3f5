#include "compiler/findings/suggest.hpp"

#include <algorithm>
#include <cctype>
#include <limits>

namespace stk::findings {
namespace {

char small(char c) {
  return static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
}

struct Near {
  std::size_t distance;
  std::size_t index;
};

std::vector<Near> near_ones(std::string_view word, const std::vector<std::string>& known) {
  const std::size_t most = std::max<std::size_t>(1, word.size() / 3);
  std::vector<Near> result;
  for (std::size_t i = 0; i < known.size(); ++i) {
    const std::string_view other = known[i];
    if (other == word) return {};
    const std::size_t difference = std::max(word.size(), other.size()) - std::min(word.size(), other.size());
    if (difference > most) continue;
    const std::size_t distance = edit_distance(word, other);
    if (distance <= most && distance < std::max(word.size(), other.size())) result.push_back({distance, i});
  }
  std::stable_sort(result.begin(), result.end(), [](Near a, Near b) { return a.distance < b.distance; });
  return result;
}

}  // namespace

std::size_t edit_distance(std::string_view a, std::string_view b) {
  // Three rows of the table are enough: this one, the one above, and for a swap the one above that.
  std::vector<std::size_t> above2(b.size() + 1), above(b.size() + 1), row(b.size() + 1);
  for (std::size_t j = 0; j <= b.size(); ++j) above[j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    row[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const bool same = small(a[i - 1]) == small(b[j - 1]);
      row[j] = std::min({above[j] + 1, row[j - 1] + 1, above[j - 1] + (same ? 0 : 1)});
      const bool swapped = i > 1 && j > 1 && small(a[i - 1]) == small(b[j - 2]) && small(a[i - 2]) == small(b[j - 1]);
      if (swapped) row[j] = std::min(row[j], above2[j - 2] + 1);
    }
    std::swap(above2, above);
    std::swap(above, row);
  }
  return above[b.size()];
}

std::optional<Suggestion> nearest_word(std::string_view word, const std::vector<std::string>& known) {
  const std::vector<Near> near = near_ones(word, known);
  if (near.empty()) return std::nullopt;
  const bool alone = near.size() == 1 || near[1].distance > near[0].distance;
  return Suggestion{known[near[0].index], alone && near[0].distance <= 1};
}

std::vector<std::string> near_words(std::string_view word, const std::vector<std::string>& known) {
  std::vector<std::string> result;
  for (const Near& one : near_ones(word, known)) {
    if (result.size() == 3) break;
    if (std::find(result.begin(), result.end(), known[one.index]) == result.end()) result.push_back(known[one.index]);
  }
  return result;
}

std::vector<std::int64_t> nearest_counts(std::int64_t n, std::int64_t divisor, std::int64_t offset) {
  constexpr std::int64_t room = std::numeric_limits<std::int64_t>::max() / 4;
  if (divisor <= 0 || divisor > room || n > room || n < -room || offset > room || offset < -room) return {};
  const std::int64_t over = ((n - offset) % divisor + divisor) % divisor;
  if (over == 0 && n > 0) return {n};
  std::vector<std::int64_t> result;
  if (n - over > 0) result.push_back(n - over);
  const std::int64_t least = (offset % divisor + divisor) % divisor;   // the smallest that fits and is not negative
  result.push_back(std::max(n - over + divisor, least > 0 ? least : divisor));
  return result;
}

}  // namespace stk::findings
