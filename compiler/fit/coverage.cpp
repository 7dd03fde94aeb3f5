#include "compiler/fit/coverage.hpp"

#include <algorithm>
#include <charconv>
#include <map>
#include <tuple>

#include "compiler/fit/usual.hpp"

namespace stk::fit {
namespace {

std::optional<std::int64_t> whole(std::string_view text) {
  std::int64_t value = 0;
  const auto [stop, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc() || stop != text.data() + text.size()) return std::nullopt;
  return value;
}

// The feet for which a sock of this measure has an ease between the two: ease = (sock - foot) / foot.
std::optional<Range> feet_for(const Maybe& sock, const Maybe& from, const Maybe& to) {
  const Maybe smallest = over(sock, plus(Rational(1), to)), largest = over(sock, plus(Rational(1), from));
  if (!smallest || !largest) return std::nullopt;
  return Range{*smallest, *largest};
}

const knit::MeasureFacts* measure(const knit::EditionFacts& edition, const char* name) {
  for (const knit::MeasureFacts& one : edition.measures) {
    if (one.name == name) return &one;
  }
  return nullptr;
}

std::optional<Range> feet_of(const knit::MeasureFacts& measure, std::size_t size, const Range& usual) {
  const Maybe sock = value_at(measure.finished, size);
  if (!measure.ease_declared) return feet_for(sock, usual.from, usual.to);
  return feet_for(sock, value_at(measure.ease_from, size), value_at(measure.ease_to, size));
}

void count(const Cell& cell, const std::vector<Box>& boxes, Shares& shares) {
  bool length = false, girth = false, both = false;
  for (const Box& box : boxes) {
    length = length || box.takes_length(cell);
    girth = girth || box.takes_girth(cell);
    both = both || (box.takes_length(cell) && box.takes_girth(cell));
  }
  shares.people += cell.people;
  if (both) {
    shares.fitted += cell.people;
  } else if (!length) {
    shares.no_length += cell.people;
  } else if (!girth) {
    shares.no_girth += cell.people;
  } else {
    shares.not_together += cell.people;
  }
}

}  // namespace

std::vector<Cell> read_people(std::string_view csv) {
  std::vector<Cell> cells;
  while (!csv.empty()) {
    const std::size_t end = std::min(csv.find('\n'), csv.size());
    std::string_view line = csv.substr(0, end);
    csv.remove_prefix(std::min(end + 1, csv.size()));
    if (!line.empty() && line.back() == '\r') line.remove_suffix(1);
    std::string_view parts[4];
    std::size_t n = 0;
    while (n < 4) {
      const std::size_t comma = std::min(line.find(','), line.size());
      parts[n++] = line.substr(0, comma);
      if (comma == line.size()) break;
      line.remove_prefix(comma + 1);
    }
    if (n != 4 || (parts[0] != "women" && parts[0] != "men")) continue;
    const auto length = whole(parts[1]), girth = whole(parts[2]), people = whole(parts[3]);
    if (length && girth && people) cells.push_back({parts[0] == "women", *length, *girth, *people});
  }
  return cells;
}

bool Box::takes_length(const Cell& cell) const {
  return cell.middle_length() >= length_from && cell.middle_length() <= length_to;
}
bool Box::takes_girth(const Cell& cell) const {
  return cell.middle_girth() >= girth_from && cell.middle_girth() <= girth_to;
}

Coverage coverage_of(const knit::Facts& facts, const knit::EditionFacts& edition, knit::SizeSet sizes,
                     const std::vector<Cell>& people) {
  Coverage coverage;
  const knit::MeasureFacts* around = measure(edition, "around");
  const knit::MeasureFacts* length = measure(edition, "length");
  if (!around || !length) return coverage;
  coverage.girth_declared = around->ease_declared;
  coverage.length_declared = length->ease_declared;
  for (std::size_t i = 0; i < facts.sizes.size(); ++i) {
    if (!knit::has(sizes, i)) continue;
    const auto lengths = feet_of(*length, i, {usual_length_from, usual_length_to});
    const auto girths = feet_of(*around, i, usual_ease_around(Fabric::plain));
    if (lengths && girths) coverage.boxes.push_back({i, lengths->from, lengths->to, girths->from, girths->to});
  }
  if (coverage.boxes.empty()) return coverage;
  std::map<std::tuple<bool, std::int64_t, std::int64_t>, std::int64_t> without;
  for (const Cell& cell : people) {
    Shares& shares = cell.women ? coverage.women : coverage.men;
    const std::int64_t fitted = shares.fitted;
    count(cell, coverage.boxes, shares);
    if (shares.fitted == fitted) {
      without[{cell.women, cell.length / gap_mm * gap_mm, cell.girth / gap_mm * gap_mm}] += cell.people;
    }
  }
  for (const bool women : {true, false}) {
    std::vector<Gap> gaps;
    for (const auto& [place, number] : without) {
      if (std::get<0>(place) == women) gaps.push_back({women, std::get<1>(place), std::get<2>(place), number});
    }
    std::stable_sort(gaps.begin(), gaps.end(), [](const Gap& a, const Gap& b) { return a.people > b.people; });
    if (gaps.size() > gaps_told) gaps.resize(gaps_told);
    coverage.gaps.insert(coverage.gaps.end(), gaps.begin(), gaps.end());
  }
  return coverage;
}

}  // namespace stk::fit
