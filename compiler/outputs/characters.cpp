#include "compiler/outputs/characters.hpp"

#include <utf8proc.h>

#include <cstdlib>
#include <memory>

namespace stk::outputs {

std::string upper_case(std::string_view utf8) {
  std::string result;
  for (std::size_t i = 0; i < utf8.size();) {
    utf8proc_int32_t point = 0;
    const utf8proc_ssize_t used = utf8proc_iterate(reinterpret_cast<const utf8proc_uint8_t*>(utf8.data()) + i,
                                                   static_cast<utf8proc_ssize_t>(utf8.size() - i), &point);
    if (used <= 0) {  // not UTF-8: kept as it is, the layout makes it printable
      result += utf8[i++];
      continue;
    }
    utf8proc_uint8_t bytes[4];
    const utf8proc_ssize_t length = utf8proc_encode_char(utf8proc_toupper(point), bytes);
    result.append(reinterpret_cast<const char*>(bytes), static_cast<std::size_t>(length));
    i += static_cast<std::size_t>(used);
  }
  return result;
}

std::string plain_letters(std::string_view utf8) {
  utf8proc_uint8_t* mapped = nullptr;
  const auto options =
      static_cast<utf8proc_option_t>(UTF8PROC_DECOMPOSE | UTF8PROC_COMPAT | UTF8PROC_STRIPMARK | UTF8PROC_CASEFOLD);
  const utf8proc_ssize_t length = utf8proc_map(reinterpret_cast<const utf8proc_uint8_t*>(utf8.data()),
                                               static_cast<utf8proc_ssize_t>(utf8.size()), &mapped, options);
  const std::unique_ptr<utf8proc_uint8_t, void (*)(void*)> owner(mapped, std::free);
  if (length < 0) return std::string(utf8);  // not UTF-8
  return {reinterpret_cast<const char*>(mapped), static_cast<std::size_t>(length)};
}

std::string plain_blanks(std::string_view utf8) {
  constexpr std::string_view no_break = "\u00A0";
  std::string plain;
  for (std::size_t i = 0; i < utf8.size();) {
    const bool blank = utf8.compare(i, no_break.size(), no_break) == 0;
    plain += blank ? ' ' : utf8[i];
    i += blank ? no_break.size() : 1;
  }
  return plain;
}

}  // namespace stk::outputs
