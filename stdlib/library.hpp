// The libraries that are built into the program: the .stk files of this folder.
#pragma once

#include <span>

#include "compiler/text/embedded.hpp"

namespace stk::stdlib {

// Sorted by name; "heels" is stdlib/heels.stk.
std::span<const text::EmbeddedFile> files();

}  // namespace stk::stdlib
