// The two selvedges of a flat piece made of plain rows and short rows, at random: what a seam meets. Worked out from
// the shape: plain rows are at both edges; short rows are at an edge as long as its outermost stitch is not held. From
// N to M and back, wrapped by hand, that is the first row and the last on the side where they begin, the last two on
// the other, and none on the half that waits. An odd difference changes sides at its plain row and so has the last two
// where it began. The carriage's own wrap begins with a row more over all needles, so each edge has one row more.
#include <catch2/catch.hpp>
#include <random>

#include "tests/unit/runtime/short_rows.hpp"

using namespace stk::runtime;

TEST_CASE("the selvedges of plain rows and short rows differ by the short rows alone, in every order of them") {
  std::mt19937 random(1);
  const auto number = [&](int least, int most) {
    return least + static_cast<int>(random() % static_cast<unsigned>(most - least + 1));
  };
  int series_in_all = 0, odd_in_all = 0;
  for (int piece = 0; piece < 300; ++piece) {
    MachineSpec spec;
    spec.long_hold_passes = 1000;  // the notes on long holds and on heels that lie apart have tests of their own
    Bench bench(spec);
    const int half = number(4, 30);
    bench.cast_on(2 * half);
    const NeedleSet all = bench.machine.in_work(Bed::main);
    std::int64_t passes = 0, left = 0, right = 0;
    int series = 0;
    const int parts = number(1, 8);
    for (int part = 0; part < parts; ++part) {
      const bool stands_right = bench.machine.carriage() == Side::right;
      if (part % 2 == 0) {
        const int rows = number(1, 60);
        bench(Knit{rows});
        passes += rows, left += rows, right += rows;
        continue;
      }
      // On all needles, or on the half beside which the carriage stands.
      const bool whole = number(1, 2) == 1;
      const int width = whole ? 2 * half : half;
      int down_to = number(2, width - 1);
      if (!whole && (width - down_to) % 2 != 0) down_to += width - down_to > 1 ? 1 : -1;
      const int difference = width - down_to;
      const bool odd = difference % 2 != 0;
      const NeedleSet needles = whole          ? all
                                : stands_right ? bench.from_to("R1", ("R" + std::to_string(half)).c_str())
                                               : bench.from_to(("L" + std::to_string(half)).c_str(), "L1");
      if (!whole) bench(Hold{Bed::main, all - needles});
      ShortRows rows{bench, Bed::main, needles};
      const bool by_hand = number(1, 2) == 1;
      rows.run(down_to, by_hand);
      if (!whole) bench(Release{Bed::main, all - needles});
      ++series;
      odd_in_all += odd;
      passes += 2 * difference + (odd ? 1 : 0);
      // Of one needle the first row and the last of the narrowing are the same, so nothing is added where it began.
      const bool more = !by_hand && difference > 1;
      const std::int64_t where_it_began = (odd ? 3 : 2) + (more ? 1 : 0);
      const std::int64_t on_the_other = !whole ? 0 : (odd ? 1 : 2) + (by_hand ? 0 : 1);
      (stands_right ? right : left) += where_it_began;
      (stands_right ? left : right) += on_the_other;
    }
    INFO("piece " << piece << " of 2 times " << half);
    const Section& section = bench.fabric.section(bench.machine.section());
    CHECK(section.passes == passes);
    CHECK(section.short_row_series == series);
    CHECK(bench.machine.selvedge_rows(Side::left) == left);
    CHECK(bench.machine.selvedge_rows(Side::right) == right);
    CHECK(bench.machine.carriage() == (passes % 2 == 0 ? Side::right : Side::left));
    series_in_all += series;
  }
  CHECK(series_in_all > 300);
  CHECK(odd_in_all > 50);
}
