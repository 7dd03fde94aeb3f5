// What is known here of characters: capitals for headings, letters for names of files, blanks that have done their
// work.
#pragma once

#include <string>
#include <string_view>

namespace stk::outputs {

std::string upper_case(std::string_view utf8);    // by the simple mapping of each code point
std::string plain_blanks(std::string_view utf8);  // U+00A0 as a blank: after the lines are broken

// Small letters without accents; what has no such form stays as it is.
std::string plain_letters(std::string_view utf8);

}  // namespace stk::outputs
