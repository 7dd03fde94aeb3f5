// A set of needles of one bed: one bit a needle, fixed size, no allocation. Needle 0 stands farthest left.
//
//   index   0   1   2   3   4   5          a bed of 6
//   name    L3  L2  L1  R1  R2  R3         (names are in units.hpp: a set knows only indices)
//
// Everything is O(words) or O(members); iterate with `for (int needle : set)`, from left to right.
#pragma once

#include <array>
#include <bit>
#include <cstddef>
#include <cstdint>

namespace stk::runtime {

inline constexpr int needle_limit = 1000;  // needles on one bed, far more than any has; checked by MachineSpec::valid()

class NeedleSet {
  static constexpr int word_count = (needle_limit + 63) / 64;

 public:
  constexpr NeedleSet() = default;

  static constexpr NeedleSet one(int needle) {
    NeedleSet set;
    set.insert(needle);
    return set;
  }
  // first..last, both included; empty when last < first. Ends beyond the limit are cut off.
  static constexpr NeedleSet range(int first, int last) {
    NeedleSet set;
    first = first < 0 ? 0 : first;
    last = last >= needle_limit ? needle_limit - 1 : last;
    for (int w = first / 64; first <= last && w <= last / 64; ++w) {
      const int low = w * 64 < first ? first - w * 64 : 0;
      const int high = w * 64 + 63 > last ? last - w * 64 : 63;
      set.words_[static_cast<std::size_t>(w)] = (~std::uint64_t{0} << low) & (~std::uint64_t{0} >> (63 - high));
    }
    return set;
  }

  // Indices outside 0..needle_limit-1 are never members; inserting one does nothing.
  constexpr void insert(int needle) {
    if (in_limit(needle)) words_[word_of(needle)] |= bit_of(needle);
  }
  constexpr void erase(int needle) {
    if (in_limit(needle)) words_[word_of(needle)] &= ~bit_of(needle);
  }
  constexpr bool contains(int needle) const {
    return in_limit(needle) && (words_[word_of(needle)] & bit_of(needle)) != 0;
  }

  constexpr bool empty() const {
    std::uint64_t any = 0;
    for (std::uint64_t word : words_) any |= word;
    return any == 0;
  }
  constexpr int count() const {
    int total = 0;
    for (std::uint64_t word : words_) {
      if (word != 0) total += std::popcount(word);   // most of the bed is empty, and counting is a call on old processors
    }
    return total;
  }
  // Leftmost and rightmost member, -1 when empty.
  constexpr int first() const { return next(0); }
  constexpr int last() const { return previous(needle_limit - 1); }
  // The nearest member at or to the right (left) of `needle`, -1 when there is none.
  constexpr int next(int needle) const {
    if (needle < 0) needle = 0;
    for (int w = needle / 64; w < word_count; ++w) {
      std::uint64_t word = words_[static_cast<std::size_t>(w)];
      if (w == needle / 64) word &= ~std::uint64_t{0} << (needle % 64);
      if (word != 0) return w * 64 + std::countr_zero(word);
    }
    return -1;
  }
  constexpr int previous(int needle) const {
    if (needle >= needle_limit) needle = needle_limit - 1;
    for (int w = needle < 0 ? -1 : needle / 64; w >= 0; --w) {
      std::uint64_t word = words_[static_cast<std::size_t>(w)];
      if (w == needle / 64) word &= ~std::uint64_t{0} >> (63 - needle % 64);
      if (word != 0) return w * 64 + 63 - std::countl_zero(word);
    }
    return -1;
  }
  // Members strictly between two needles, whichever of them is the left one.
  constexpr int count_between(int a, int b) const {
    return a < b ? (*this & range(a + 1, b - 1)).count() : (*this & range(b + 1, a - 1)).count();
  }
  // Is every needle from the first member to the last a member?
  constexpr bool side_by_side() const { return empty() || last() - first() + 1 == count(); }
  constexpr bool contains_all(const NeedleSet& other) const { return (other - *this).empty(); }
  constexpr bool intersects(const NeedleSet& other) const { return !(other & *this).empty(); }

  // Every member `distance` needles to the right (negative: to the left). Members pushed past 0 or past the limit are
  // lost, so compare counts, or check first() and last() before.
  constexpr NeedleSet shifted(int distance) const {
    NeedleSet set;
    if (distance >= needle_limit || distance <= -needle_limit) return set;
    const int words = distance / 64, bits = distance % 64;  // both have the sign of distance
    for (int w = 0; w < word_count; ++w) {
      const std::uint64_t word = words_[static_cast<std::size_t>(w)];
      set.join(w + words, bits >= 0 ? word << bits : word >> -bits);
      if (bits > 0) set.join(w + words + 1, word >> (64 - bits));
      if (bits < 0) set.join(w + words - 1, word << (64 + bits));
    }
    return set & range(0, needle_limit - 1);
  }
  // As seen in a mirror on a bed of so many needles: index i becomes needles - 1 - i.
  constexpr NeedleSet mirrored(int needles) const {
    NeedleSet set;
    for (int needle : *this) set.insert(needles - 1 - needle);
    return set;
  }

  friend constexpr NeedleSet operator|(NeedleSet a, const NeedleSet& b) {
    for (std::size_t w = 0; w < a.words_.size(); ++w) a.words_[w] |= b.words_[w];
    return a;
  }
  friend constexpr NeedleSet operator&(NeedleSet a, const NeedleSet& b) {
    for (std::size_t w = 0; w < a.words_.size(); ++w) a.words_[w] &= b.words_[w];
    return a;
  }
  friend constexpr NeedleSet operator-(NeedleSet a, const NeedleSet& b) {  // difference
    for (std::size_t w = 0; w < a.words_.size(); ++w) a.words_[w] &= ~b.words_[w];
    return a;
  }
  constexpr NeedleSet& operator|=(const NeedleSet& b) { return *this = *this | b; }
  constexpr NeedleSet& operator&=(const NeedleSet& b) { return *this = *this & b; }
  constexpr NeedleSet& operator-=(const NeedleSet& b) { return *this = *this - b; }
  friend constexpr bool operator==(const NeedleSet&, const NeedleSet&) = default;

  class Iterator {
   public:
    constexpr Iterator(const NeedleSet* set, int needle) : set_(set), needle_(needle) {}
    constexpr int operator*() const { return needle_; }
    constexpr Iterator& operator++() {
      needle_ = set_->next(needle_ + 1);
      return *this;
    }
    friend constexpr bool operator==(const Iterator& a, const Iterator& b) { return a.needle_ == b.needle_; }

   private:
    const NeedleSet* set_;
    int needle_;
  };
  constexpr Iterator begin() const { return {this, first()}; }
  constexpr Iterator end() const { return {this, -1}; }

 private:
  static constexpr bool in_limit(int needle) { return needle >= 0 && needle < needle_limit; }
  static constexpr std::size_t word_of(int needle) { return static_cast<std::size_t>(needle) / 64; }
  static constexpr std::uint64_t bit_of(int needle) { return std::uint64_t{1} << (needle % 64); }
  constexpr void join(int w, std::uint64_t bits) {
    if (w >= 0 && w < word_count) words_[static_cast<std::size_t>(w)] |= bits;
  }

  std::array<std::uint64_t, static_cast<std::size_t>(word_count)> words_{};
};

}  // namespace stk::runtime
