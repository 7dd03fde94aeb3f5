// The sizes of a pattern as one table, whatever it was put together from: its own rows and rows taken from a library's
// table of measures. Columns are sizes; a Measure has one cell for each of them, so that later phases never count columns,
// or a formula that gives one.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "compiler/syntax/ast.hpp"
#include "compiler/values/quantity.hpp"

namespace stk::names {

struct SizeColumn {
  std::string name;      // "women_m"; empty for the one size of a pattern without sizes
  text::Span span;
  std::string printed;   // "Women M", of the row `printed`; the name itself if there is none
};

struct Measure {
  std::string name;                               // "foot_length"
  text::Span span;                                // of its name where the pattern says it: the row, or the `from` line
  std::vector<const syntax::SizeValue*> cells;    // one a size; null where a value is missing, which has been reported
  const syntax::Expr* formula = nullptr;          // a row that is worked out: it has no cells
  const syntax::Name* unit = nullptr;             // null: plain numbers
  const syntax::Measures* table = nullptr;        // where it was taken from, null for a row of the pattern
  const syntax::TableRow* row = nullptr;
  std::optional<values::Quantity> given;          // one person's measure: stands in for what the table says of `made`
};

// One person's measures stand in for those of a size; whatever else that size says holds on.
struct ToMeasure {
  std::size_t size = 0;
  std::string base;        // how that size is printed otherwise: "Women M"
  bool chosen = false;     // the user named the size; otherwise it is the nearest
};

struct SizesTable {
  std::vector<SizeColumn> columns;                // never empty
  std::vector<Measure> measures;
  text::Span span;                                // of the declaration; empty if the pattern has none
  bool declared = false;                          // false: the pattern is in one unnamed size
  std::optional<ToMeasure> made;                  // then measures may be `given` in that size

  std::size_t size() const { return columns.size(); }
  std::optional<std::size_t> index_of(std::string_view name) const;
};

}  // namespace stk::names
