#include "compiler/knit/fault_words.hpp"

namespace stk::knit {

std::string needle_text(const Bench& bench, int needle) {
  return needle < 0 ? std::string("nowhere") : runtime::needle_name(bench.spec(), needle);
}

std::string needles_text(const Bench& bench, const runtime::NeedleSet& set) {
  const int count = set.count();
  std::string text;
  int shown = 0;
  for (int needle : set) {
    if (shown == 3 && count > 4) break;
    const bool last = shown + 1 == count;
    text += (shown == 0 ? "" : last ? " and " : ", ") + needle_text(bench, needle);
    ++shown;
  }
  if (shown < count) text += " and " + std::to_string(count - shown) + " more";
  return text;
}

std::string count_text(std::int64_t n, const char* one, const char* many) {
  return std::to_string(n) + " " + (n == 1 ? one : many);
}

std::string loops_text(std::int64_t whole, std::int64_t between, std::int64_t half) {
  if (whole) return count_text(whole, "stitch", "stitches");
  std::string text = count_text(between, "loop between stitches", "loops between stitches");
  if (half) text += " and " + std::to_string(half) + " half " + (half == 1 ? "loop" : "loops");
  return text;
}

std::string tenths(std::int64_t t) {
  const std::int64_t a = t < 0 ? -t : t;
  return std::to_string(a / 10) + (a % 10 ? "." + std::to_string(a % 10) : "");
}
std::string offset(std::int64_t t) { return t == 0 ? std::string() : (t < 0 ? " - " : " + ") + tenths(t); }

}  // namespace stk::knit
