#include "compiler/document/charts.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <map>
#include <optional>
#include <set>

#include "compiler/document/graded.hpp"
#include "compiler/document/setting.hpp"
#include "compiler/document/words.hpp"

namespace stk::document {

namespace {

using knit::DrawnBed;
using knit::DrawnMove;
using knit::DrawnNeedle;
using knit::SizeSet;
using Position = DrawnNeedle::Position;

// What is drawn at one needle: how it was, how it is, and where its loops go.
struct Column {
  DrawnNeedle before, after;
  std::vector<std::int32_t> moves;   // to the needle so many places to the right

  auto key() const {
    return std::make_tuple(before.position, before.loops, before.eyelet, after.position, after.loops, after.eyelet, moves);
  }
  bool operator<(const Column& c) const { return key() < c.key(); }
};

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

struct SizeColumns {
  std::size_t size = 0;
  std::vector<Column> columns;
  std::vector<int> ids;
  Repetition repetition;
};

bool carries(const DrawnNeedle& needle) { return needle.loops > 0; }

// lead, one tile and tail of the model, with the moves that begin there.
NeedleChart drawn(const SizeColumns& model, bool changes) {
  NeedleChart chart;
  chart.changes = changes;
  const Repetition& r = model.repetition;
  const std::size_t end_of_tile = r.lead + r.period, skipped = r.period * (r.count - 1);
  for (std::size_t i = 0; i < model.columns.size(); ++i) {
    if (i >= end_of_tile && i < end_of_tile + skipped) continue;
    const Column& column = model.columns[i];
    const auto at = static_cast<std::int32_t>(chart.after.size());
    chart.before.push_back(column.before);
    chart.after.push_back(column.after);
    for (const std::int32_t by : column.moves) chart.moves.push_back({at, at + by});
  }
  chart.repeats = r.count > 1;
  chart.first_repeated = r.lead;
  chart.last_repeated = end_of_tile - 1;
  chart.bare = std::none_of(chart.before.begin(), chart.before.end(), carries) &&
               std::none_of(chart.after.begin(), chart.after.end(), carries);
  return chart;
}

Mark mark_of(const DrawnNeedle& needle, bool bare) {
  switch (needle.position) {
    case Position::out: return Mark::out_of_work;
    case Position::upper: return Mark::upper;
    case Position::hold: return Mark::held;
    case Position::work: break;
  }
  if (needle.loops > 1) return Mark::several_loops;
  return needle.loops == 0 && !bare ? Mark::empty_in_work : Mark::in_work;
}

std::vector<Mark> key_of(const NeedleChart& chart) {
  std::set<Mark> marks;
  for (const DrawnNeedle& needle : chart.after) marks.insert(mark_of(needle, chart.bare));
  if (chart.changes) {
    for (const DrawnNeedle& needle : chart.before) marks.insert(mark_of(needle, chart.bare));
  }
  if (!chart.moves.empty()) marks.insert(Mark::move);
  return {marks.begin(), marks.end()};
}

std::string needle_words(const DrawnNeedle& needle, bool bare) {
  switch (mark_of(needle, bare)) {
    case Mark::out_of_work: return "out of work";
    case Mark::several_loops: return fmt::format("{} loops", needle.loops);
    case Mark::empty_in_work: return "empty in work";
    case Mark::upper: return "in upper working position";
    case Mark::held: return "held";
    default: return "in work";
  }
}

// "2 in work, 1 out of work": neighbours that are alike are counted.
std::string row_words(const std::vector<DrawnNeedle>& row, bool bare) {
  std::string text;
  for (std::size_t i = 0; i < row.size();) {
    std::size_t end = i;
    while (end < row.size() && row[end] == row[i]) ++end;
    const std::string what = needle_words(row[i], bare);
    text += text.empty() ? "" : ", ";
    const bool loops = what.find("loops") != std::string::npos;
    text += loops ? fmt::format("{} with {}", end - i, what) : fmt::format("{} {}", end - i, what);
    i = end;
  }
  return text;
}

}  // namespace

std::string in_words(const NeedleChart& chart) {
  std::string text = fmt::format("Needles from left to right, {} to {}. ", chart.first_needle, chart.last_needle);
  if (chart.repeats) {
    const std::size_t period = chart.last_repeated - chart.first_repeated + 1;
    text += period == 1 ? fmt::format("Needle {} of the drawing stands for {}. ", chart.first_repeated + 1, chart.times)
                        : fmt::format("Needles {} to {} of the drawing repeat {} times. ", chart.first_repeated + 1,
                                      chart.last_repeated + 1, chart.times);
  }
  if (chart.changes) text += "Before: " + row_words(chart.before, chart.bare) + ". After: ";
  text += row_words(chart.after, chart.bare) + ".";
  for (const DrawnMove& move : chart.moves) {
    const bool right = move.to > move.from;
    const std::int32_t by = right ? move.to - move.from : move.from - move.to;
    text += fmt::format(" The loops of needle {} go {} {} to the {}.", move.from + 1, by, by == 1 ? "needle" : "needles",
                        right ? "right" : "left");
  }
  return text;
}

std::size_t Charts::add(Chart chart) {
  const auto same = std::find_if(charts_.begin(), charts_.end(), [&](const Chart& other) {
    return other.title == chart.title && other.alternative == chart.alternative && other.sizes == chart.sizes;
  });
  if (same != charts_.end()) return static_cast<std::size_t>(same - charts_.begin());
  chart.number = charts_.size() + 1;
  charts_.push_back(std::move(chart));
  return charts_.size() - 1;
}

std::vector<std::size_t> Charts::of_step(const knit::Step& step, SizeSet scope, const std::string& title) {
  std::vector<SizeColumns> sizes;
  std::map<Column, int> known;
  bool changes = false;
  for (std::size_t i = 0; i < step.records.size(); ++i) {
    const knit::SizeRecord& record = step.records[i];
    if (!knit::has(scope & step.sizes, i) || record.idle || !record.drawn || record.drawn->after.empty()) continue;
    changes = changes || !record.drawn->moves.empty() || step.operation.act != knit::Act::set_needles;
    sizes.push_back({i, columns_of(*record.drawn), {}, {}});
    for (const Column& column : sizes.back().columns) {
      sizes.back().ids.push_back(known.emplace(column, static_cast<int>(known.size())).first->second);
    }
  }
  std::vector<std::size_t> made;
  // The widest size shows the repeat best: it is the model of all that fit it; the others get charts of their own.
  while (!sizes.empty()) {
    const auto widest = std::max_element(sizes.begin(), sizes.end(), [](const SizeColumns& a, const SizeColumns& b) {
      return a.columns.size() < b.columns.size();
    });
    SizeColumns model = *widest;
    model.repetition = repetition(model.ids);
    SizeSet served = 0;
    PerSize times(step.records.size()), first(step.records.size()), last(step.records.size());
    std::vector<SizeColumns> rest;
    for (SizeColumns& size : sizes) {
      const auto fits = repetition_like(size.ids, model.ids, model.repetition);
      if (!fits) {
        rest.push_back(std::move(size));
        continue;
      }
      served |= SizeSet{1} << size.size;
      const knit::DrawnBed& bed = *step.records[size.size].drawn;
      times[size.size] = fmt::format("{}", fits->count);
      first[size.size] = needle_name(bed.first.number);
      // There is no needle 0 between L1 and R1.
      std::int32_t end = bed.first.number + static_cast<std::int32_t>(size.columns.size()) - 1;
      if (bed.first.number < 0 && end >= 0) ++end;
      last[size.size] = needle_name(end);
    }
    Chart chart;
    chart.title = title;
    if (served != printed_) chart.sizes = size_list(served, facts_.sizes);
    NeedleChart picture = drawn(model, changes);
    picture.times = graded(times, printed_, served);
    picture.first_needle = graded(first, printed_, served);
    picture.last_needle = graded(last, printed_, served);
    // One tile in every size is no repeat; in some sizes only, it is.
    if (picture.repeats && picture.times == "1") picture.repeats = false;
    chart.key = key_of(picture);
    chart.alternative = in_words(picture);
    chart.picture = std::move(picture);
    made.push_back(add(std::move(chart)));
    sizes = std::move(rest);
  }
  return made;
}

}  // namespace stk::document
