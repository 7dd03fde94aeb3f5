// The table of people that the report of fit counts, against the survey's own figures: the 2012 anthropometric survey of
// US Army personnel, NATICK/TR-15/007 (percentiles worked out from its public records: data/foot_survey_summary.csv).
// And what follows from them for a sock that must pass the heel.
#include <catch2/catch.hpp>
#include <cmath>
#include <fstream>
#include <map>
#include <sstream>
#include <string>
#include <vector>

#include "compiler/fit/coverage.hpp"
#include "compiler/fit/usual.hpp"
#include "stdlib/library.hpp"
#include "tests/oracles/data_table.hpp"

using namespace stk;
using values::Rational;

namespace {

std::vector<fit::Cell> people() {
  for (const text::EmbeddedFile& table : stdlib::people()) {
    if (table.name == "foot_survey_joint") return fit::read_people(table.text);
  }
  return {};
}

// "footlength women" -> column -> value.
auto summary() {
  return oracles::data_table("foot_survey_summary.csv", [](const std::string& cell) { return std::stod(cell); });
}

// How many people begin at which mm, of one sex and one measure.
std::map<std::int64_t, std::int64_t> marginal(bool women, bool length) {
  std::map<std::int64_t, std::int64_t> counts;
  for (const fit::Cell& cell : people()) {
    if (cell.women == women) counts[length ? cell.length : cell.girth] += cell.people;
  }
  return counts;
}

}  // namespace

TEST_CASE("the joint table has everybody of the survey, each cell once") {
  std::int64_t women = 0, men = 0;
  std::map<std::tuple<bool, std::int64_t, std::int64_t>, int> seen;
  for (const fit::Cell& cell : people()) {
    (cell.women ? women : men) += cell.people;
    CHECK(cell.people > 0);
    CHECK(cell.length % fit::cell_mm == 0);
    CHECK(cell.girth % fit::cell_mm == 0);
    CHECK(++seen[{cell.women, cell.length, cell.girth}] == 1);
  }
  CHECK(women == 1986);
  CHECK(men == 4082);
}

TEST_CASE("the joint table's margins are those of the survey, within a cell") {
  const auto published = summary();
  for (const bool women : {true, false}) {
    for (const bool length : {true, false}) {
      const auto& row = published.at(std::string(length ? "footlength " : "balloffootcircumference ") + (women ? "women" : "men"));
      const auto counts = marginal(women, length);
      double all = 0, sum = 0, squares = 0;
      for (const auto& [from, n] : counts) {
        const double middle = static_cast<double>(from) + 2.5, number = static_cast<double>(n);
        all += number;
        sum += number * middle;
        squares += number * middle * middle;
      }
      INFO((length ? "length " : "girth ") << (women ? "women" : "men"));
      CHECK(all == row.at("n"));
      const double mean = sum / all;
      // Measured in whole mm, a cell holds 5 of them and their mean is 2 above where it begins: the middle lies ½ above.
      CHECK(mean == Approx(row.at("mean") + 0.5).margin(0.3));
      CHECK(std::sqrt(squares / all - mean * mean) == Approx(row.at("sd")).margin(0.3));
      for (const auto& [column, share] : {std::pair("p1", 0.01), std::pair("p5", 0.05), std::pair("p25", 0.25),
                                          std::pair("p50", 0.5), std::pair("p75", 0.75), std::pair("p95", 0.95), std::pair("p99", 0.99)}) {
        double below = 0;
        std::int64_t cell = 0;
        for (const auto& [from, n] : counts) {
          below += static_cast<double>(n);
          cell = from;
          if (below >= share * all) break;
        }
        INFO(column << " lies in the cell from " << cell);
        CHECK(row.at(column) >= static_cast<double>(cell) - 1);
        CHECK(row.at(column) < static_cast<double>(cell) + 6);
      }
    }
  }
}

TEST_CASE("heel and instep are 1.36 times the ball, so a sock with ease taken away opens 1.51 and 1.70 times") {
  // Mean of the ratios, person by person, in the survey's records: 1.364 men, 1.361 women; the ratio of the means lies
  // near it. "About 1.35" stands in a designer's survey of knitters' feet.
  const auto published = summary();
  for (const char* sex : {"men", "women"}) {
    const double ratio = published.at(std::string("heelanklecircumference ") + sex).at("mean") /
                         published.at(std::string("balloffootcircumference ") + sex).at("mean");
    CHECK(ratio == Approx(1.36).margin(0.005));
  }
  const auto opening = [](std::int64_t percent_off) { return 1.36 / (1 - static_cast<double>(percent_off) / 100); };
  CHECK(opening(10) == Approx(1.51).margin(0.005));
  CHECK(opening(20) == Approx(1.70).margin(0.005));
  // So the usual ease of plain knitting passes the limit, and twice of it does not; the same for a rib at -25 %
  // (Druchunas, How to Knit Socks That Fit, ch. 3: -10, -25).
  const auto limit = [](fit::Fabric fabric) { return std::stod(values::decimal(fit::opening_limit(fabric), 4)); };
  CHECK(opening(10) < limit(fit::Fabric::plain));
  CHECK(opening(20) > limit(fit::Fabric::plain));
  CHECK(opening(25) < limit(fit::Fabric::rib));
}

TEST_CASE("published ranges of ease lie inside what is taken as usual") {
  // Druchunas, How to Knit Socks That Fit, ch. 3: plain -10 %, stranded -5 %, rib -25 %.
  const auto percent = [](std::int64_t n) { return Rational::of(n, 100); };
  for (const auto& [fabric, ease] : {std::pair(fit::Fabric::plain, -10), std::pair(fit::Fabric::stranded, -5), std::pair(fit::Fabric::rib, -25)}) {
    CHECK(fit::usual_ease_around(fabric).holds(*values::multiply(percent(1), Rational(ease))));
    CHECK(fit::usual_ease_of_top(fabric).holds(*values::multiply(percent(1), Rational(ease))));
  }
  // 90 to 95 % of the foot's length (from memory).
  CHECK(fit::usual_length_from <= *values::multiply(percent(1), Rational(-10)));
  CHECK(fit::usual_length_to >= *values::multiply(percent(1), Rational(-5)));
}

TEST_CASE("cast-on counts of hand-knitted socks have the usual ease around feet of their size") {
  // A published table for 4-ply sock yarn by EU size, adults: 36/37 58 sts, 38/39 60, 40/41 62, 42/43 64, 44/45 68, 46/47
  // 72, 48/49 80, 50/51 84. The foot is (EU - 2) / 1.5 cm long (ISO/TS 19407:2015) and 0.93 of that round the ball (the
  // survey, person by person). The gauge of such yarn is 27 to 32 sts to 4 in (Craft Yarn Council, category 1): a loose
  // band, so its middle is taken.
  const double sts_to_10_cm = (27 + 32) / 2.0 / 10.16 * 10;
  const fit::Range usual = fit::usual_ease_around(fit::Fabric::plain);
  for (const auto& [size, stitches] : {std::pair(36.5, 58), std::pair(38.5, 60), std::pair(40.5, 62), std::pair(42.5, 64),
                                       std::pair(44.5, 68), std::pair(46.5, 72), std::pair(48.5, 80), std::pair(50.5, 84)}) {
    const double ball = (size - 2) / 1.5 * 0.93, sock = stitches / sts_to_10_cm * 10;
    const auto permille = static_cast<std::int64_t>((sock - ball) / ball * 1000);
    INFO("EU " << size << ": ease " << static_cast<double>(permille) / 10 << " %");
    CHECK(usual.holds(*Rational::fraction(permille, 1000)));
  }
}
