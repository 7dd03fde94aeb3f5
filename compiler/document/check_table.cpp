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

SectionEnd section_end(const std::string& title, const States& states, const States& before_off) {
  SectionEnd end{title, PerSize(states.size()), PerSize(states.size())};
  const auto cell = [](const std::optional<knit::MachineState>& state) -> std::optional<std::string> {
    if (!state || state->stitches == 0) return std::nullopt;
    return kept_together(fmt::format("{} {} {} {}", counter_digits(state->row_counter), carriage_word(state->carriage), state->stitches,
                                     span_name(state->span)));
  };
  for (std::size_t i = 0; i < states.size(); ++i) {
    end.stands[i] = cell(states[i]);
    if (i < before_off.size()) end.before_off[i] = cell(before_off[i]);
  }
  return end;
}

namespace {

std::vector<SectionEnd> columns_of(const std::vector<SectionEnd>& ends) {
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
  return columns;
}

}  // namespace

std::optional<Table> check_table(const std::vector<SectionEnd>& ends, const std::vector<knit::SizeName>& sizes,
                                 knit::SizeSet printed) {
  if (std::popcount(printed) < worth_a_table) return std::nullopt;
  std::vector<SectionEnd> columns = columns_of(ends);
  if (columns.size() == 1) {
    std::vector<SectionEnd> up_to_the_end = ends;
    for (SectionEnd& end : up_to_the_end) {
      for (std::size_t i = 0; i < end.stands.size(); ++i) {
        if (!end.stands[i]) end.stands[i] = end.before_off[i];
      }
    }
    columns = columns_of(up_to_the_end);
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
