// What the user asked for: the command line as data.
#pragma once

#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "compiler/values/quantity.hpp"

namespace stk::driver {

// Exit statuses of the program.
inline constexpr int no_errors = 0;
inline constexpr int found_errors = 1;
inline constexpr int wrong_usage = 2;  // or a file that cannot be read or written

struct Selected {  // what `check`, `build` and `fit` have in common
  std::optional<std::string> library, edition, size;
  std::map<std::string, std::string> settings, measures;
  std::size_t show = 0;  // findings; 0 = all
};
struct CheckCommand {
  std::vector<std::string> files;
  bool json = false;
  Selected selected;
};
struct BuildCommand {
  std::string file;
  std::vector<std::string> formats;
  std::string folder;
  Selected selected;
};
struct FitCommand {
  std::string file;
  bool json = false;
  std::string plot;  // where the picture goes; empty: none
  Selected selected;
};
struct ExplainCommand {
  std::string code;  // empty: list them all
};
struct SwatchSize {  // width and height in mm; or stitches and rows; or from and to
  values::Rational width, height;
};
struct SwatchCommand {
  values::Rational stitches, rows;  // between the marks
  std::optional<SwatchSize> off, washed;
  std::optional<values::Quantity> yarn;  // one strand: mass to length
  int strands = 1;
  std::optional<values::Rational> grams;
  std::optional<SwatchSize> whole;   // stitches and rows of the whole swatch, where it was weighed
  std::optional<SwatchSize> wanted;  // the washed gauge that a pattern asks for, to 10 cm
  std::optional<values::Rational> dial;
  std::optional<SwatchSize> dial_range;
  bool rib = false, json = false;
};
struct Printed {  // help or version: print it and leave
  std::string text;
};
struct Misused {  // the command line cannot be understood
  std::string message;
  std::string help;  // may be empty
};
using Command = std::variant<CheckCommand, BuildCommand, FitCommand, ExplainCommand, SwatchCommand, Printed, Misused>;

Command read_options(int argc, const char* const* argv);

}  // namespace stk::driver
