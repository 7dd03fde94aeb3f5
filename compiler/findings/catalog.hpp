// The catalogue of findings: one declared table (catalog.def), looked up by code, and the page of each code.
#pragma once

#include <optional>
#include <span>
#include <string_view>

#include "compiler/findings/finding.hpp"
#include "compiler/text/embedded.hpp"

namespace stk::findings {

// The title of a code as a format string, for compile-time checks in Findings::report.
template <Code C>
consteval const char* title_of() {
  switch (C) {
#define FINDING(code, slug, severity, title) \
  case Code::code:                           \
    return title;
#define RETIRED(code, why)
#include "compiler/findings/catalog.def"
#undef FINDING
#undef RETIRED
  }
  return "";
}

struct CatalogEntry {
  Code code;
  std::string_view name;  // "C04"
  std::string_view slug;  // "uneven_groups"
  Severity severity;
  std::string_view title;
};

struct RetiredCode {  // a code that was used once and will not come again
  std::string_view name;
  std::string_view why;
};

const CatalogEntry& entry(Code code);
std::span<const CatalogEntry> catalog();  // every code in use, in the table's order
std::span<const RetiredCode> retired_codes();
std::optional<Code> find_code(std::string_view code_or_slug);  // "C04", "c04" or "uneven_groups"
std::string_view explanation(Code code);                       // explain/C04.md, embedded when building; empty if none
std::span<const text::EmbeddedFile> explain_pages();           // all of them, by name (written when building)

}  // namespace stk::findings
