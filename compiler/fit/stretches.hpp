// One piece read as stretches, in the order in which they were knitted.
#pragma once

#include <vector>

#include "compiler/fit/shape.hpp"

namespace stk::fit {

struct PieceShape {
  std::vector<Stretch> stretches;
  std::vector<std::size_t> splits;  // before which stretch the fabric was divided: short rows, waste line, set aside
  struct ShortRows {
    std::string section;
    std::int64_t rows = 0;
    std::size_t before = 0;  // the stretch that comes after them
  };
  std::vector<ShortRows> short_rows;
  std::optional<TopEdge> cast_on, bind_off;
  bool cast_on_hung_late = false;  // hung again after a split: a toe-up toe, no hem
  bool begins_closed = false;      // rounds above a zigzag, more than a rib's edge has: the tip of a toe
  bool hung_at_first = false;      // begins from an edge of another piece
};
PieceShape shape_of(const knit::EditionFacts& edition, const knit::PieceFacts& piece, std::size_t size);

}  // namespace stk::fit
