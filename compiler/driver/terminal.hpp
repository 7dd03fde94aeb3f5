// Standard output and standard error: writing that notices failure, and what the terminal can show.
#pragma once

#include <string_view>

#include "compiler/findings/render.hpp"

namespace stk::driver {

// All of it, or false: a full disk, a closed pipe.
bool print(std::string_view text);
bool print_error(std::string_view text);

// "stockinger: message" and an indented "help: ..." line on standard error.
void complain(std::string_view message, std::string_view help = {});

// Colour only on a terminal that can show it, never with NO_COLOR set; the terminal's width, or 80 where there is none.
findings::TextStyle style_of_output();
findings::TextStyle style_of_error();

}  // namespace stk::driver
