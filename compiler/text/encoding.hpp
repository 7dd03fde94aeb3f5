// Is this text at all, and may it be a source? Asked of every file before it is parsed, so that the parser meets
// nothing but UTF-8 of a bearable length.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

namespace stk::text {

// Where the first byte stands that is not part of valid UTF-8 (no overlong form, no surrogate, nothing beyond
// U+10FFFF).
std::optional<std::size_t> first_bad_utf8(std::string_view bytes);

// What keeps these bytes from being a source, in words a designer can act on ("it is in UTF-16; save it as UTF-8"), or
// nothing. An empty file is text; what it lacks is said by the parser.
std::optional<std::string> text_problem(std::string_view bytes);

// The same bytes without a byte order mark, which some editors put before UTF-8.
std::string_view without_byte_order_mark(std::string_view bytes);

}  // namespace stk::text
