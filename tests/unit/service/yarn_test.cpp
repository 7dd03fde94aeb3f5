// How much yarn a pattern takes, against sums done by hand.
//
// At 24 sts and 34 rows to 10 cm a loop is 16.83 mm (√(23.1 / (2.4 · 3.4)) cm); the hem's, of 24 sts and 38 rows, 15.92
// mm (√(23.1 / (2.4 · 3.8)) = 1.59150 cm).
#include "tests/unit/service/knitted.hpp"

using namespace stk;
using namespace stk::test;

namespace {

Knitted piece(const std::string& yarn, const std::string& head, const std::string& steps, const std::string& finish) {
  return Knitted("yarn.stk",
                 "stockinger 1\npattern \"Yarn\" {\n by \"Tidewrack Hosiery\"\n}\nedition mid {\n machine mid_gauge\n"
                 " yarn main \"sport wool\", " +
                     yarn +
                     "\n yarn contrast \"sport wool\", 330 tex\n yarn waste \"cotton\"\n"
                     " gauge 24 sts, 34 rows to 10 cm\n gauge hem 24 sts, 38 rows to 10 cm, at MT - 2\n"
                     " gauge rib 32 sts, 36 rows to 10 cm, at MT - 3\n}\n"
                     "chart dots, seen from purl side {\n . main   x contrast\n [x...]\n [..x.]\n}\n"
                     "piece tube" +
                     head + " {\n" + steps + "\n}\nfinish {\n" + finish + "\n weave in ends\n}\n");
}

double mm(const std::optional<values::Quantity>& quantity) {
  REQUIRE(quantity);
  return std::stod(values::decimal(quantity->value, 6));
}

const std::string plain = " cast on 24, e-wrap, carriage right\n knit 20 rows\n bind off all, by latch";

}  // namespace

TEST_CASE("a piece knitted once, and a pair of it") {
  const Knitted one = piece("330 tex", "", plain, "");
  const knit::YarnFacts& yarn = one.edition("mid").yarns[0];
  REQUIRE(yarn.name == "main");
  // 24 loops cast on and 20 rows of 24.
  CHECK(yarn.loops[0] == 24 * 21);
  CHECK(mm(yarn.in_fabric[0]) == Approx(24 * 21 * 16.83));
  // Two ends of 20 cm, as nothing is said of their tails.
  CHECK(mm(yarn.ends[0]) == Approx(400));
  CHECK(mm(yarn.length[0]) == Approx((24 * 21 * 16.83 + 400) * 1.1));
  CHECK(mm(yarn.mass[0]) == Approx((24 * 21 * 16.83 + 400) * 1.1 * 330 / 1e6));  // g

  const Knitted pair = piece("330 tex", ", make 2", plain, "");
  const Knitted mirrored = piece("330 tex", ", make 2, second mirrored", plain, "");
  for (const Knitted* both : {&pair, &mirrored}) {
    CHECK(mm(both->edition("mid").yarns[0].in_fabric[0]) == Approx(2 * 24 * 21 * 16.83));
    CHECK(mm(both->edition("mid").yarns[0].ends[0]) == Approx(800));
  }
}

TEST_CASE("a margin of one's own, and whole balls") {
  const Knitted sock = piece("300 m to 100 g, balls of 5 g, margin 0%", ", make 2", plain, "");
  const knit::YarnFacts& yarn = sock.edition("mid").yarns[0];
  const double length = 2 * (24 * 21 * 16.83 + 400);
  CHECK(mm(yarn.length[0]) == Approx(length));
  CHECK(mm(yarn.mass[0]) == Approx(length / 3000));  // 3 m to the gram: 5.9 g
  CHECK(values::exact(yarn.balls[0]->value) == "2");
}

TEST_CASE("tails as the pattern says them; a seam with a length of its own; a graft with its tail") {
  const Knitted sewn =
      piece("330 tex", ", make 2",
            " cast on 24, e-wrap, carriage right\n knit 34 rows\n cut main, tail 35 cm\n scrap off right half as a, "
            "left half as b",
            " graft tube.a to tube.b, from the open side\n seam tube.left to tube.right, mattress, with main");
  const knit::YarnFacts& yarn = sewn.edition("mid").yarns[0];
  // 34 rows are 10 cm: 15 cm sew them, with 15 cm at each end; the tail of 35 cm grafts; 20 cm hang at the cast-on.
  // Twice.
  CHECK(mm(yarn.ends[0]) == Approx(2 * (150 + 300 + 350 + 200)));
  CHECK(sewn.edition("mid").yarns[2].waste);
  CHECK(mm(sewn.edition("mid").yarns[2].in_fabric[0]) >
        2 * 6 * 24 * 16.83);  // at least 6 rows of waste (common practice)
}

TEST_CASE("what is knitted at the tension of a second gauge has its loop, a rib the main one") {
  const Knitted hem = piece("330 tex", "",
                            " tension MT - 2\n cast on 24, e-wrap, carriage right\n knit 10 rows\n tension MT\n knit "
                            "10 rows\n bind off all, by latch",
                            "");
  CHECK(mm(hem.edition("mid").yarns[0].in_fabric[0]) ==
        Approx(24 * 11 * 15.92 + 24 * 10 * 16.83).margin(24 * 11 * 0.01));
  // 32 sts and 36 rows have 1.13 rows to a stitch: no plain fabric.
  const Knitted rib =
      piece("330 tex", "",
            " tension MT - 3\n cast on 24, e-wrap, carriage right\n knit 10 rows\n bind off all, by latch", "");
  CHECK(mm(rib.edition("mid").yarns[0].in_fabric[0]) == Approx(24 * 11 * 16.83));
}

TEST_CASE("floats are as long as what they pass") {
  const Knitted sock = piece(
      "330 tex", "",
      " cast on 24, e-wrap, carriage right\n knit 4 rows\n knit chart dots, repeat from L12, end needles contrast\n"
      " cut contrast, tail 15 cm\n knit 4 rows\n bind off all, by latch",
      "");
  const knit::YarnFacts &main = sock.edition("mid").yarns[0], &contrast = sock.edition("mid").yarns[1];
  REQUIRE(main.loops[0] + contrast.loops[0] == 24 * 11);
  // In two rows of 24 each yarn passes what the other takes; a stitch is 10 cm / 24 wide.
  const auto of_main = static_cast<double>(main.loops[0]), of_contrast = static_cast<double>(contrast.loops[0]);
  CHECK(mm(contrast.in_fabric[0]) == Approx(of_contrast * 16.83 + (48 - of_contrast) * 100.0 / 24));
  CHECK(mm(main.in_fabric[0]) == Approx(of_main * 16.83 + of_contrast * 100.0 / 24));
}

TEST_CASE("without a gauge there is no length, without a count no mass") {
  const Knitted sock("bare.stk",
                     "stockinger 1\npattern \"Bare\" {\n by \"Tidewrack Hosiery\"\n}\nedition mid {\n machine "
                     "mid_gauge\n yarn main \"wool\"\n}\n"
                     "piece tube {\n" +
                         plain + "\n}\nfinish {\n weave in ends\n}\n");
  const knit::YarnFacts& yarn = sock.edition("mid").yarns[0];
  CHECK(yarn.loops[0] == 24 * 21);
  CHECK_FALSE(yarn.length[0]);
  CHECK_FALSE(yarn.mass[0]);
}
