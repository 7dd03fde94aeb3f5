// Figures in words, for the report and the findings alike.
#pragma once

#include <string>
#include <vector>

#include "compiler/fit/exact.hpp"
#include "compiler/values/format.hpp"

namespace stk::fit {

inline std::string cm(const Rational& millimetres) {
  return values::centimetres(millimetres) + " cm";
}
std::string signed_percent(const Rational& ratio);                             // "+2 %", "−12.5 %"
std::string range_words(const Rational& from, const Rational& to);             // "−15 to −4 %"
std::string times_words(const Rational& opening);                              // "1.55 times"
std::string limit_words(const Rational& limit);                                // "1.6 times"
std::string counted(std::int64_t n, const char* one, const char* many);        // "1 st", "4 sts"
std::string missing_words(std::int64_t n, const char* one, const char* many);  // "4 sts more", "1 row fewer"
std::string thousands(std::int64_t n);                                         // "4,082"
std::string listed(const std::vector<std::string>& words, const char* last = "and");
std::string printed_name(const knit::Facts& facts, std::size_t size);  // "Women M"; "the only size" without a table
std::string measure_words(const std::string& name);                    // foot_around: "foot around"

}  // namespace stk::fit
