// A text file that was built into the program (stdlib/embed.cmake writes tables of these).
#pragma once

#include <string_view>

namespace stk::text {

struct EmbeddedFile {
  std::string_view name;  // without folder and ending: "heels", "C04"
  std::string_view text;
};

}  // namespace stk::text
