#include "compiler/fit/grading.hpp"

#include <algorithm>

namespace stk::fit {
namespace {

// b is larger than a: in one row of the sizes table at least, and smaller in none.
bool larger_in_all(const knit::Facts& facts, std::size_t a, std::size_t b) {
  bool larger = false;
  for (const knit::Amount& row : facts.body_measures) {
    const Maybe at_a = value_at(row, a), at_b = value_at(row, b);
    if (!at_a || !at_b) continue;
    if (*at_b < *at_a) return false;
    larger = larger || *at_b > *at_a;
  }
  return larger;
}

bool has_body(const knit::MeasureFacts& measure) {
  return std::any_of(measure.body.begin(), measure.body.end(), [](const auto& value) { return value.has_value(); });
}

Maybe key_of(const knit::Facts& facts, const knit::MeasureFacts& measure, std::size_t size) {
  return has_body(measure) ? value_at(measure.body, size) : body_measure(facts, "foot_length", size);
}

}  // namespace

std::vector<std::size_t> order_of(const knit::Facts& facts, const knit::MeasureFacts& measure) {
  std::vector<std::size_t> order;
  for (std::size_t i = 0; i < facts.sizes.size(); ++i) {
    if (value_at(measure.finished, i) && key_of(facts, measure, i)) order.push_back(i);
  }
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    return *key_of(facts, measure, a) < *key_of(facts, measure, b);
  });
  return order;
}

std::vector<std::pair<std::size_t, std::size_t>> backwards(const knit::Facts& facts,
                                                           const knit::MeasureFacts& measure) {
  std::vector<std::pair<std::size_t, std::size_t>> pairs;
  const std::vector<std::size_t> order = order_of(facts, measure);
  for (std::size_t i = 1; i < order.size(); ++i) {
    // The nearest smaller size that came out larger: one pair a size.
    for (std::size_t j = i; j-- > 0;) {
      const std::size_t small = order[j], large = order[i];
      if (!(*value_at(measure.finished, large) < *value_at(measure.finished, small))) continue;
      const bool grows = has_body(measure) ? *value_at(measure.body, small) < *value_at(measure.body, large)
                                           : larger_in_all(facts, small, large);
      if (!grows) continue;
      pairs.emplace_back(small, large);
      break;
    }
  }
  return pairs;
}

std::vector<std::pair<std::size_t, std::size_t>> uneven(const knit::Facts& facts, const knit::MeasureFacts& measure) {
  std::vector<std::pair<std::size_t, std::size_t>> pairs;
  if (measure.ease_declared || !has_body(measure)) return pairs;
  const std::vector<std::size_t> order = order_of(facts, measure);
  for (std::size_t i = 1; i < order.size(); ++i) {
    const auto ease = [&](std::size_t at) {
      return ease_of(value_at(measure.finished, order[at]), value_at(measure.body, order[at]));
    };
    const Maybe jump = minus(ease(i), ease(i - 1));
    if (jump && values::absolute(*jump) > even_ease) pairs.emplace_back(order[i - 1], order[i]);
  }
  return pairs;
}

}  // namespace stk::fit
