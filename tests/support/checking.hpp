// A source in memory through the public door, with the built-in library: what every test of whole sources uses.
#pragma once

#include <cstdint>
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "compiler/service/session.hpp"

namespace stk::test {

// Where something was found: a file and a line, with its code. Errors and warnings only.
struct Place {
  std::string file;
  std::uint32_t line = 0;
  std::string code;
  friend auto operator<=>(const Place&, const Place&) = default;
};

// Other files of the pattern, by path.
using Neighbours = std::map<std::string, std::string>;

service::Checked check(const std::string& name, std::string_view text, const Neighbours& neighbours = {},
                       const service::Options& options = {});

std::vector<Place> places(const service::Checked& checked);       // in order
std::vector<std::string> codes(const service::Checked& checked);  // of errors and warnings, in order

// All findings as text, 80 columns, no colour.
std::string findings_text(const service::Checked& checked);

std::string read_file(const std::string& path);  // fails the test if there is none

}  // namespace stk::test
