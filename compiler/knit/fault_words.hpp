// Needles, loops and counts as findings say them.
#pragma once

#include <cstdint>
#include <string>

#include "compiler/knit/bench.hpp"

namespace stk::knit {

std::string needle_text(const Bench& bench, int needle);   // "L12"; "nowhere" below 0
std::string needles_text(const Bench& bench, const runtime::NeedleSet& set);   // "L16, L13, L10 and 9 more"
std::string count_text(std::int64_t n, const char* one, const char* many);
// Loops of an edge by their kinds: "12 stitches", "11 loops between stitches and 2 half loops".
std::string loops_text(std::int64_t whole, std::int64_t between, std::int64_t half);
std::string tenths(std::int64_t t);   // "2.5" of 25
std::string offset(std::int64_t t);   // " - 2.5", " + 1", nothing of 0: after MT

}  // namespace stk::knit
