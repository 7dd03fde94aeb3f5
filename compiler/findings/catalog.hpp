// The catalogue of findings: one declared table (catalog.def), looked up by code, and the page of each code.
#pragma once

#include <optional>
#include <string_view>

#include "compiler/findings/finding.hpp"

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
  std::string_view name;       // "C04"
  std::string_view slug;       // "uneven_groups"
  Severity severity;
  std::string_view title;
};

const CatalogEntry& entry(Code code);
std::optional<Code> find_code(std::string_view code_or_slug);   // "C04", "c04" or "uneven_groups"
std::string_view explanation(Code code);                        // explain/C04.md, embedded when building

}  // namespace stk::findings
