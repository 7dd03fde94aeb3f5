#include "compiler/text/source.hpp"

#include <algorithm>
#include <utility>

namespace stk::text {
namespace {

bool continues(char byte) {
  return (static_cast<unsigned char>(byte) & 0xC0u) == 0x80u;
}

}  // namespace

Source::Source(FileId id, std::string name, std::string text)
    : id_(id), name_(std::move(name)), text_(std::move(text)), line_starts_{0} {
  // A line ends at "\n"; the "\r" of "\r\n" belongs to the end and is cut off in line().
  for (std::size_t i = text_.find('\n'); i != std::string::npos; i = text_.find('\n', i + 1)) {
    line_starts_.push_back(static_cast<std::uint32_t>(i + 1));
  }
}

std::string_view Source::text(Span span) const {
  const std::size_t begin = std::min<std::size_t>(span.begin, text_.size());
  const std::size_t end = std::clamp<std::size_t>(span.end, begin, text_.size());
  return std::string_view(text_).substr(begin, end - begin);
}

Position Source::position(std::uint32_t byte) const {
  byte = std::min(byte, static_cast<std::uint32_t>(text_.size()));
  const auto after = std::upper_bound(line_starts_.begin(), line_starts_.end(), byte);
  const auto line = static_cast<std::uint32_t>(after - line_starts_.begin());
  const char* const start = text_.data() + line_starts_[line - 1];
  // The code points before the byte: those bytes that do not continue one.
  const auto before =
      std::count_if(start, static_cast<const char*>(text_.data()) + byte, [](char c) { return !continues(c); });
  return {line, static_cast<std::uint32_t>(before) + 1};
}

std::uint32_t Source::utf16_column(std::uint32_t byte) const {
  byte = std::min(byte, static_cast<std::uint32_t>(text_.size()));
  const std::uint32_t start = line_starts_[position(byte).line - 1];
  std::uint32_t units = 0;
  for (std::uint32_t i = start; i < byte; ++i) {
    if (continues(text_[i])) continue;
    // A code point beyond U+FFFF is four bytes in UTF-8 (11110xxx first) and a pair of units in UTF-16.
    units += (static_cast<unsigned char>(text_[i]) & 0xF8u) == 0xF0u ? 2 : 1;
  }
  return units;
}

std::string_view Source::line(std::uint32_t number) const {
  if (number == 0 || number > line_starts_.size()) return {};
  const std::uint32_t begin = line_starts_[number - 1];
  const std::size_t end = number < line_starts_.size() ? line_starts_[number] - 1 : text_.size();
  std::string_view result = std::string_view(text_).substr(begin, end - begin);
  if (!result.empty() && result.back() == '\r' && number < line_starts_.size()) result.remove_suffix(1);
  return result;
}

const Source& Sources::add(std::string name, std::string text) {
  const FileId id{static_cast<std::uint16_t>(sources_.size())};
  return sources_.emplace_back(id, std::move(name), std::move(text));
}

}  // namespace stk::text
