// What is built into the program: the libraries, the .stk files of this folder, and tables of people.
#pragma once

#include <span>

#include "compiler/text/embedded.hpp"

namespace stk::stdlib {

// Sorted by name; "heels" is stdlib/heels.stk.
std::span<const text::EmbeddedFile> files();

// Tables of people for the report of fit: the .csv files of stdlib/people. "foot_survey_joint": how many people of a
// survey have which foot; its first lines say whose.
std::span<const text::EmbeddedFile> people();

}  // namespace stk::stdlib
