// Whole constructions in eight sizes, against counts that were worked out by hand: knitted needle by needle on paper
// rules before this program existed, size by size. No number here was taken from the program.
#include "tests/unit/service/knitted.hpp"

using namespace stk;
using namespace stk::test;
using knit::Act;
using knit::Side;

namespace {

// All counts were worked out from the sizes and gauges in exact fractions, by hand and once more by a calculator that
// knows nothing of this program: body is 90% of the girth in whole fours, half of it is the heel, a third of that made
// even is left, and a heel of N to M takes 2(N - M) rows (stitch geometry, and a published flat machine sock of 1979:
// 36 -> 20 -> 36 in 32 rows). Those of edition mid agree with the paper knitting, count for count.
struct Counts {
  const char* edition;
  Row body, half, leg, heel, foot, tail;  // leg, heel, foot: the counter at their ends; tail: of the graft, in cm
};
const Counts mid = {"mid",
                    {24, 28, 32, 36, 44, 48, 56, 60},
                    {12, 14, 16, 18, 22, 24, 28, 30},
                    {20, 28, 34, 40, 48, 54, 62, 64},
                    {16, 20, 20, 24, 28, 32, 36, 40},
                    {18, 22, 32, 36, 40, 48, 52, 56},
                    {35, 40, 45, 45, 55, 55, 65, 65}};
const Counts standard = {"standard",
                         {32, 36, 40, 48, 52, 60, 68, 72},
                         {16, 18, 20, 24, 26, 30, 34, 36},
                         {26, 34, 42, 50, 58, 68, 76, 80},
                         {20, 24, 28, 32, 36, 40, 44, 48},
                         {22, 28, 36, 42, 48, 58, 64, 70},
                         {40, 40, 45, 50, 50, 55, 65, 65}};

Row plus(Row row, std::int64_t more) {
  for (std::int64_t& number : row) number += more;
  return row;
}
Row sum(Row a, const Row& b) {
  for (std::size_t i = 0; i < a.size(); ++i) a[i] += b[i];
  return a;
}
Row twice(const Row& row) {
  return sum(row, row);
}

// Sides of the first sock, and of the second that is made with the sides changed.
Side side_of(Side first, bool mirrored) {
  return mirrored ? (first == Side::left ? Side::right : Side::left) : first;
}
const std::vector<knit::Step>& steps_of(const knit::PieceFacts& piece, bool mirrored) {
  if (mirrored) REQUIRE_FALSE(piece.mirrored.empty());
  return mirrored ? piece.mirrored : piece.first;
}

}  // namespace

TEST_CASE("a flat sock with a mock-rib hem and short rows, in both editions, first and mirrored") {
  const Knitted sock = Knitted::file("mock_rib_hem.stk");
  const std::size_t n = sock.sizes();
  struct Expected {
    const Counts& counts;
    Row hem, tail;  // this source rounds the tail to the nearest 5 cm, not up
  };
  const Row tail = {35, 40, 40, 45, 50, 55, 60, 65};
  for (const Expected& expected : {Expected{mid, {16, 20, 22, 22, 26, 30, 30, 34}, tail},
                                   Expected{standard, {18, 24, 28, 28, 32, 36, 36, 42}, tail}}) {
    const Counts& counts = expected.counts;
    INFO(counts.edition);
    const knit::EditionFacts& edition = sock.edition(counts.edition);
    const knit::PieceFacts& piece = edition.pieces[0];
    for (const bool mirrored : {false, true}) {
      const auto& steps = steps_of(piece, mirrored);
      const Side side = side_of(Side::right, mirrored);
      CHECK(counters(steps, "hem", n) == expected.hem);
      CHECK(stitches(steps, "hem", n) == counts.body);
      CHECK(amounts(only(steps, Act::set_needles)) == plus(counts.half, 1));
      CHECK(amounts(only(steps, Act::bring_into_work)) == counts.half);
      CHECK(counters(steps, "leg", n) == counts.leg);
      CHECK(all_on(steps, "leg", n, side));
      CHECK(counters(steps, "heel", n) == counts.heel);
      CHECK(all_on(steps, "heel", n, side));
      CHECK(counters(steps, "foot", n) == counts.foot);
      const knit::Step& cut = only(steps, Act::cut);
      CHECK(row_of(n, [&](std::size_t i) { return cut.records[i].before.row_counter; }) ==
            counts.heel);  // the toe's rows
      CHECK(tails_cm(cut) == expected.tail);
      const knit::Step& off = only(steps, Act::scrap_off);
      for (std::size_t i = 0; i < n; ++i)
        CHECK(off.records[i].part_counts == std::vector<std::int32_t>(2, static_cast<std::int32_t>(counts.half[i])));
    }
    CHECK(piece.mirrors_exactly);
    CHECK(amounts(only(edition.finish, Act::graft)) == counts.half);
    CHECK(second_amounts(only(edition.finish, Act::graft)) == counts.half);
    // The two selvedges differ by 2 rows for each short-row section (38 and 42 above the first size's hem); the half
    // that waits has leg, foot and hem.
    const Row waiting = sum(sum(counts.leg, counts.foot), expected.hem);
    CHECK(amounts(only(edition.finish, Act::seam)) == waiting);
    CHECK(second_amounts(only(edition.finish, Act::seam)) == plus(waiting, 4));
  }
}

TEST_CASE("a tube on two beds, its heel and toe on the main bed, in both editions, first and mirrored") {
  // The source makes both socks alike; a second one with the sides changed must come out the same.
  const Knitted sock = Knitted::file("tube_on_two_beds.stk", "make 2 {", "make 2, second mirrored {");
  const std::size_t n = sock.sizes();
  struct Expected {
    const Counts& counts;
    Row cuff, leg, foot;  // a round is two passes
  };
  for (const Expected& expected :
       {Expected{mid, {10, 12, 14, 14, 18, 22, 22, 22}, {21, 28, 34, 41, 48, 55, 62, 65}, mid.foot},
        Expected{standard, {14, 16, 18, 18, 22, 26, 26, 26}, {26, 34, 42, 51, 59, 68, 76, 80}, standard.foot}}) {
    const Counts& counts = expected.counts;
    const knit::EditionFacts& edition = sock.edition(counts.edition);
    for (const bool mirrored : {false, true}) {
      INFO(counts.edition << (mirrored ? ", mirrored" : ""));
      const auto& steps = steps_of(edition.pieces[0], mirrored);
      const Side side = side_of(Side::right, mirrored);
      const knit::Step& cuff_cut = only(steps, Act::cut, 0);
      CHECK(row_of(n, [&](std::size_t i) { return cuff_cut.records[i].before.row_counter; }) == expected.cuff);
      CHECK(tails_cm(cuff_cut) == Row{20, 25, 25, 25, 25, 25, 25, 25});
      CHECK(amounts(only(steps, Act::transfer)) == counts.half);
      CHECK(counters(steps, "leg", n) == twice(expected.leg));
      CHECK(stitches(steps, "leg", n) == counts.body);
      CHECK(all_on(steps, "leg", n, side));
      CHECK(counters(steps, "heel", n) == counts.heel);
      CHECK(all_on(steps, "heel", n, side));
      CHECK(counters(steps, "foot", n) == twice(expected.foot));
      CHECK(all_on(steps, "foot", n, side));
      const knit::Step& cut = only(steps, Act::cut, 1);
      CHECK(row_of(n, [&](std::size_t i) { return cut.records[i].before.row_counter; }) == counts.heel);
      CHECK(tails_cm(cut) == counts.tail);
    }
    CHECK(amounts(only(edition.finish, Act::graft)) == counts.half);
    CHECK(second_amounts(only(edition.finish, Act::graft)) == counts.half);
    CHECK(amounts(only(edition.finish, Act::seam)) == second_amounts(only(edition.finish, Act::seam)));
  }
}

TEST_CASE("a heel flap with gussets, in both editions, first and mirrored") {
  const Knitted sock = Knitted::file("flap_and_gusset.stk");
  const std::size_t n = sock.sizes();
  struct Expected {
    const Counts& counts;
    Row gusset, plain;  // loops picked up on each side; rows without decreases before the toe
  };
  for (const Expected& expected :
       {Expected{mid, {7, 8, 9, 10, 12, 13, 15, 16}, {2, 4, 12, 14, 14, 20, 20, 22}},
        Expected{standard, {9, 10, 11, 13, 14, 16, 18, 19}, {2, 6, 12, 14, 18, 24, 26, 30}}}) {
    const Counts& counts = expected.counts;
    const knit::EditionFacts& edition = sock.edition(counts.edition);
    const knit::PieceFacts& piece = edition.pieces[0];
    for (const bool mirrored : {false, true}) {
      INFO(counts.edition << (mirrored ? ", mirrored" : ""));
      const auto& steps = steps_of(piece, mirrored);
      CHECK(counters(steps, "leg", n) == counts.leg);
      CHECK(counters(steps, "flap", n) == counts.half);  // as many rows as stitches
      CHECK(counters(steps, "turn", n) == counts.heel);
      CHECK(amounts(only(steps, Act::pick_up, 0)) == expected.gusset);
      CHECK(amounts(only(steps, Act::pick_up, 1)) == expected.gusset);
      CHECK(row_of(n, [&](std::size_t i) {
              return std::int64_t{only(steps, Act::pick_up, 1).records[i].after.stitches};
            }) == sum(counts.half, twice(expected.gusset)));
      CHECK(stitches(steps, "gusset", n) == counts.half);
      CHECK(counters(steps, "gusset", n) == counts.foot);
      CHECK(sum(plus(twice(expected.gusset), 2), expected.plain) == counts.foot);  // 2 rows take the loops in
      CHECK(all_on(steps, "gusset", n, side_of(Side::right, mirrored)));
      const knit::Step& cut = only(steps, Act::cut, 2);
      CHECK(row_of(n, [&](std::size_t i) { return cut.records[i].before.row_counter; }) == counts.heel);
      CHECK(tails_cm(cut) == counts.tail);
    }
    CHECK(piece.mirrors_exactly);
    const auto& finish = edition.finish;
    CHECK(amounts(only(finish, Act::graft)) == counts.half);
    for (const std::size_t seam : {0u, 1u}) {
      CHECK(amounts(only(finish, Act::seam, seam)) == plus(counts.foot, 2));  // the toe's two rows
      CHECK(second_amounts(only(finish, Act::seam, seam)) == counts.foot);
    }
    CHECK(amounts(only(finish, Act::seam, 2)) == counts.leg);
    CHECK(second_amounts(only(finish, Act::seam, 2)) == counts.leg);
  }
}

TEST_CASE("a picot hem and a two-colour band, first and mirrored") {
  const Knitted sock = Knitted::file("picot_and_band.stk");
  const std::size_t n = sock.sizes();
  const knit::PieceFacts& piece = sock.edition("standard").pieces[0];
  const Row body = {30, 36, 42, 48, 54, 66, 72, 78}, hem = {4, 6, 6, 8, 8, 8, 10, 10};
  const Row eyelets = {14, 17, 20, 23, 26, 32, 35, 38}, tube = {68, 86, 106, 124, 142, 164, 184, 198};
  const Row toe = {20, 24, 28, 32, 36, 44, 48, 52};
  for (const bool mirrored : {false, true}) {
    INFO((mirrored ? "mirrored" : "first"));
    const auto& steps = steps_of(piece, mirrored);
    const Side right = side_of(Side::right, mirrored), left = side_of(Side::left, mirrored);
    CHECK(stitches(steps, "hem", n) == body);
    CHECK(counters(steps, "hem", n) == twice(hem));
    CHECK(all_on(steps, "hem", n, right));
    CHECK(amounts(only(steps, Act::move, 0)) == eyelets);
    CHECK(counters(steps, "band", n) == Row(n, 11));
    CHECK(all_on(steps, "band", n, left));
    // Columns of the 24-stitch repeat under the end needles, column 1 at L12: seeds for two sizes, ripple for the
    // others. The second sock has column 1 at R12 and is read from right to left, so its columns are told from the
    // other end.
    const knit::Step &seeds = only(steps, Act::knit_chart, 0), &ripple = only(steps, Act::knit_chart, 1);
    Row first, last;
    for (std::size_t i = 0; i < n; ++i) {
      const knit::Step& chart = knit::has(seeds.sizes, i) ? seeds : ripple;
      CHECK(knit::has(chart.sizes, i));
      CHECK((&chart == &seeds) == (i < 2));
      CHECK(chart.records[i].amount == 9);
      const auto outermost = static_cast<std::int32_t>(body[i] / 2);
      CHECK(chart.records[i].needles.first.number == -outermost);
      CHECK(chart.records[i].needles.last.number == outermost);
      first.push_back(chart.records[i].target);
      last.push_back(chart.records[i].second_amount);
    }
    CHECK(first == Row{22, 19, 16, 13, 10, 4, 1, 22});
    CHECK(last == Row{3, 6, 9, 12, 15, 21, 24, 3});
    CHECK(counters(steps, "leg", n) == tube);
    CHECK(all_on(steps, "leg", n, right));
    CHECK(stitches(steps, "toe", n) == Row(n, 0));  // gathered off
    CHECK(amounts(only(steps, Act::gather)) == toe);
    const knit::Step& cut = only(steps, Act::cut, 1);
    CHECK(tails_cm(cut) == Row(n, 80));
    CHECK(row_of(n, [&](std::size_t i) { return cut.records[i].before.row_counter; }) == Row(n, 4));
  }
}

TEST_CASE("an afterthought heel in both editions, first and mirrored") {
  const Knitted sock = Knitted::file("afterthought_heel.stk");
  const std::size_t n = sock.sizes();
  struct Expected {
    const Counts& counts;
    Row foot;  // longer than the others': the heel takes two plain rows, the toe four in all
  };
  for (const Expected& expected :
       {Expected{mid, {20, 26, 36, 42, 48, 58, 64, 70}}, Expected{standard, {26, 34, 44, 52, 60, 72, 80, 88}}}) {
    const Counts& counts = expected.counts;
    const knit::EditionFacts& edition = sock.edition(counts.edition);
    for (const bool mirrored : {false, true}) {
      INFO(counts.edition << (mirrored ? ", mirrored" : ""));
      const auto& leg = steps_of(edition.pieces[0], mirrored);
      CHECK(counters(leg, "leg", n) == counts.leg);
      CHECK(stitches(leg, "leg", n) == counts.body);
      CHECK(all_on(leg, "line", n, side_of(Side::right, mirrored)));  // knitted by hand: the carriage stays
      CHECK(counters(leg, "foot", n) == expected.foot);
      CHECK(amounts(only(leg, Act::gather)) == counts.half);
      const auto& heel = steps_of(edition.pieces[1], mirrored);
      const knit::Step& cut = only(heel, Act::cut);
      CHECK(row_of(n, [&](std::size_t i) { return cut.records[i].before.row_counter; }) == counts.heel);
      CHECK(stitches(heel, "heel", n) == Row(n, 0));  // all on waste at its end
      CHECK(tails_cm(cut) == counts.tail);
    }
    const auto& finish = edition.finish;
    CHECK(amounts(only(finish, Act::graft)) == counts.half);
    CHECK(second_amounts(only(finish, Act::graft)) == plus(counts.half, -1));  // head to foot: n whole to n - 1 between
                                                                               // and a half at each end
    const Row seam = plus(sum(counts.leg, expected.foot), 4);                  // the toe's rows
    CHECK(amounts(only(finish, Act::seam)) == seam);
    CHECK(second_amounts(only(finish, Act::seam)) == seam);
  }
}

TEST_CASE("a slipper sock in two pieces from the toe, with its cord, in both editions, first and mirrored") {
  // The source makes both socks alike; a second one with the sides changed must come out the same.
  const Knitted sock = Knitted::file("slipper_with_cord.stk", "make 2 {", "make 2, second mirrored {");
  const std::size_t n = sock.sizes();
  struct Expected {
    const char* edition;
    Row start, half, foot, heel, ankle, eyelets, cord, side;
  };
  const Expected both[] = {{"bulky",
                            {6, 6, 6, 8, 8, 8, 10, 10},
                            {10, 10, 12, 14, 14, 16, 18, 20},
                            {6, 10, 11, 15, 19, 22, 26, 25},
                            {12, 12, 16, 20, 20, 20, 24, 28},
                            {6, 10, 12, 14, 16, 18, 20, 22},
                            {3, 3, 4, 4, 4, 5, 6, 6},
                            {158, 166, 172, 180, 188, 200, 210, 216},
                            {26, 34, 40, 46, 52, 60, 66, 70}},
                           {"mid",
                            {6, 8, 8, 10, 10, 12, 12, 14},
                            {12, 14, 16, 18, 20, 22, 24, 26},
                            {9, 13, 18, 22, 23, 33, 34, 38},
                            {16, 20, 20, 24, 28, 28, 32, 36},
                            {10, 12, 16, 18, 22, 24, 28, 30},
                            {4, 4, 5, 6, 6, 7, 8, 8},
                            {216, 226, 236, 248, 258, 274, 286, 296},
                            {36, 42, 54, 60, 68, 80, 88, 94}}};
  for (const Expected& expected : both) {
    const knit::EditionFacts& edition = sock.edition(expected.edition);
    for (const bool mirrored : {false, true}) {
      INFO(expected.edition << (mirrored ? ", mirrored" : ""));
      const Side right = side_of(Side::right, mirrored);
      const auto& sole = steps_of(edition.pieces[0], mirrored);
      const auto& top = steps_of(edition.pieces[1], mirrored);
      const auto& cord = steps_of(edition.pieces[2], mirrored);
      for (const auto* piece : {&sole, &top}) {
        CHECK(amounts(only(*piece, Act::cast_on)) == expected.start);
        CHECK(stitches(*piece, "toe", n) == expected.half);
        CHECK(counters(*piece, "foot", n) == expected.foot);
        CHECK(amounts(only(*piece, Act::move)) == expected.eyelets);
      }
      CHECK(all_on(sole, "foot", n, right));  // toe and foot are of one parity, so the heel begins there
      CHECK(counters(sole, "heel", n) == expected.heel);
      CHECK(all_on(sole, "heel", n, right));
      CHECK(counters(sole, "back", n) == expected.ankle);
      CHECK(counters(top, "front", n) == expected.ankle);
      CHECK(amounts(only(cord, Act::knit)) == expected.cord);
    }
    // The sole has the two rows of its short-row section more at each side.
    for (const std::size_t seam : {1u, 2u}) {
      CHECK(amounts(only(edition.finish, Act::seam, seam)) == plus(expected.side, 2));
      CHECK(second_amounts(only(edition.finish, Act::seam, seam)) == expected.side);
    }
    // Twice the eyelets of one piece take the cord.
    CHECK(amounts(only(edition.finish, Act::thread_through)) == twice(expected.eyelets));
  }
}
