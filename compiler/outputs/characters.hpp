// Plain text's own characters: capitals for headings, and blanks that have done their work.
#pragma once

#include <string>
#include <string_view>

namespace stk::outputs {

std::string upper_case(std::string_view utf8);    // by the simple mapping of each code point
std::string plain_blanks(std::string_view utf8);  // U+00A0 as a blank: after the lines are broken

}  // namespace stk::outputs
