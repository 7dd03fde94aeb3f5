// What was meant, perhaps: the nearest known word, the nearest count that divides.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace stk::findings {

// Letters to put in, leave out, change or swap with their neighbour to come from one word to the other (the optimal
// string alignment distance of Damerau and Levenshtein); over bytes, small and capital letters being alike.
std::size_t edit_distance(std::string_view a, std::string_view b);

struct Suggestion {
  std::string word;
  bool certain = false;  // one letter away, and the only one so near: may be an edit that is applied unasked
};

// The nearest of the known words within max(1, length / 3) letters; at a tie the one that comes first. None if the word
// itself is known, or if nothing is near.
std::optional<Suggestion> nearest_word(std::string_view word, const std::vector<std::string>& known);

// "leg", "toe" and "heel" from a list; at most three words that are near, the nearest first.
std::vector<std::string> near_words(std::string_view word, const std::vector<std::string>& known);

// The counts next to n that `divisor` divides with `offset` over (multiple of 4 plus 1: 4, 1): below and above; n itself
// if it fits already; positive ones only, for no stitches are no count. Nothing if divisor is not positive, or at the end
// of the range of numbers.
std::vector<std::int64_t> nearest_counts(std::int64_t n, std::int64_t divisor, std::int64_t offset = 0);

}  // namespace stk::findings
