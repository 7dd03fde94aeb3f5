#include "compiler/text/encoding.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "compiler/text/limits.hpp"

namespace stk::text {
namespace {

unsigned at(std::string_view bytes, std::size_t i) {
  return i < bytes.size() ? static_cast<unsigned char>(bytes[i]) : 0u;
}

bool starts(std::string_view bytes, std::string_view with) {
  return bytes.substr(0, with.size()) == with;
}

// The length of the well-formed sequence that begins here, or 0: table 3-7 of the Unicode Standard, chapter 3.9.
std::size_t sequence(std::string_view bytes, std::size_t i) {
  const unsigned first = at(bytes, i), second = at(bytes, i + 1);
  const auto tail = [&](std::size_t n) { return (at(bytes, i + n) & 0xC0u) == 0x80u; };
  if (first < 0x80) return 1;
  if (first >= 0xC2 && first <= 0xDF) return tail(1) ? 2 : 0;
  if (first >= 0xE0 && first <= 0xEF) {
    const unsigned low = first == 0xE0 ? 0xA0 : 0x80, high = first == 0xED ? 0x9F : 0xBF;
    return second >= low && second <= high && tail(2) ? 3 : 0;
  }
  if (first >= 0xF0 && first <= 0xF4) {
    const unsigned low = first == 0xF0 ? 0x90 : 0x80, high = first == 0xF4 ? 0x8F : 0xBF;
    return second >= low && second <= high && tail(2) && tail(3) ? 4 : 0;
  }
  return 0;
}

// UTF-16 without a mark: every other byte of a Latin text is zero.
bool looks_like_utf16(std::string_view bytes) {
  const std::string_view head = bytes.substr(0, 256);
  std::size_t even = 0, odd = 0;
  for (std::size_t i = 0; i < head.size(); ++i) {
    if (head[i] == '\0') ++(i % 2 == 0 ? even : odd);
  }
  const std::size_t half = head.size() / 2;
  return half >= 2 && ((odd * 4 >= half * 3 && even == 0) || (even * 4 >= half * 3 && odd == 0));
}

// An 8-bit text has letters about its odd bytes and hardly a control character; anything else is no text.
bool looks_like_text(std::string_view bytes) {
  const std::string_view head = bytes.substr(0, 4096);
  const auto controls = std::count_if(head.begin(), head.end(), [](char c) {
    const auto byte = static_cast<unsigned char>(c);
    return byte < 0x20 && c != '\n' && c != '\r' && c != '\t' && c != '\f';
  });
  return static_cast<std::size_t>(controls) * 50 <= head.size();
}

}  // namespace

std::optional<std::size_t> first_bad_utf8(std::string_view bytes) {
  std::size_t i = 0;
  while (i < bytes.size()) {
    const std::size_t length = sequence(bytes, i);
    if (length == 0) return i;
    i += length;
  }
  return std::nullopt;
}

std::optional<std::string> text_problem(std::string_view bytes) {
  if (bytes.size() > limits::source_bytes) {
    return fmt::format("it has {:.1f} MiB; a source may have {} MiB at most",
                       static_cast<double>(bytes.size()) / (1024.0 * 1024.0), limits::source_bytes / (1024 * 1024));
  }
  if (starts(bytes, "\xFF\xFE") || starts(bytes, "\xFE\xFF") || looks_like_utf16(bytes)) {
    return "it is in UTF-16; save it as UTF-8";
  }
  const std::optional<std::size_t> bad = first_bad_utf8(bytes);
  const std::size_t zero = bytes.find('\0');
  if (zero != std::string_view::npos || (bad && !looks_like_text(bytes))) {
    return "it is not a text file; a source is plain text in UTF-8";
  }
  if (bad) {
    const auto line = 1 + std::count(bytes.begin(), bytes.begin() + static_cast<std::ptrdiff_t>(*bad), '\n');
    return fmt::format(
        "it is not in UTF-8: line {} has a byte (hexadecimal {:02X}) of another encoding; save it as UTF-8", line,
        at(bytes, *bad));
  }
  return std::nullopt;
}

std::string_view without_byte_order_mark(std::string_view bytes) {
  return starts(bytes, "\xEF\xBB\xBF") ? bytes.substr(3) : bytes;
}

}  // namespace stk::text
