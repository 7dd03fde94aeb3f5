// The fenced blocks of a Markdown document, so that what it shows can be compiled.
//
// A block of our language says in its info string what it is:
//   ```stk              a whole source (it begins `stockinger 1`)
//   ```stk top          declarations, set into frames/top.stk in place of its line `#@ here`
//   ```stk piece        steps of a piece, set into frames/piece.stk
//   ```stk finish       steps of the finish, set into frames/finish.stk
//   ```stk … finding C04   the same, and this code (and no other error or warning) is what it must give
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace stk::test {

struct Block {
  std::string info;
  std::string text;
  std::uint32_t line = 0;  // of its first line of text
  std::string heading;     // the last heading above it, without its marks
};

std::vector<Block> fenced_blocks(std::string_view markdown);

// A block of our language, ready to be compiled.
struct Listing {
  std::string text;
  std::optional<std::string> finding;  // the code that it must give
  std::vector<std::string> tolerated;  // codes that the frame cannot help: `#@ tolerate: N05`
  std::string mistake;                 // the info string cannot be understood
};
bool is_ours(const Block& block);
Listing listing(const Block& block);

}  // namespace stk::test
