// The smallest repeating tile of a needle setting, with what stands before and after it.
//
//   . | | . | | . |      lead [.]   tile [| | .] × 2   tail [|]
//
// One tile, lead and tail that fit several sizes, with another number of repeats in each, let one sentence and one
// chart serve them all.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "compiler/knit/facts.hpp"

namespace stk::document {

// How a row of things of any kind repeats: `lead` of them, then `count` times `period` of them, then the rest.
struct Repetition {
  std::size_t lead = 0, period = 1, count = 1;
  std::size_t tail(std::size_t size) const { return size - lead - period * count; }
};

// The repetition that leaves the least to be drawn; ids are equal where the things are. Of equally short ones the one
// with the shorter tile, then the one that begins further left.
Repetition repetition(const std::vector<int>& ids);

// The given lead, tile and tail in another row, if it has at least one tile.
std::optional<Repetition> repetition_like(const std::vector<int>& ids, const std::vector<int>& model_ids,
                                          const Repetition& model);

struct Setting {
  std::vector<knit::DrawnNeedle> lead, tile, tail;
};
// What the beds are set to, if it is one tile, lead and tail in all of them.
std::optional<Setting> common_setting(const std::vector<const knit::DrawnBed*>& beds);

std::string tile_text(const std::vector<knit::DrawnNeedle>& tile);  // "[| | .]", with blanks that do not break

}  // namespace stk::document
