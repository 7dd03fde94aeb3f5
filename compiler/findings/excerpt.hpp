// A line of the source with marks under it:
//
//      41 |   move last of each 3 one needle left
//         |        ^^^^^^^^^^^^^^ 40 needles are in work here: 13 groups and 1 over
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "compiler/findings/render.hpp"
#include "compiler/text/source.hpp"

namespace stk::findings {

struct Mark {
  text::Span span;
  std::string text;      // after the underline, or below it where the line has no room; may be empty
  bool primary = false;  // ^^^^ or ----
  Severity severity = Severity::error;
};

// All marks must begin on the line. A mark that goes on over the line's end is drawn up to it; an empty one points with
// a single sign. A line that is too long for the style is shown around the first mark, with an ellipsis where it was
// cut.
std::vector<std::string> excerpt(const text::Source& source, std::uint32_t line, const std::vector<Mark>& marks,
                                 const TextStyle& style);

// Colours of a terminal (ECMA-48, select graphic rendition), or the text as it is.
std::string coloured(std::string text, const char* rendition, const TextStyle& style);
const char* rendition_of(Severity severity);
inline constexpr const char* quiet_rendition = "2";
inline constexpr const char* other_rendition = "34";
inline constexpr const char* help_rendition = "32";

}  // namespace stk::findings
