// One source file: its name, its text, and the only place that knows lines and columns.
#pragma once

#include <cstdint>
#include <deque>
#include <string>
#include <string_view>
#include <vector>

#include "compiler/text/span.hpp"

namespace stk::text {

struct Position {
  std::uint32_t line = 1;     // from 1
  std::uint32_t column = 1;   // from 1, in code points
};

class Source {
 public:
  Source(FileId id, std::string name, std::string text);

  FileId id() const { return id_; }
  const std::string& name() const { return name_; }   // as the user wrote it, or <library>/heels.stk
  std::string_view text() const { return text_; }
  std::string_view text(Span span) const;

  Position position(std::uint32_t byte) const;
  std::uint32_t utf16_column(std::uint32_t byte) const;          // from 0, as editors count
  std::string_view line(std::uint32_t number) const;             // without its end; empty beyond the last
  std::uint32_t line_count() const { return static_cast<std::uint32_t>(line_starts_.size()); }

 private:
  FileId id_;
  std::string name_;
  std::string text_;
  std::vector<std::uint32_t> line_starts_;
};

// Every source that one run has read; a FileId is an index into it, and references stay good while it grows.
class Sources {
 public:
  const Source& add(std::string name, std::string text);
  const Source& operator[](FileId id) const { return sources_[id.value]; }
  std::size_t size() const { return sources_.size(); }

 private:
  std::deque<Source> sources_;
};

}  // namespace stk::text
