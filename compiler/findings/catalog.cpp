#include "compiler/findings/catalog.hpp"

#include <algorithm>
#include <cctype>
#include <cstddef>
#include <iterator>
#include <string>

namespace stk::findings {
namespace {

constexpr Severity error = Severity::error;
[[maybe_unused]] constexpr Severity warning = Severity::warning;
[[maybe_unused]] constexpr Severity note = Severity::note;

// In the order of Code, so that a code is an index.
constexpr CatalogEntry table[] = {
#define FINDING(code, slug, severity, title) {Code::code, #code, #slug, severity, title},
#define RETIRED(code, why)
#include "compiler/findings/catalog.def"
#undef FINDING
#undef RETIRED
};

constexpr RetiredCode retired_table[] = {
#define FINDING(code, slug, severity, title)
#define RETIRED(code, why) {#code, why},
#include "compiler/findings/catalog.def"
#undef FINDING
#undef RETIRED
    {"", ""}};  // an array may not be empty

bool same_ignoring_case(std::string_view a, std::string_view b) {
  return std::equal(a.begin(), a.end(), b.begin(), b.end(),
                    [](unsigned char x, unsigned char y) { return std::tolower(x) == std::tolower(y); });
}

}  // namespace

const CatalogEntry& entry(Code code) {
  return table[static_cast<std::size_t>(code)];
}

std::span<const CatalogEntry> catalog() {
  return table;
}

std::span<const RetiredCode> retired_codes() {
  return std::span<const RetiredCode>(retired_table).first(std::size(retired_table) - 1);
}

std::optional<Code> find_code(std::string_view code_or_slug) {
  for (const CatalogEntry& candidate : table) {
    if (same_ignoring_case(candidate.name, code_or_slug) || same_ignoring_case(candidate.slug, code_or_slug)) {
      return candidate.code;
    }
  }
  return std::nullopt;
}

std::string_view explanation(Code code) {
  const std::string_view name = entry(code).name;
  for (const text::EmbeddedFile& page : explain_pages()) {
    if (page.name == name) return page.text;
  }
  return {};
}

}  // namespace stk::findings
