#include "compiler/document/short_rows.hpp"

#include <fmt/core.h>

#include <algorithm>

#include "compiler/document/words.hpp"

namespace stk::document {

namespace {

using knit::Act;
using knit::Step;

struct Row {
  std::int64_t counter = 0;
  std::int32_t first = 0, last = 0;  // places: needle numbers without a gap where 0 would be
  bool to_right = true, held = false;
  std::vector<std::int32_t> wrapped;
};

std::int32_t place(knit::Needle needle) {
  return needle.number < 0 ? needle.number : needle.number - 1;
}
std::int32_t needle_at(std::int32_t place) {
  return place < 0 ? place : place + 1;
}

void collect(const std::vector<Step>& steps, std::size_t size, std::vector<Row>& rows) {
  for (const Step& step : steps) {
    if (!knit::has(step.sizes, size) || step.kind == Step::Kind::technique) continue;
    if (step.kind == Step::Kind::repeat) {
      const std::size_t turns = static_cast<std::size_t>(std::max<std::int64_t>(0, step.records[size].amount));
      for (std::size_t turn = 0; turn < std::min(turns, step.turns.size()); ++turn) collect(step.turns[turn], size, rows);
      continue;
    }
    if (step.kind != Step::Kind::operation) {
      collect(step.steps, size, rows);
      continue;
    }
    const knit::SizeRecord& record = step.records[size];
    const bool knits = step.operation.act == Act::knit || step.operation.act == Act::knit_to_row;
    if (knits && !record.idle && record.before.working.first.number != 0) {
      for (std::int64_t k = 0; k < record.amount; ++k) {
        const bool from_left = (record.before.carriage == knit::Side::left) == (k % 2 == 0);
        rows.push_back({record.before.row_counter + k + 1, place(record.before.working.first),
                        place(record.before.working.last), from_left, record.before.held > 0, {}});
      }
    } else if (step.operation.act == Act::wrap && !record.idle && !rows.empty() && record.needles.first.number != 0) {
      for (std::int32_t at = place(record.needles.first); at <= place(record.needles.last); ++at)
        rows.back().wrapped.push_back(at);
    }
  }
}

}  // namespace

std::optional<ShortRowChart> short_row_chart(const std::vector<Step>& steps, std::size_t size) {
  std::vector<Row> rows;
  collect(steps, size, rows);
  constexpr std::size_t fewest = 4, most = 400;
  if (rows.size() < fewest || rows.size() > most) return std::nullopt;
  bool short_rows = false;
  std::int32_t first = rows.front().first, last = rows.front().last;
  for (const Row& row : rows) {
    short_rows = short_rows || (row.held && (row.first != rows.front().first || row.last != rows.front().last));
    first = std::min(first, row.first);
    last = std::max(last, row.last);
    for (const std::int32_t at : row.wrapped) {
      first = std::min(first, at);
      last = std::max(last, at);
    }
  }
  if (!short_rows) return std::nullopt;
  ShortRowChart chart;
  const auto column = [&](std::int32_t at) { return static_cast<std::size_t>(at - first); };
  chart.columns = column(last) + 1;
  chart.first_needle = needle_name(needle_at(first));
  chart.last_needle = needle_name(needle_at(last));
  for (const Row& row : rows) {
    ShortRow drawn{row.counter, column(row.first), column(row.last), row.to_right, {}};
    for (const std::int32_t at : row.wrapped) drawn.wrapped.push_back(column(at));
    chart.rows.push_back(std::move(drawn));
  }
  return chart;
}

std::string in_words(const ShortRowChart& chart) {
  std::string text = fmt::format("{} rows over needles {} to {}, the first to be knitted first. ", chart.rows.size(),
                                 chart.first_needle, chart.last_needle);
  for (const ShortRow& row : chart.rows) {
    text += fmt::format("RC {}: {} sts knit, from {} to {} of the drawing{}. ", row.counter, row.last - row.first + 1,
                        (row.to_right ? row.first : row.last) + 1, (row.to_right ? row.last : row.first) + 1,
                        row.wrapped.empty() ? "" : fmt::format("; wrap {}", row.wrapped.front() + 1));
  }
  text.pop_back();
  return text;
}

}  // namespace stk::document
