// Where something stands in a source: a half-open range of bytes in one file. No text, no line numbers; those live in
// Source (source.hpp), which alone knows lines, columns and code points.
#pragma once

#include <algorithm>
#include <cstdint>

namespace stk::text {

struct FileId {
  std::uint16_t value = 0;
  friend bool operator==(FileId, FileId) = default;
};

struct Span {
  std::uint32_t begin = 0;
  std::uint32_t end = 0;  // one past the last byte
  FileId file;

  bool empty() const { return begin == end; }
  bool contains(std::uint32_t byte) const { return begin <= byte && byte < end; }
  friend bool operator==(const Span&, const Span&) = default;
};

// The smallest span that covers both; both must stand in one file.
inline Span cover(Span a, Span b) {
  return Span{std::min(a.begin, b.begin), std::max(a.end, b.end), a.file};
}

}  // namespace stk::text
