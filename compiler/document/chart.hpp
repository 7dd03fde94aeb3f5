// A chart as every format draws it: which marks stand where, not how they look.
//
//   Chart ── picture: NeedleChart      a needle setting, or a setting before and after its moves
//                     ColourChart      rows in two yarns
//                     ShortRowChart    which needles knit in each of the rows of a heel
//
// Charts of whole pieces are a further alternative of Picture; a back end that meets one it cannot draw still has
// `title` and `alternative`.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <variant>
#include <vector>

#include "compiler/knit/facts.hpp"

namespace stk::document {

// What can stand at one needle. How each is drawn is the back end's; which of them a chart needs in its key is settled
// here, once.
enum class Mark : std::uint8_t {
  in_work,  // in working position, with one loop or not yet any
  out_of_work,
  several_loops,  // in work with two loops or more: drawn with their number
  empty_in_work,  // in work without a loop, between needles that have one: an eyelet, or an empty still to be filled
  upper,          // upper working position
  held,           // holding position
  tuck,           // takes the yarn and does not knit in these rows
  slip,           // is passed over in these rows
  move            // an arrow from one needle to another
};

// How a needle is drawn; in a chart without any loops (`bare`) a needle in work needs none.
Mark mark_of(const knit::DrawnNeedle& needle, bool bare);

// Columns first … last of a chart stand for as many as `times` says: "12 (14, 16)", one number or one for each size.
struct ChartRepeat {
  std::size_t first = 0, last = 0;
  std::string times;
};

// A few needles side by side, before and after a step. Columns outside the repeats stand once.
struct NeedleChart {
  std::vector<knit::DrawnNeedle> before, after;  // of equal length
  std::vector<knit::DrawnNeedle> second;         // a setting on two beds: the second bed, else empty
  std::vector<knit::DrawnMove> moves;            // indices into the columns; one end may lie one repeat outside
  bool changes = false;                          // false: a setting alone, `before` is not drawn
  bool bare = false;                             // no needle has a loop yet
  std::vector<ChartRepeat> repeats;              // from left to right
  std::int64_t rows = 0;                         // tuck and slip: so many rows are knitted so; 0: a setting
  std::string first_needle, last_needle;         // where the columns lie: "L18 (L21, L24)"
};

// Rows in two yarns, as they are drawn: column 1 at the left, the first row to be knitted first.
struct ColourChart {
  std::vector<std::string> rows;  // one mark a stitch
  char ground = '.', second = 'x';
  std::string ground_yarn, second_yarn;  // "MY", "CC"
  std::string first_column, last_column; // at the two ends of the work: "22 (19, 16)"; all columns repeat in between
  std::string first_needle, last_needle; // and where these are: "L12 (L15, L18)"
};

// Short rows of one size: which needles knit in each row, while all others wait in hold.
struct ShortRow {
  std::int64_t counter = 0;          // RC after it
  std::size_t first = 0, last = 0;   // the columns that knit
  bool to_right = true;
  std::vector<std::size_t> wrapped;  // columns wrapped after it
};
struct ShortRowChart {
  std::vector<ShortRow> rows;  // the first to be knitted first
  std::size_t columns = 0;
  std::string first_needle, last_needle;
};

using Picture = std::variant<NeedleChart, ColourChart, ShortRowChart>;

struct Chart {
  std::size_t number = 1;   // printed: "chart 1"
  std::string title;        // "Move the last st of each group of 3 to the needle on its left"
  std::string sizes;        // "Women L and Men L", empty when it is for all
  std::string alternative;  // the chart in words
  std::vector<Mark> key;    // the marks it uses, in the order of Mark
  Picture picture;
};

}  // namespace stk::document
