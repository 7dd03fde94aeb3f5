// How well a set of sizes serves people: every person of a survey against every size.
//
// The survey gives people in cells of 5 mm of foot length by 5 mm of ball circumference; all of a cell count as if they
// had the feet of its middle. A size fits a foot if the finished sock, held against that foot and not against the one
// it was drafted for, lies within the ease that the pattern declares, both around and in length.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "compiler/fit/exact.hpp"
#include "compiler/knit/facts.hpp"

namespace stk::fit {

inline constexpr std::int64_t cell_mm = 5;

struct Cell {
  bool women = false;
  std::int64_t length = 0, girth = 0;  // where it begins, mm
  std::int64_t people = 0;
  Rational middle_length() const { return Rational::of(2 * length + cell_mm, 2); }
  Rational middle_girth() const { return Rational::of(2 * girth + cell_mm, 2); }
};
// The table of the survey (stdlib/people/foot_survey_joint.csv). A line that is none of it is left out.
std::vector<Cell> read_people(std::string_view csv);

// The feet that one size fits, mm.
struct Box {
  std::size_t size = 0;
  Rational length_from, length_to, girth_from, girth_to;
  bool takes_length(const Cell& cell) const;
  bool takes_girth(const Cell& cell) const;
};

struct Shares {
  std::int64_t people = 0, fitted = 0;
  std::int64_t no_length = 0;     // no size has their length
  std::int64_t no_girth = 0;      // sizes have their length, but none of those or others their girth
  std::int64_t not_together = 0;  // length and girth are there, but not in one size
};

// Cells of 10 mm by 10 mm in which most people go without.
struct Gap {
  bool women = false;
  std::int64_t length = 0, girth = 0;  // where it begins, mm
  std::int64_t people = 0;             // who go without
};
inline constexpr std::int64_t gap_mm = 10;
inline constexpr std::size_t gaps_told = 3;  // of women, and of men

struct Coverage {
  std::vector<Box> boxes;  // sizes with finished measures around and in length
  Shares women, men;
  std::vector<Gap> gaps;                                 // women's, then men's; most people first
  bool length_declared = false, girth_declared = false;  // else what is usual was taken
};
// No boxes where the pattern has not both measures, `finished around` and `finished length`.
Coverage coverage_of(const knit::Facts& facts, const knit::EditionFacts& edition, knit::SizeSet sizes,
                     const std::vector<Cell>& people);

}  // namespace stk::fit
