#include "compiler/document/chart_columns.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <map>
#include <utility>

#include "compiler/document/words.hpp"

namespace stk::document {

using knit::DrawnBed;
using knit::DrawnMove;
using knit::SizeSet;

std::vector<Column> columns_of(const DrawnBed& bed) {
  std::vector<Column> columns(std::min(bed.before.size(), bed.after.size()));
  for (std::size_t i = 0; i < columns.size(); ++i) columns[i] = {bed.before[i], bed.after[i], {}};
  for (const DrawnMove& move : bed.moves) {
    if (move.from >= 0 && static_cast<std::size_t>(move.from) < columns.size()) {
      columns[static_cast<std::size_t>(move.from)].moves.push_back(move.to - move.from);
    }
  }
  for (Column& column : columns) std::sort(column.moves.begin(), column.moves.end());
  return columns;
}

std::vector<Column> columns_of_beds(const DrawnBed& bed) {
  std::vector<Column> columns(std::min(bed.second.size(), bed.after.size()));
  for (std::size_t i = 0; i < columns.size(); ++i) columns[i] = {bed.second[i], bed.after[i], {}};
  return columns;
}

void add_column(NeedleChart& chart, const Column& column) {
  const auto at = static_cast<std::int32_t>(chart.after.size());
  chart.before.push_back(column.before);
  chart.after.push_back(column.after);
  for (const std::int32_t by : column.moves) chart.moves.push_back({at, at + by});
}

std::int32_t moved_by(std::int32_t needle, std::int64_t by) {  // there is no needle 0 between L1 and R1
  const std::int64_t place = (needle < 0 ? needle : needle - 1) + by;
  return static_cast<std::int32_t>(place < 0 ? place : place + 1);
}

namespace {

struct Run {
  int id = 0;
  std::size_t length = 1;
  bool changes = false;
};

std::vector<Run> runs_of(const SizeColumns& size) {
  std::vector<Run> runs;
  for (std::size_t i = 0; i < size.ids.size(); ++i) {
    if (!runs.empty() && runs.back().id == size.ids[i]) {
      ++runs.back().length;
    } else {
      runs.push_back({size.ids[i], 1, size.columns[i].changes()});
    }
  }
  return runs;
}

// Sizes of one chart: the same runs in the same order, those that change of the same length.
std::vector<std::pair<int, std::size_t>> likeness(const std::vector<Run>& runs) {
  std::vector<std::pair<int, std::size_t>> key;
  for (const Run& run : runs) key.emplace_back(run.id, run.changes ? run.length : 0);
  return key;
}

bool carries(const knit::DrawnNeedle& needle) {
  return needle.loops > 0;
}

RunChart drawn(const std::vector<const SizeColumns*>& alike, std::size_t all_sizes, SizeSet printed) {
  RunChart chart;
  std::vector<std::vector<Run>> runs;
  for (const SizeColumns* size : alike) {
    chart.served |= SizeSet{1} << size->size;
    runs.push_back(runs_of(*size));
  }
  constexpr std::size_t drawn_one_by_one = 3;
  std::size_t at = 0;   // the column of the first size
  for (std::size_t k = 0; k < runs.front().size(); ++k) {
    const Run& model = runs.front()[k];
    const bool equal = std::all_of(runs.begin(), runs.end(),
                                   [&](const std::vector<Run>& other) { return other[k].length == model.length; });
    const bool whole = model.changes || (equal && model.length <= drawn_one_by_one);
    const std::size_t first = chart.picture.after.size();
    for (std::size_t i = 0; i < (whole ? model.length : 1); ++i) add_column(chart.picture, alike.front()->columns[at + i]);
    if (!whole) {
      PerSize times(all_sizes);
      for (std::size_t s = 0; s < alike.size(); ++s) times[alike[s]->size] = fmt::format("{}", runs[s][k].length);
      if (const std::string text = graded(times, printed, chart.served); text != "1") {
        chart.picture.repeats.push_back({first, first, text});
      }
    }
    at += model.length;
  }
  chart.picture.changes = true;
  chart.picture.bare = std::none_of(chart.picture.before.begin(), chart.picture.before.end(), carries) &&
                       std::none_of(chart.picture.after.begin(), chart.picture.after.end(), carries);
  PerSize left(all_sizes), right(all_sizes);
  for (const SizeColumns* size : alike) {
    left[size->size] = needle_name(size->first.number);
    right[size->size] =
        needle_name(moved_by(size->first.number, static_cast<std::int64_t>(size->columns.size()) - 1));
  }
  chart.picture.first_needle = graded(left, printed, chart.served);
  chart.picture.last_needle = graded(right, printed, chart.served);
  return chart;
}

}  // namespace

std::vector<RunChart> run_charts(const std::vector<SizeColumns>& sizes, std::size_t all_sizes, SizeSet printed) {
  std::vector<std::pair<std::vector<std::pair<int, std::size_t>>, std::vector<const SizeColumns*>>> groups;
  for (const SizeColumns& size : sizes) {
    const auto key = likeness(runs_of(size));
    const auto same = std::find_if(groups.begin(), groups.end(), [&](const auto& group) { return group.first == key; });
    if (same != groups.end()) {
      same->second.push_back(&size);
    } else {
      groups.push_back({key, {&size}});
    }
  }
  std::vector<RunChart> charts;
  for (const auto& [key, alike] : groups) charts.push_back(drawn(alike, all_sizes, printed));
  return charts;
}

}  // namespace stk::document
