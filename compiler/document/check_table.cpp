#include "compiler/document/check_table.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <bit>

#include "compiler/document/words.hpp"

namespace stk::document {

namespace {

constexpr int worth_a_table = 5;   // sizes

bool apart(const SectionEnd& a, const SectionEnd& b) {
  for (std::size_t i = 0; i < a.stands.size() && i < b.stands.size(); ++i) {
    if (a.stands[i] && b.stands[i]) return false;
  }
  return true;
}

}  // namespace

SectionEnd section_end(const std::string& title, const std::vector<std::optional<knit::MachineState>>& states) {
  SectionEnd end{title, PerSize(states.size())};
  for (std::size_t i = 0; i < states.size(); ++i) {
    const std::optional<knit::MachineState>& state = states[i];
    if (!state || state->stitches == 0) continue;
    end.stands[i] = kept_together(fmt::format("{} {} {} {}", counter_digits(state->row_counter), carriage_word(state->carriage),
                                              state->stitches, span_name(state->span)));
  }
  return end;
}

std::optional<Table> check_table(const std::vector<SectionEnd>& ends, const std::vector<knit::SizeName>& sizes,
                                 knit::SizeSet printed) {
  if (std::popcount(printed) < worth_a_table) return std::nullopt;
  std::vector<SectionEnd> columns;
  for (const SectionEnd& end : ends) {
    if (std::none_of(end.stands.begin(), end.stands.end(), [](const auto& cell) { return cell.has_value(); })) continue;
    if (!columns.empty() && columns.back().stands == end.stands) continue;   // a slot, say: nothing moved on
    const auto same = std::find_if(columns.begin(), columns.end(),
                                   [&](const SectionEnd& other) { return other.title == end.title && apart(other, end); });
    if (same == columns.end()) {
      columns.push_back(end);
      continue;
    }
    for (std::size_t i = 0; i < end.stands.size(); ++i) {
      if (end.stands[i]) same->stands[i] = end.stands[i];
    }
  }
  if (columns.size() < 2) return std::nullopt;   // one is read where it stands
  Table table;
  table.columns.push_back("Size");
  for (const SectionEnd& column : columns) table.columns.push_back(column.title);
  for (std::size_t i = 0; i < sizes.size(); ++i) {
    if (!knit::has(printed, i)) continue;
    std::vector<std::string> row{kept_together(sizes[i].printed.empty() ? words_of(sizes[i].name) : sizes[i].printed)};
    for (const SectionEnd& column : columns) row.push_back(column.stands[i].value_or("-"));
    table.rows.push_back(std::move(row));
  }
  return table;
}

}  // namespace stk::document
