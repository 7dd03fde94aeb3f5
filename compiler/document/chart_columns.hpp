// Within document/: a drawn bed as columns, one a needle, so that equal needles can be told and counted.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <tuple>
#include <vector>

#include "compiler/document/chart.hpp"
#include "compiler/document/graded.hpp"
#include "compiler/knit/facts.hpp"

namespace stk::document {

// What is drawn at one needle: how it was, how it is, and where its loops go.
struct Column {
  knit::DrawnNeedle before, after;
  std::vector<std::int32_t> moves;  // to the needle so many places to the right

  auto key() const {
    return std::make_tuple(before.position, before.loops, before.eyelet, after.position, after.loops, after.eyelet,
                           moves);
  }
  bool operator<(const Column& c) const { return key() < c.key(); }
  bool changes() const { return !moves.empty() || !(before == after); }
};

std::vector<Column> columns_of(const knit::DrawnBed& bed);
// Both beds as a transfer leaves them: the second stands in `before` until the picture is made.
std::vector<Column> columns_of_beds(const knit::DrawnBed& bed);

struct SizeColumns {
  std::size_t size = 0;
  knit::Needle first;
  std::vector<Column> columns;
  std::vector<int> ids;  // equal where the columns are
};

void add_column(NeedleChart& chart, const Column& column);
std::int32_t moved_by(std::int32_t needle, std::int64_t by);  // there is no needle 0 between L1 and R1

// Charts of needles that change at one place only: columns that change are drawn one by one, a run of equal ones that stay
// as they are stands for as many as each size has. One picture for each set of sizes that are alike but for those numbers.
struct RunChart {
  knit::SizeSet served = 0;
  NeedleChart picture;
};
std::vector<RunChart> run_charts(const std::vector<SizeColumns>& sizes, std::size_t all_sizes, knit::SizeSet printed);

}  // namespace stk::document
