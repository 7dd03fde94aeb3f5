// One finding as plain data: what happened, where, in which sizes, and how to mend it. Every rendering (text, JSON) is
// made from this and nothing else.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "compiler/text/span.hpp"

namespace stk::findings {

enum class Severity : std::uint8_t { error, warning, note };

enum class Code : std::uint16_t {
#define FINDING(code, slug, severity, title) code,
#define RETIRED(code, why)
#include "compiler/findings/catalog.def"
#undef FINDING
#undef RETIRED
};

struct Label {
  text::Span span;
  std::string text;
};

enum class Confidence : std::uint8_t { certain, likely };  // certain: may be applied unasked; likely: offered and shown

struct Edit {
  text::Span span;
  std::string replacement;
  Confidence confidence = Confidence::likely;
};

// The sizes of one edition that a finding concerns: bit i is column i of the sizes table.
struct Lanes {
  std::uint16_t edition = 0;
  std::uint64_t sizes = 0;
  friend bool operator==(const Lanes&, const Lanes&) = default;
};

struct Finding {
  Code code{};
  Severity severity = Severity::error;
  std::string title;  // one line, lower case, no full stop, nothing that varies from size to size
  text::Span primary;
  std::string primary_label;       // what is shown under the primary span: the facts of the first size concerned
  std::vector<Label> labels;       // further places
  std::vector<std::string> notes;  // facts
  std::vector<std::string> helps;  // how to mend it
  std::vector<Edit> edits;
  std::vector<Lanes> lanes;          // empty: not a matter of sizes
  std::optional<std::uint32_t> row;  // row counter in the first size concerned
  std::string needle;                // "L12", or empty
  bool mirrored = false;             // found only in a mirrored second piece
};

}  // namespace stk::findings
