#include "compiler/document/setting.hpp"

#include <algorithm>
#include <string_view>

#include "compiler/document/words.hpp"

namespace stk::document {

Repetition repetition(const std::vector<int>& ids) {
  const std::size_t size = ids.size();
  Repetition best{0, size == 0 ? 1 : size, size == 0 ? std::size_t{0} : std::size_t{1}};
  std::size_t best_drawn = size;              // lead + one tile + tail
  constexpr std::size_t longest_period = 64;  // nothing set by hand repeats over more needles; keeps it quick
  for (std::size_t period = 1; period <= std::min(size / 2, longest_period); ++period) {
    std::size_t start = 0;
    while (start + period < size) {
      std::size_t end = start;  // ids[i] == ids[i + period] for start <= i < end
      while (end + period < size && ids[end] == ids[end + period]) ++end;
      const std::size_t count = (end - start) / period + 1;
      const std::size_t drawn = size - (count - 1) * period;
      if (count > 1 && drawn < best_drawn) {
        best = {start, period, count};
        best_drawn = drawn;
      }
      start = end + 1;
    }
  }
  return best;
}

std::optional<Repetition> repetition_like(const std::vector<int>& ids, const std::vector<int>& model_ids,
                                          const Repetition& model) {
  const std::size_t tail = model.tail(model_ids.size());
  if (ids.size() < model.lead + model.period + tail) return std::nullopt;
  const std::size_t middle = ids.size() - model.lead - tail;
  if (middle % model.period != 0) return std::nullopt;
  for (std::size_t i = 0; i < ids.size(); ++i) {
    int wanted = 0;
    if (i < model.lead) {
      wanted = model_ids[i];
    } else if (i < model.lead + middle) {
      wanted = model_ids[model.lead + (i - model.lead) % model.period];
    } else {
      wanted = model_ids[model_ids.size() - (ids.size() - i)];
    }
    if (ids[i] != wanted) return std::nullopt;
  }
  return Repetition{model.lead, model.period, middle / model.period};
}

std::optional<Setting> common_setting(const std::vector<const knit::DrawnBed*>& beds) {
  using Position = knit::DrawnNeedle::Position;
  if (beds.empty()) return std::nullopt;
  std::vector<std::vector<int>> ids;
  std::size_t longest = 0;
  for (const knit::DrawnBed* bed : beds) {
    ids.emplace_back();
    for (const knit::DrawnNeedle& needle : bed->after) ids.back().push_back(needle.position == Position::out ? 0 : 1);
    if (ids.back().size() > ids[longest].size()) longest = ids.size() - 1;
  }
  if (ids[longest].empty()) return std::nullopt;
  const Repetition model = repetition(ids[longest]);
  for (const std::vector<int>& row : ids) {
    if (!repetition_like(row, ids[longest], model)) return std::nullopt;
  }
  const auto part = [&](std::size_t from, std::size_t length) {
    const auto begin = beds[longest]->after.begin() + static_cast<std::ptrdiff_t>(from);
    return std::vector<knit::DrawnNeedle>(begin, begin + static_cast<std::ptrdiff_t>(length));
  };
  const std::size_t size = ids[longest].size();
  return Setting{part(0, model.lead), part(model.lead, model.period), part(size - model.tail(size), model.tail(size))};
}

std::string tile_text(const std::vector<knit::DrawnNeedle>& tile) {
  std::string text = "[";
  for (std::size_t i = 0; i < tile.size(); ++i) {
    if (i > 0) text += no_break;
    text += tile[i].position == knit::DrawnNeedle::Position::out ? '.' : '|';
  }
  return text + "]";
}

}  // namespace stk::document
