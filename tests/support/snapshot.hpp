// One snapshot test: a source with what it proves, its command, its other files and its markers.
//
//   # a group that does not divide the needles is one finding for all sizes concerned
//   #@ run: build --to text --edition mid          the command; `check` if there is none
//   stockinger 1
//   …
//     move last of each 3 left by 1  #~ C04        an error or warning on this line (#~^ on the line above, #~^^ two
//     above)
//   #@ file: shared.stk                            from the next line on another file of the pattern
//
// `#~ <library> N07` stands for a finding in a library's file, whose lines are not the test's business.
// Markers are exhaustive and are never written by blessing.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "compiler/service/session.hpp"
#include "tests/support/checking.hpp"

namespace stk::test {

struct Snapshot {
  std::string proves;  // the first comment
  std::string text;    // of the main file
  Neighbours neighbours;
  std::vector<Place> marked;  // sorted; of a library's file the line is 0
  bool build = false;
  bool fit = false;
  bool json = false;
  std::vector<std::string> formats;
  service::Options options;
  std::string mistake;  // what is wrong with the test itself
};

inline constexpr const char* main_file = "test.stk";

Snapshot read_snapshot(std::string_view source);

}  // namespace stk::test
