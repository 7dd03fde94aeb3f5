// What a number counts or measures: exponents of length, stitches, rows, rounds and mass. A gauge is stitches to a length,
// tex is mass to a length; percent and ratios are plain. Stitches and needles are one dimension, spelled in two ways,
// because a needle in work and the stitch on it are counted as one; rows and rounds are two, because a round of a tube is
// two passes of the carriage.
#pragma once

#include <cstdint>
#include <optional>
#include <string>

namespace stk::values {

struct Dimension {
  std::int8_t length = 0;
  std::int8_t sts = 0;
  std::int8_t rows = 0;
  std::int8_t rounds = 0;
  std::int8_t mass = 0;

  friend constexpr bool operator==(const Dimension&, const Dimension&) = default;
  constexpr bool is_plain() const { return *this == Dimension{}; }
  // Stitches, rows or rounds: what is counted one by one, and has a whole to be rounded to.
  constexpr bool is_count() const;
};

namespace dimensions {
inline constexpr Dimension plain{};
inline constexpr Dimension length{1, 0, 0, 0, 0};
inline constexpr Dimension sts{0, 1, 0, 0, 0};
inline constexpr Dimension rows{0, 0, 1, 0, 0};
inline constexpr Dimension rounds{0, 0, 0, 1, 0};
inline constexpr Dimension mass{0, 0, 0, 0, 1};
inline constexpr Dimension sts_per_length{-1, 1, 0, 0, 0};
inline constexpr Dimension rows_per_length{-1, 0, 1, 0, 0};
inline constexpr Dimension rounds_per_length{-1, 0, 0, 1, 0};
inline constexpr Dimension mass_per_length{-1, 0, 0, 0, 1};   // tex
}  // namespace dimensions

constexpr bool Dimension::is_count() const {
  return *this == dimensions::sts || *this == dimensions::rows || *this == dimensions::rounds;
}

// None when an exponent would leave -100 to 100: nothing that is knitted has such a dimension.
std::optional<Dimension> multiply(Dimension a, Dimension b);
std::optional<Dimension> divide(Dimension a, Dimension b);

// In the trade's words, to stand in a sentence: "stitches", "a length", "stitches per length (a gauge)", "a plain number".
std::string describe(Dimension d);
// The unit that is written after a number of this dimension when it is shown: "sts", "rows", "" for a plain number. Lengths
// are shown in cm, mass in g, yarn counts in tex; anything else as a product, "sts·cm".
std::string unit_word(Dimension d);

}  // namespace stk::values
