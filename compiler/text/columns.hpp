// How wide text stands in a terminal, and text broken at a width. Counted in cells of the screen: a Chinese character
// takes two, a combining accent none, a flag or a family of emoji is one cluster.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace stk::text {

// What a reader takes for one character, made safe to print: a tab becomes blanks up to the next fourth column; other
// control characters, bytes that are not UTF-8 and marks that turn the direction of writing become U+FFFD, so that a
// source can neither move the cursor nor show other words than it holds.
struct Cluster {
  std::size_t begin = 0;  // bytes of the text
  std::size_t end = 0;
  std::size_t column = 0;  // cells before it
  std::size_t width = 1;   // cells
  std::string_view shown;  // of the text, or of a constant
};
std::vector<Cluster> clusters(std::string_view utf8);

std::size_t display_width(std::string_view utf8);
std::string printable(std::string_view utf8);

// Lines of at most `width` cells, broken at blanks; a word that is longer stands alone and overlong. The first line
// begins with `first`, the others with `rest`. A line end in the text ends a line here.
std::vector<std::string> wrapped(std::string_view utf8, std::size_t width, std::string_view first = {},
                                 std::string_view rest = {});

}  // namespace stk::text
