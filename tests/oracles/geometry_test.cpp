// Short rows and even decreases against plane geometry: shapes with straight sides, in millimetres, from the width of a
// stitch and the height of a row. Source: plane geometry (the area of a trapezoid, its width at a height, the theorem
// of Pythagoras); of the program only what it knitted is looked at.
//
//          N stitches             A short-row heel is two such trapezoids on one narrow side. Their slanted sides are
//       ----------------          closed row by row, so they must be equally long, and the heel folds at the narrow
//        \            /           side: the cup is as deep as one of them is high, and the foot longer by that.
//         \          /  height
//          ----------
//          M stitches
#include <catch2/catch.hpp>
#include <cmath>
#include <string>
#include <vector>

#include "tests/unit/service/knitted.hpp"

using namespace stk;
using namespace stk::test;
using knit::Act;

namespace {

struct Gauge {
  const char* written;
  double stitch, row;  // mm
};
const Gauge gauges[] = {{"24 sts, 34 rows to 10 cm", 100.0 / 24, 100.0 / 34},
                        {"30 sts, 42 rows to 10 cm", 100.0 / 30, 100.0 / 42},
                        {"13 sts, 19 rows to 10 cm", 100.0 / 13, 100.0 / 19}};

struct Trapezoid {
  double wide, narrow, height;
  double area() const { return (wide + narrow) / 2 * height; }
  double width_at(double from_wide) const { return wide - (wide - narrow) * from_wide / height; }
  double side() const { return std::hypot((wide - narrow) / 2, height); }
};

struct Case {
  int wide, narrow;
};

Knitted knitted(const Gauge& gauge, const std::vector<Case>& cases, const std::string& shaping) {
  std::string names, wides, narrows;
  for (const Case& each : cases) {
    names += " w" + std::to_string(each.wide) + "_" + std::to_string(each.narrow);
    wides += " " + std::to_string(each.wide);
    narrows += " " + std::to_string(each.narrow);
  }
  return Knitted(
      "shape.stk",
      "stockinger 1\npattern \"Shape\" {\n by \"Tidewrack Hosiery\"\n}\nuse heels\nuse toes\nsizes {\n" + names +
          "\n wide" + wides + " sts\n narrow" + narrows + " sts\n}\nedition mid {\n machine mid_gauge\n" +
          " yarn main \"sport wool\", 330 tex\n gauge " + gauge.written + "\n}\n" +
          "finished depth = height((wide - narrow) as rows)\n" +
          "piece patch {\n section leg \"Leg\"\n cast on wide, e-wrap, carriage right\n knit 3 rows\n hang comb\n"
          " knit 1 row\n section shaping \"Shaping\"\n" +
          shaping + " section end \"End\"\n bind off all, by latch\n}\nfinish {\n weave in ends\n}\n");
}

double millimetres(const std::optional<values::Quantity>& length) {
  REQUIRE(length);
  return static_cast<double>(length->value.numerator()) / static_cast<double>(length->value.denominator());
}

// How many needles each row was knitted over, in the order knitted.
std::vector<int> widths_of(const std::vector<knit::Step>& steps, std::size_t size) {
  std::vector<const knit::Step*> found;
  collect(steps, Act::knit, found);
  std::vector<int> widths;
  for (const knit::Step* step : found)
    if (knit::has(step->sizes, size))
      for (std::int64_t row = 0; row < step->records[size].amount; ++row)
        widths.push_back(step->records[size].before.in_work);
  return widths;
}

double sum_of(const std::vector<int>& widths) {
  double sum = 0;
  for (const int width : widths) sum += width;
  return sum;
}

}  // namespace

TEST_CASE("a short-row heel is two trapezoids on one narrow side") {
  const std::vector<Case> cases = {{12, 4}, {14, 4}, {18, 6}, {24, 8}, {30, 10}, {36, 12}, {40, 2}, {9, 7}};
  for (const Gauge& gauge : gauges) {
    const Knitted shape = knitted(gauge, cases, " work short_row_heel(all, down_to: narrow)\n");
    const knit::EditionFacts& edition = shape.edition("mid");
    const auto& steps = section(edition.pieces[0].first, "shaping").steps;
    for (std::size_t i = 0; i < cases.size(); ++i) {
      const auto [wide, narrow] = cases[i];
      INFO(gauge.written << ", from " << wide << " to " << narrow);
      const double depth = (wide - narrow) * gauge.row;  // a stitch less in every row
      const Trapezoid half{wide * gauge.stitch, narrow * gauge.stitch, depth};
      const std::vector<int> widths = widths_of(steps, i);
      const std::size_t rows = widths.size();
      // Height and area: rows and loops.
      CHECK(static_cast<double>(rows) * gauge.row == Approx(2 * half.height));
      CHECK(sum_of(widths) * gauge.stitch * gauge.row == Approx(2 * half.area()));
      CHECK(millimetres(edition.measures[0].finished[i]) == Approx(half.height));
      // Each row is as wide as the shape where the row ends, going down and coming up; so both are as long on the
      // slant.
      double down = 0, up = 0;
      for (std::size_t row = 0; row < rows / 2; ++row) {
        const double end = static_cast<double>(row + 1) * gauge.row;
        CHECK(widths[row] * gauge.stitch == Approx(half.width_at(end)));
        CHECK(widths[rows / 2 + row] * gauge.stitch == Approx(half.width_at(half.height - end)));
        const double before = row == 0 ? wide : widths[row - 1];
        const double before_up = row == 0 ? narrow : widths[rows / 2 + row - 1];
        down += std::hypot((before - widths[row]) * gauge.stitch / 2, gauge.row);
        up += std::hypot((widths[rows / 2 + row] - before_up) * gauge.stitch / 2, gauge.row);
      }
      CHECK(down == Approx(half.side()));
      CHECK(up == Approx(half.side()));
    }
  }
}

TEST_CASE("a wedge narrowed on both sides in every second row is one trapezoid") {
  const std::vector<Case> cases = {{24, 8}, {30, 10}, {36, 12}, {22, 20}, {40, 6}};
  for (const Gauge& gauge : gauges) {
    const Knitted shape = knitted(gauge, cases, " work wedge_toe(down_to: narrow)\n");
    const knit::EditionFacts& edition = shape.edition("mid");
    const auto& steps = section(edition.pieces[0].first, "shaping").steps;
    for (std::size_t i = 0; i < cases.size(); ++i) {
      const auto [wide, narrow] = cases[i];
      INFO(gauge.written << ", from " << wide << " to " << narrow);
      // Two stitches less in every two rows: as many rows as stitches go.
      const Trapezoid wedge{wide * gauge.stitch, narrow * gauge.stitch, (wide - narrow) * gauge.row};
      const std::vector<int> widths = widths_of(steps, i);
      CHECK(static_cast<double>(widths.size()) * gauge.row == Approx(wedge.height));
      CHECK(millimetres(edition.measures[0].finished[i]) == Approx(wedge.height));
      CHECK(end_of(steps, i)->stitches * gauge.stitch == Approx(wedge.width_at(wedge.height)));
      // Two rows are knitted before each decrease: a pair is as wide as the shape where the pair begins, and so stands
      // over its slanted sides by a stitch in each row.
      for (std::size_t row = 0; row < widths.size(); ++row) {
        const double begins = static_cast<double>(row / 2 * 2) * gauge.row;
        CHECK(widths[row] * gauge.stitch == Approx(wedge.width_at(begins)));
      }
      const double over = static_cast<double>(widths.size()) * gauge.stitch * gauge.row;
      CHECK(sum_of(widths) * gauge.stitch * gauge.row == Approx(wedge.area() + over));
    }
  }
}

TEST_CASE("the length of a foot is its rows and the depths of heel and toe, laid flat") {
  const Knitted sock = Knitted::file("mock_rib_hem.stk");
  for (const auto& [name, gauge] : {std::pair{"mid", gauges[0]}, std::pair{"standard", gauges[1]}}) {
    const knit::EditionFacts& edition = sock.edition(name);
    const auto& steps = edition.pieces[0].first;
    const knit::Step& cut = only(steps, Act::cut);
    for (std::size_t i = 0; i < sock.sizes(); ++i) {
      INFO(name << ", size " << i);
      const auto depth = [&](std::int64_t rows) { return static_cast<double>(rows) / 2 * gauge.row; };  // folded
      const double foot = static_cast<double>(end_of(section(steps, "foot").steps, i)->row_counter) * gauge.row;
      const double heel = depth(end_of(section(steps, "heel").steps, i)->row_counter);
      const double toe = depth(cut.records[i].before.row_counter);
      bool told = false;
      for (const knit::MeasureFacts& measure : edition.measures) {
        if (measure.name != "length") continue;
        told = true;
        CHECK(millimetres(measure.finished[i]) == Approx(heel + foot + toe));
      }
      CHECK(told);
    }
  }
}
