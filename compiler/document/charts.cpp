#include "compiler/document/charts.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <bit>
#include <map>
#include <optional>
#include <set>
#include <utility>

#include "compiler/document/chart_columns.hpp"
#include "compiler/document/graded.hpp"
#include "compiler/document/setting.hpp"
#include "compiler/document/short_rows.hpp"
#include "compiler/document/words.hpp"

namespace stk::document {

namespace {

using knit::DrawnMove;
using knit::DrawnNeedle;
using knit::SizeSet;
using Position = DrawnNeedle::Position;

// How a row is drawn: lead, one tile, tail. A lead or tail of columns that are all alike may stand for another number
// of them in each size.
struct Layout {
  Repetition model;
  bool lead_runs = false, tail_runs = false;
};
struct Fit {
  std::size_t lead = 0, count = 0, tail = 0;
};

bool all_same(const std::vector<int>& ids, std::size_t from, std::size_t length) {
  return length > 0 &&
         std::all_of(ids.begin() + static_cast<std::ptrdiff_t>(from),
                     ids.begin() + static_cast<std::ptrdiff_t>(from + length), [&](int id) { return id == ids[from]; });
}

bool laid_out(const std::vector<int>& ids, const std::vector<int>& model, const Layout& layout, const Fit& fit) {
  const Repetition& r = layout.model;
  for (std::size_t i = 0; i < ids.size(); ++i) {
    int wanted = 0;
    if (i < fit.lead) {
      wanted = layout.lead_runs ? model[0] : model[i];
    } else if (i < fit.lead + fit.count * r.period) {
      wanted = model[r.lead + (i - fit.lead) % r.period];
    } else {
      wanted = layout.tail_runs ? model.back() : model[model.size() - (ids.size() - i)];
    }
    if (ids[i] != wanted) return false;
  }
  return true;
}

std::optional<Fit> fit(const std::vector<int>& ids, const std::vector<int>& model, const Layout& layout) {
  const Repetition& r = layout.model;
  const std::size_t model_tail = r.tail(model.size());
  const std::size_t most_lead = layout.lead_runs ? ids.size() : r.lead;
  for (std::size_t lead = layout.lead_runs ? 1 : r.lead; lead <= most_lead && lead + r.period <= ids.size(); ++lead) {
    const std::size_t rest = ids.size() - lead;
    for (std::size_t count = rest / r.period; count >= 1; --count) {
      const std::size_t tail = rest - count * r.period;
      if (layout.tail_runs ? tail < 1 : tail != model_tail) continue;
      const Fit found{lead, count, tail};
      if (laid_out(ids, model, layout, found)) return found;
    }
  }
  return std::nullopt;
}

bool carries(const DrawnNeedle& needle) {
  return needle.loops > 0;
}

// lead, one tile and tail of the model, with the moves that begin there.
NeedleChart drawn(const SizeColumns& model, const Layout& layout, bool changes) {
  NeedleChart chart;
  chart.changes = changes;
  const Repetition& r = layout.model;
  const std::size_t size = model.columns.size(), tail = r.tail(size);
  for (std::size_t i = 0; i < (layout.lead_runs ? 1 : r.lead); ++i) add_column(chart, model.columns[i]);
  for (std::size_t i = 0; i < r.period; ++i) add_column(chart, model.columns[r.lead + i]);
  for (std::size_t i = 0; i < (layout.tail_runs ? 1 : tail); ++i) add_column(chart, model.columns[size - tail + i]);
  chart.bare = std::none_of(chart.before.begin(), chart.before.end(), carries) &&
               std::none_of(chart.after.begin(), chart.after.end(), carries);
  return chart;
}

// A row that ends at the last stitch may break off its last tile just before needles out of work: `| | . | |` is two
// tiles of `| | .`. So many of them, on either side, make the drawing shortest.
std::pair<std::size_t, std::size_t> missing_ends(const std::vector<int>& ids, int out) {
  std::pair<std::size_t, std::size_t> best{0, 0};
  const auto drawn_length = [](const std::vector<int>& row) {
    const Repetition r = repetition(row);
    return row.size() - (r.count - 1) * r.period;
  };
  if (ids.empty()) return best;
  std::size_t shortest = drawn_length(ids);
  constexpr std::size_t most = 3;
  for (std::size_t left = 0; left <= most; ++left) {
    for (std::size_t right = 0; right <= most; ++right) {
      std::vector<int> row(left, out);
      row.insert(row.end(), ids.begin(), ids.end());
      row.insert(row.end(), right, out);
      if (const std::size_t length = drawn_length(row); length < shortest) {
        shortest = length;
        best = {left, right};
      }
    }
  }
  return best;
}

std::vector<Mark> key_of(const NeedleChart& chart) {
  std::set<Mark> marks;
  for (const DrawnNeedle& needle : chart.after) marks.insert(mark_of(needle, chart.bare));
  for (const DrawnNeedle& needle : chart.second) marks.insert(mark_of(needle, chart.bare));
  if (chart.changes) {
    for (const DrawnNeedle& needle : chart.before) marks.insert(mark_of(needle, chart.bare));
  }
  if (!chart.moves.empty()) marks.insert(Mark::move);
  return {marks.begin(), marks.end()};
}

std::string needle_words(const DrawnNeedle& needle, bool bare) {
  switch (mark_of(needle, bare)) {
    case Mark::out_of_work:
      return "out of work";
    case Mark::several_loops:
      return fmt::format("{} loops", needle.loops);
    case Mark::empty_in_work:
      return "empty in work";
    case Mark::upper:
      return "in upper working position";
    case Mark::held:
      return "held";
    case Mark::tuck:
      return "set to tuck";
    case Mark::slip:
      return "set to slip";
    default:
      return "in work";
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

Mark mark_of(const DrawnNeedle& needle, bool bare) {
  switch (needle.position) {
    case Position::out:
      return Mark::out_of_work;
    case Position::upper:
      return Mark::upper;
    case Position::hold:
      return Mark::held;
    case Position::tuck:
      return Mark::tuck;
    case Position::slip:
      return Mark::slip;
    case Position::work:
      break;
  }
  if (needle.loops > 1) return Mark::several_loops;
  return needle.loops == 0 && !bare ? Mark::empty_in_work : Mark::in_work;
}

std::string in_words(const NeedleChart& chart) {
  std::string text = fmt::format("Needles from left to right, {} to {}. ", chart.first_needle, chart.last_needle);
  for (const ChartRepeat& repeat : chart.repeats) {
    text += repeat.first == repeat.last
                ? fmt::format("Needle {} of the drawing stands for {}. ", repeat.first + 1, repeat.times)
                : fmt::format("Needles {} to {} of the drawing repeat {} times. ", repeat.first + 1, repeat.last + 1,
                              repeat.times);
  }
  if (chart.changes) text += "Before: " + row_words(chart.before, chart.bare) + ". After: ";
  if (!chart.second.empty()) text += "Second bed: " + row_words(chart.second, chart.bare) + ". Main bed: ";
  if (chart.rows > 0) text += chart.rows == 1 ? "Row 1: " : fmt::format("Rows 1 to {}: ", chart.rows);
  text += row_words(chart.after, chart.bare) + ".";
  for (const DrawnMove& move : chart.moves) {
    const bool right = move.to > move.from;
    const std::int32_t by = right ? move.to - move.from : move.from - move.to;
    text += fmt::format(" The loops of needle {} go {} {} to the {}.", move.from + 1, by,
                        by == 1 ? "needle" : "needles", right ? "right" : "left");
  }
  return text;
}

namespace {

// Tuck and slip stitches are drawn row by row, where all the sizes have as many of these rows.
std::int64_t rows_set(const knit::Step& step, SizeSet sizes) {
  if (step.operation.act != knit::Act::tuck && step.operation.act != knit::Act::slip) return 0;
  constexpr std::int64_t most = 8;
  std::int64_t rows = 0;
  for (std::size_t i = 0; i < step.records.size(); ++i) {
    if (!knit::has(sizes, i)) continue;
    const std::int64_t here = step.records[i].amount;
    if (here > most || (rows != 0 && here != rows)) return 0;
    rows = here;
  }
  return rows;
}

void cut_to(knit::DrawnBed& bed, const knit::NeedleSpan& span) {
  const auto place = [](knit::Needle needle) { return needle.number < 0 ? needle.number : needle.number - 1; };
  const std::int32_t from = place(span.first) - place(bed.first), to = place(span.last) - place(bed.first) + 1;
  if (from < 0 || to > static_cast<std::int32_t>(bed.after.size()) || from >= to) return;
  for (std::vector<DrawnNeedle>* row : {&bed.before, &bed.after, &bed.second}) {
    row->resize(bed.after.size());
    *row = {row->begin() + from, row->begin() + to};
  }
  bed.first = span.first;
}

}  // namespace

std::size_t Charts::add(Chart chart) {
  const auto same = std::find_if(charts_.begin(), charts_.end(), [&](const Chart& other) {
    return other.title == chart.title && other.alternative == chart.alternative && other.sizes == chart.sizes;
  });
  if (same != charts_.end()) return static_cast<std::size_t>(same - charts_.begin());
  chart.number = charts_.size() + 1;
  charts_.push_back(std::move(chart));
  return charts_.size() - 1;
}

// `chosen_only`: of a transfer, the stretch from the first needle it chose to the last.
std::vector<Chart> Charts::pictures_of(const knit::Step& step, SizeSet scope, const std::string& title, bool chosen_only) const {
  std::vector<SizeColumns> sizes;
  std::map<Column, int> known{{Column{}, 0}};  // 0: out of work, before and after
  bool changes = false;
  const bool beds = step.operation.act == knit::Act::transfer;
  for (std::size_t i = 0; i < step.records.size(); ++i) {
    const knit::SizeRecord& record = step.records[i];
    if (!knit::has(scope & step.sizes, i) || record.idle || !record.drawn || record.drawn->after.empty()) continue;
    const bool setting = step.operation.act == knit::Act::set_needles || step.operation.act == knit::Act::tuck ||
                         step.operation.act == knit::Act::slip || beds;
    changes = changes || !record.drawn->moves.empty() || !setting;
    knit::DrawnBed drawn_bed = *record.drawn;
    if (chosen_only) cut_to(drawn_bed, record.needles);
    sizes.push_back({i, drawn_bed.first, beds ? columns_of_beds(drawn_bed) : columns_of(drawn_bed), {}});
    for (const Column& column : sizes.back().columns) {
      sizes.back().ids.push_back(known.emplace(column, static_cast<int>(known.size())).first->second);
    }
  }
  const std::vector<RunChart> by_runs = run_charts(sizes, step.records.size(), printed_);
  std::vector<Chart> found;
  // The widest size shows the repeat best: it is the model of all that fit it; the others get charts of their own.
  while (!sizes.empty()) {
    const auto widest = [&] {
      return std::max_element(sizes.begin(), sizes.end(), [](const SizeColumns& a, const SizeColumns& b) {
        return a.columns.size() < b.columns.size();
      });
    };
    // A setting is drawn as it is set; only a change may be completed.
    const auto [left, right] = changes ? missing_ends(widest()->ids, 0) : std::pair<std::size_t, std::size_t>{};
    for (SizeColumns& size : sizes) {
      size.columns.insert(size.columns.begin(), left, Column{});
      size.columns.insert(size.columns.end(), right, Column{});
      size.ids.insert(size.ids.begin(), left, 0);
      size.ids.insert(size.ids.end(), right, 0);
      size.first.number = moved_by(size.first.number, -static_cast<std::int64_t>(left));
    }
    const SizeColumns model = *widest();
    const Repetition r = repetition(model.ids);
    const auto fitting = [&](const Layout& layout) {
      return std::count_if(sizes.begin(), sizes.end(),
                           [&](const SizeColumns& size) { return fit(size.ids, model.ids, layout).has_value(); });
    };
    Layout layout{r, false, false};
    const bool lead = all_same(model.ids, 0, r.lead),
               tail = all_same(model.ids, model.ids.size() - r.tail(model.ids.size()), r.tail(model.ids.size()));
    for (const Layout& other : {Layout{r, false, tail}, Layout{r, lead, false}, Layout{r, lead, tail}}) {
      if (fitting(other) > fitting(layout)) layout = other;
    }
    SizeSet served = 0;
    PerSize leads(step.records.size()), times(leads), tails(leads), first(leads), last(leads);
    std::vector<SizeColumns> rest;
    for (SizeColumns& size : sizes) {
      const std::optional<Fit> fits = fit(size.ids, model.ids, layout);
      if (!fits) {
        size.columns.erase(size.columns.begin(), size.columns.begin() + static_cast<std::ptrdiff_t>(left));
        size.columns.erase(size.columns.end() - static_cast<std::ptrdiff_t>(right), size.columns.end());
        size.ids.erase(size.ids.begin(), size.ids.begin() + static_cast<std::ptrdiff_t>(left));
        size.ids.erase(size.ids.end() - static_cast<std::ptrdiff_t>(right), size.ids.end());
        size.first.number = moved_by(size.first.number, static_cast<std::int64_t>(left));
        rest.push_back(std::move(size));
        continue;
      }
      served |= SizeSet{1} << size.size;
      leads[size.size] = fmt::format("{}", fits->lead);
      times[size.size] = fmt::format("{}", fits->count);
      tails[size.size] = fmt::format("{}", fits->tail);
      first[size.size] = needle_name(size.first.number);
      last[size.size] = needle_name(moved_by(size.first.number, static_cast<std::int64_t>(size.ids.size()) - 1));
    }
    Chart chart;
    chart.title = title;
    if (served != printed_) chart.sizes = size_list(served, facts_.sizes);
    NeedleChart picture = drawn(model, layout, changes);
    picture.rows = rows_set(step, served);
    if (beds) picture.second = std::exchange(picture.before, picture.after);
    const auto add_repeat = [&](std::size_t from, std::size_t length, const PerSize& counts) {
      const std::string text = graded(counts, printed_, served);
      if (text != "1") picture.repeats.push_back({from, from + length - 1, text});
    };
    const std::size_t drawn_lead = layout.lead_runs ? 1 : r.lead;
    if (layout.lead_runs) add_repeat(0, 1, leads);
    add_repeat(drawn_lead, r.period, times);
    if (layout.tail_runs) add_repeat(drawn_lead + r.period, 1, tails);
    picture.first_needle = graded(first, printed_, served);
    picture.last_needle = graded(last, printed_, served);
    chart.picture = std::move(picture);
    found.push_back(std::move(chart));
    sizes = std::move(rest);
  }
  if (changes && by_runs.size() < found.size()) {   // one change somewhere in the work, and no repeat
    found.clear();
    for (const RunChart& run : by_runs) {
      Chart chart;
      chart.title = title;
      if (run.served != printed_) chart.sizes = size_list(run.served, facts_.sizes);
      chart.picture = run.picture;
      found.push_back(std::move(chart));
    }
  }
  return found;
}

std::vector<std::size_t> Charts::of_step(const knit::Step& step, SizeSet scope, const std::string& title) {
  std::vector<Chart> found = pictures_of(step, scope, title, false);
  if (step.operation.act == knit::Act::transfer) {
    // A rib beside plain fabric is two patterns in one row: the rib alone is drawn, or nothing where that is no help either.
    constexpr std::size_t widest = 16;
    const auto helps = [&] {
      return found.size() == 1 && std::get<NeedleChart>(found.front().picture).after.size() <= widest;
    };
    if (!helps()) found = pictures_of(step, scope, title, true);
    if (!helps()) return {};
  }
  std::vector<std::size_t> made;
  for (Chart& chart : found) {
    const auto& picture = std::get<NeedleChart>(chart.picture);
    chart.key = key_of(picture);
    chart.alternative = in_words(picture);
    made.push_back(add(std::move(chart)));
  }
  return made;
}

// One tile of each bed, as it is written.
std::size_t Charts::of_two_beds(const knit::Step& step, SizeSet scope) {
  const knit::Operation& o = step.operation;
  NeedleChart picture;
  picture.bare = true;
  const auto drawn = [](bool in_work) {
    return DrawnNeedle{in_work ? Position::work : Position::out, 0, false};
  };
  const std::size_t width = std::max(o.tile.size(), o.second_tile.size());
  for (std::size_t i = 0; i < width; ++i) {
    picture.after.push_back(drawn(o.tile[i % o.tile.size()]));
    picture.second.push_back(drawn(o.second_tile[i % o.second_tile.size()]));
  }
  picture.before = picture.after;
  PerSize times(step.records.size()), first(times), last(times);
  for (std::size_t i = 0; i < step.records.size(); ++i) {
    if (!knit::has(scope & step.sizes, i)) continue;
    const knit::NeedleSpan& span = step.records[i].needles;
    const auto place = [](std::int32_t number) { return number < 0 ? number : number - 1; };
    const std::int64_t wide = place(span.last.number) - place(span.first.number) + 1;
    times[i] = fmt::format("{}", (wide + static_cast<std::int64_t>(width) - 1) / static_cast<std::int64_t>(width));
    first[i] = needle_name(span.first.number);
    last[i] = needle_name(span.last.number);
  }
  picture.repeats.push_back({0, width - 1, graded(times, printed_, scope)});
  picture.first_needle = graded(first, printed_, scope);
  picture.last_needle = graded(last, printed_, scope);
  Chart chart;
  chart.title = "Needle setting of both beds";
  if (scope != printed_) chart.sizes = size_list(scope & printed_, facts_.sizes);
  chart.key = key_of(picture);
  chart.alternative = in_words(picture);
  chart.picture = std::move(picture);
  return add(std::move(chart));
}

std::optional<std::size_t> Charts::of_short_rows(const knit::Step& technique, SizeSet scope, const std::string& title) {
  const SizeSet here = scope & printed_;
  if (here == 0) return std::nullopt;
  const auto size = static_cast<std::size_t>(std::countr_zero(here));
  std::optional<ShortRowChart> picture = short_row_chart(technique.steps, size);
  if (!picture) return std::nullopt;
  Chart chart;
  chart.title = capitalised(title);
  if (std::popcount(here) > 1) {
    chart.title += fmt::format(", drawn for {}; the other sizes go the same way",
                               size_list(SizeSet{1} << size, facts_.sizes));
  }
  chart.alternative = in_words(*picture);
  chart.picture = std::move(*picture);
  return add(std::move(chart));
}

std::size_t Charts::of_colours(const knit::Step& step, SizeSet scope, const std::string& ground, const std::string& second) {
  const knit::Operation& operation = step.operation;
  ColourChart picture;
  PerSize columns[2], needles[2];
  for (PerSize* all : {columns, columns + 1, needles, needles + 1}) all->resize(step.records.size());
  for (std::size_t i = 0; i < step.records.size(); ++i) {
    if (!knit::has(scope & step.sizes, i)) continue;
    const knit::SizeRecord& record = step.records[i];
    columns[0][i] = fmt::format("{}", record.target);
    columns[1][i] = fmt::format("{}", record.second_amount);
    needles[0][i] = needle_name(record.needles.first.number);
    needles[1][i] = needle_name(record.needles.last.number);
  }
  // Its title names the sizes it is for: their numbers follow in that order, without a dash for each of the others.
  const SizeSet here = scope & printed_;
  picture.first_column = graded(columns[0], here, here);
  picture.last_column = graded(columns[1], here, here);
  picture.first_needle = graded(needles[0], here, here);
  picture.last_needle = graded(needles[1], here, here);
  picture.rows = operation.chart;
  if (operation.chart_marks.size() >= 2) {
    picture.ground = operation.chart_marks[0];
    picture.second = operation.chart_marks[1];
  }
  picture.ground_yarn = ground;
  picture.second_yarn = second;
  Chart chart;
  const std::string name = operation.edges.empty() ? "colours" : words_of(operation.edges.front());
  chart.title = fmt::format("{}, {} and {}", capitalised(name), ground, second);
  if (!operation.from.empty()) {
    const bool purl = operation.from.find("purl") != std::string::npos;
    chart.title += fmt::format(", seen from the {} side", purl ? "purl" : "knit");
  }
  if (scope != printed_) chart.sizes = size_list(scope & printed_, facts_.sizes);
  chart.alternative =
      fmt::format("{} rows, the first to be knitted first; columns from left to right. ", picture.rows.size());
  for (std::size_t row = 0; row < picture.rows.size(); ++row) {
    chart.alternative += fmt::format("Row {}: ", row + 1);
    const std::string& marks = picture.rows[row];
    for (std::size_t i = 0; i < marks.size();) {
      std::size_t end = i;
      while (end < marks.size() && marks[end] == marks[i]) ++end;
      chart.alternative +=
          fmt::format("{}{} {}", i == 0 ? "" : ", ", end - i, marks[i] == picture.second ? second : ground);
      i = end;
    }
    chart.alternative += ". ";
  }
  chart.alternative += fmt::format("The left end needle has column {}, the right end needle column {}.", picture.first_column,
                                   picture.last_column);
  chart.picture = std::move(picture);
  return add(std::move(chart));
}

}  // namespace stk::document
