// Loop length, gauge, relaxation and tightness against published figures and hand-worked ones.
#include "compiler/fabric/plain.hpp"

#include <catch2/catch.hpp>

#include "compiler/fabric/loops.hpp"
#include "compiler/fabric/yarn.hpp"

using namespace stk::fabric;

TEST_CASE("stitch density of a loop length, as an examination asks it") {
  // GATE 2015, Textile Engineering and Fibre Science, question 54: Kw 4.2, Kc 5.5, l 0.5 cm: 92.4 loops to the cm².
  const Gauge gauge = gauge_of_loop(0.5);
  CHECK(gauge.stitches == Approx(8.4));
  CHECK(gauge.rows == Approx(11.0));
  CHECK(stitch_density(gauge) == Approx(92.4));
}

TEST_CASE("the constants agree with one another as they were printed") {
  // Munden 1959, as given by Spencer 2001, §22.5: Ks is Kc times Kw, within 1 % in the wet state and to the digit else.
  for (const State state : {State::dry_relaxed, State::wet_relaxed, State::fully_relaxed}) {
    const PlainConstants& k = plain_constants(state);
    CHECK(k.courses * k.wales == Approx(k.density).epsilon(state == State::wet_relaxed ? 0.01 : 0.0001));
  }
  CHECK(plain_constants(State::wet_relaxed).courses * plain_constants(State::wet_relaxed).wales == Approx(21.73));
  // The ratios that stand beside them.
  const auto ratio = [](State s) { return plain_constants(s).courses / plain_constants(s).wales; };
  CHECK(ratio(State::dry_relaxed) == Approx(1.32).margin(0.005));
  CHECK(ratio(State::wet_relaxed) == Approx(1.29).margin(0.005));
  CHECK(ratio(State::fully_relaxed) == Approx(1.31).margin(0.005));
}

TEST_CASE("from dry to fully relaxed") {
  // By pencil: 1 - 5.0/5.5, 1 - 3.8/4.2, 1 - 19.0/23.1.
  const Change change = relaxation(State::dry_relaxed, State::fully_relaxed);
  CHECK(change.length == Approx(0.0909).margin(0.0001));
  CHECK(change.width == Approx(0.0952).margin(0.0001));
  CHECK(change.area == Approx(0.1775).margin(0.0001));
}

TEST_CASE("gauge to loop length and back") {
  for (const double loop : {0.3, 0.5, 1.33, 1.75, 3.0})
    for (const State state : {State::dry_relaxed, State::fully_relaxed}) {
      const Gauge gauge = gauge_of_loop(loop, state);
      CHECK(loop_from_stitches(gauge.stitches, state) == Approx(loop));
      CHECK(loop_from_rows(gauge.rows, state) == Approx(loop));
      CHECK(loop_from_density(gauge, state) == Approx(loop).epsilon(0.001));
    }
}

TEST_CASE("a swatch pulled wide keeps its density, and so its loop") {
  const Gauge rest = gauge_of_loop(1.5), pulled{rest.stitches / 1.1, rest.rows * 1.1};
  CHECK(loop_from_density(pulled) == Approx(loop_from_density(rest)));
  CHECK(loop_from_stitches(pulled.stitches) > 1.6);
  CHECK(loop_from_rows(pulled.rows) < 1.4);
}

TEST_CASE("the loop length that yarn is reckoned with is exact from there on") {
  // 24 sts and 34 rows to 10 cm: sqrt(23.1 / (2.4 * 3.4)) = 1.68252 cm, 16.83 mm.
  CHECK(stk::values::exact(loop_length({2.4, 3.4})) == "1683/100");
  CHECK(loop_length({0, 3.4}).is_zero());
}

TEST_CASE("tightness of sock yarn") {
  // 238 tex (420 m to 100 g) at 8, 9 and 10 stitches to the inch: 11.6, 13.0, 14.5.
  const double tex = 238;
  for (const auto& [to_the_inch, k] : {std::pair{8, 11.6}, {9, 13.0}, {10, 14.5}})
    CHECK(tightness(tex, loop_from_stitches(to_the_inch / 2.54)) == Approx(k).margin(0.05));
  CHECK(loop_for_tightness(tex, tightness(tex, 1.2)) == Approx(1.2));
  // Two strands: twice the tex, 1.41 times the tightness.
  CHECK(tightness(together(tex, 2), 1.2) / tightness(tex, 1.2) == Approx(1.41421).epsilon(0.0001));
}

TEST_CASE("bands of tightness, at their bounds") {
  CHECK(band_of(9.4) == Tightness::too_loose);
  CHECK(band_of(9.5) == Tightness::loose);
  CHECK(band_of(10.96) == Tightness::sock);  // 11.0 as it is printed
  CHECK(band_of(14.5) == Tightness::sock);
  CHECK(band_of(14.6) == Tightness::firm);
  CHECK(band_of(17.0) == Tightness::firm);
  CHECK(band_of(17.1) == Tightness::too_tight);
}

TEST_CASE("what a fabric weighs") {
  // g/m² = loops to the cm² · l (mm) · tex / 100 (textile handbook, Texcoms 2023, p. 147); and from first principles:
  // so many loops on a square metre, each so long, at so many grams to the kilometre.
  const Gauge gauge = gauge_of_loop(0.5);
  const double grams = areal_mass(gauge, 0.5, 30);
  CHECK(grams == Approx(92.4 * 5 * 30 / 100));
  CHECK(grams == Approx(92.4 * 10'000 * 0.005 * 30 / 1000));
}

TEST_CASE("the balance and the ruler tell the same loop") {
  // 40 x 60 loops of 1.5 cm are 36 m; of 250 tex 9 g.
  CHECK(loop_from_mass(9, 2400, 250) == Approx(1.5));
}

TEST_CASE("yarn diameter") {
  // 0.00444 sqrt(tex / density), the same handbook: 100 tex of fibres of 1.00 g/cm³ are 0.0444 cm thick.
  CHECK(yarn_diameter(100, 1) == Approx(0.0444));
}

TEST_CASE("the machine sock of 1979") {
  // A published teaching pattern: 17,308 loops a sock, at 8 stitches to the inch; 462 m a pair (worked out by hand).
  const double pair_m = 2 * 17'308 * loop_from_stitches(8 / 2.54) / 100;
  CHECK(pair_m == Approx(462).margin(1));
  // By stitches and rows together (1.375 rows to a stitch) it is a few percent less.
  const double by_density = 2 * 17'308 * loop_from_density({8 / 2.54, 11 / 2.54}) / 100;
  CHECK(by_density == Approx(450).margin(2));
}
