// Whole constructions in eight sizes, against counts that were worked out by hand: knitted needle by needle on paper rules
// before this program existed, size by size. No number here was taken from the program.
#include "tests/unit/service/knitted.hpp"

using namespace stk;
using namespace stk::test;
using knit::Act;
using knit::Side;

namespace {

// The rows of a heel N -> M -> N at one needle a row are 2(N - M) (stitch geometry, and a published flat machine sock of
// 1979: 36 -> 20 -> 36 in 32 rows); here N is half of the body and M a third of that, made even.
const Row half_mid = {12, 14, 16, 18, 22, 24, 28, 30};
const Row body_mid = {24, 28, 32, 36, 44, 48, 56, 60};
const Row heel_mid = {16, 20, 20, 24, 28, 32, 36, 40};
const Row leg_mid = {20, 28, 34, 40, 48, 54, 62, 64};
const Row foot_mid = {18, 22, 32, 36, 40, 48, 52, 56};

}  // namespace

TEST_CASE("a flat sock with a mock-rib hem and short rows") {
  const Knitted sock = Knitted::file("mock_rib_hem.stk");
  const std::size_t n = sock.sizes();
  for (const char* edition : {"mid"}) {
    const knit::PieceFacts& piece = sock.edition(edition).pieces[0];
    for (const bool mirrored : {false, true}) {
      const auto& steps = mirrored ? piece.mirrored : piece.first;
      const Side side = mirrored ? Side::left : Side::right;
      CHECK(counters(steps, "hem", n) == Row{16, 20, 22, 22, 26, 30, 30, 34});
      CHECK(stitches(steps, "hem", n) == body_mid);
      CHECK(amounts(only(steps, Act::set_needles)) == Row{13, 15, 17, 19, 23, 25, 29, 31});
      CHECK(amounts(only(steps, Act::bring_into_work)) == Row{12, 14, 16, 18, 22, 24, 28, 30});
      CHECK(counters(steps, "leg", n) == leg_mid);
      CHECK(all_on(steps, "leg", n, side));
      CHECK(counters(steps, "heel", n) == heel_mid);
      CHECK(all_on(steps, "heel", n, side));
      CHECK(counters(steps, "foot", n) == foot_mid);
      CHECK(tails_cm(only(steps, Act::cut)) == Row{35, 40, 40, 45, 50, 55, 60, 65});
      const knit::Step& off = only(steps, Act::scrap_off);
      for (std::size_t i = 0; i < n; ++i)
        CHECK(off.records[i].part_counts == std::vector<std::int32_t>(2, static_cast<std::int32_t>(half_mid[i])));
    }
    CHECK(piece.mirrors_exactly);
    const auto& finish = sock.edition(edition).finish;
    CHECK(amounts(only(finish, Act::graft)) == half_mid);
    CHECK(second_amounts(only(finish, Act::graft)) == half_mid);
    // The two selvedges differ by 2 rows for each short-row section: 38 and 42 above the hem, and the hem's own rows.
    const Row hem = {16, 20, 22, 22, 26, 30, 30, 34}, left = {38, 50, 66, 76, 88, 102, 114, 120};
    const Row rows = amounts(only(finish, Act::seam)), other = second_amounts(only(finish, Act::seam));
    for (std::size_t i = 0; i < n; ++i) {
      CHECK(rows[i] == left[i] + hem[i]);
      CHECK(other[i] == left[i] + 4 + hem[i]);
    }
  }
}

TEST_CASE("a tube on two beds, its heel and toe on the main bed") {
  const Knitted sock = Knitted::file("tube_on_two_beds.stk");
  const std::size_t n = sock.sizes();
  const auto& steps = sock.edition("mid").pieces[0].first;
  CHECK(counters(steps, "cuff", n).size() == n);
  CHECK(amounts(only(steps, Act::transfer)) == half_mid);
  CHECK(counters(steps, "leg", n) == Row{42, 56, 68, 82, 96, 110, 124, 130});
  CHECK(stitches(steps, "leg", n) == body_mid);
  CHECK(counters(steps, "heel", n) == heel_mid);
  CHECK(counters(steps, "foot", n) == Row{36, 44, 64, 72, 80, 96, 104, 112});
  CHECK(all_on(steps, "foot", n, Side::right));
  CHECK(tails_cm(only(steps, Act::cut, 0)) == Row{20, 25, 25, 25, 25, 25, 25, 25});
  CHECK(tails_cm(only(steps, Act::cut, 1)) == Row{35, 40, 45, 45, 55, 55, 65, 65});
  const auto& finish = sock.edition("mid").finish;
  CHECK(amounts(only(finish, Act::graft)) == half_mid);
  CHECK(amounts(only(finish, Act::seam)) == second_amounts(only(finish, Act::seam)));
}

TEST_CASE("a heel flap with gussets") {
  const Knitted sock = Knitted::file("flap_and_gusset.stk");
  const std::size_t n = sock.sizes();
  const knit::PieceFacts& piece = sock.edition("mid").pieces[0];
  for (const bool mirrored : {false, true}) {
    const auto& steps = mirrored ? piece.mirrored : piece.first;
    CHECK(counters(steps, "leg", n) == leg_mid);
    CHECK(counters(steps, "flap", n) == Row{12, 14, 16, 18, 22, 24, 28, 30});
    CHECK(counters(steps, "turn", n) == heel_mid);
    CHECK(amounts(only(steps, Act::pick_up, 0)) == Row{7, 8, 9, 10, 12, 13, 15, 16});
    CHECK(amounts(only(steps, Act::pick_up, 1)) == Row{7, 8, 9, 10, 12, 13, 15, 16});
    CHECK(stitches(steps, "gusset", n) == half_mid);
    CHECK(counters(steps, "gusset", n) == foot_mid);
    CHECK(all_on(steps, "gusset", n, mirrored ? Side::left : Side::right));
    CHECK(tails_cm(only(steps, Act::cut, 2)) == Row{35, 40, 45, 45, 55, 55, 65, 65});
  }
  CHECK(piece.mirrors_exactly);
  const auto& finish = sock.edition("mid").finish;
  CHECK(amounts(only(finish, Act::seam, 0)) == Row{20, 24, 34, 38, 42, 50, 54, 58});
  CHECK(second_amounts(only(finish, Act::seam, 0)) == foot_mid);
  CHECK(amounts(only(finish, Act::seam, 2)) == leg_mid);
}

TEST_CASE("a picot hem and a two-colour band") {
  const Knitted sock = Knitted::file("picot_and_band.stk");
  const std::size_t n = sock.sizes();
  const auto& steps = sock.edition("standard").pieces[0].first;
  CHECK(stitches(steps, "hem", n) == Row{30, 36, 42, 48, 54, 66, 72, 78});
  CHECK(counters(steps, "hem", n) == Row{8, 12, 12, 16, 16, 16, 20, 20});
  CHECK(amounts(only(steps, Act::move, 0)) == Row{14, 17, 20, 23, 26, 32, 35, 38});
  CHECK(counters(steps, "band", n) == Row(8, 11));
  CHECK(all_on(steps, "band", n, Side::left));
  // Columns of the 24-stitch repeat under the end needles, column 1 at L12: seeds for two sizes, ripple for the others.
  const knit::Step &seeds = only(steps, Act::knit_chart, 0), &ripple = only(steps, Act::knit_chart, 1);
  Row left, right;
  for (std::size_t i = 0; i < n; ++i) {
    const knit::Step& chart = knit::has(seeds.sizes, i) ? seeds : ripple;
    CHECK(knit::has(chart.sizes, i));
    left.push_back(chart.records[i].target);
    right.push_back(chart.records[i].second_amount);
  }
  CHECK(left == Row{22, 19, 16, 13, 10, 4, 1, 22});
  CHECK(right == Row{3, 6, 9, 12, 15, 21, 24, 3});
  CHECK(counters(steps, "leg", n) == Row{68, 86, 106, 124, 142, 164, 184, 198});
  CHECK(stitches(steps, "toe", n) == Row(8, 0));   // gathered off
  CHECK(amounts(only(steps, Act::gather)) == Row{20, 24, 28, 32, 36, 44, 48, 52});
}

TEST_CASE("the heel technique over every width and every narrowing") {
  // Every width from 3 to 40 as a size of its own; the halves of a sock of twice the width. Rows 2(N - M), one more when
  // N - M is odd, and then the carriage ends on the other side (worked out in the plane: each row of the narrowing loses a
  // needle, each row of the widening brings one back; an odd difference needs one plain row at the turn).
  const std::string wrap = GENERATE("by_hand", "by_carriage");
  for (int down = 2; down < 40; down += 1) {
    std::string names, widths;
    std::vector<int> sizes;
    for (int width = std::max(3, down + 1); width <= 40; ++width) {
      names += " w" + std::to_string(width);
      widths += " " + std::to_string(width);
      sizes.push_back(width);
    }
    const std::string source = "stockinger 1\n"
        "pattern \"Widths\" {\n by \"Tidewrack Hosiery\"\n}\nuse heels\nsizes {\n" + names + "\n width_of" + widths + " sts\n}\n"
        "edition mid {\n machine mid_gauge\n yarn main \"sport wool\", 330 tex\n gauge 24 sts, 34 rows to 10 cm\n}\n"
        "piece sock {\n section heel \"Heel\"\n cast on 2 * width_of, e-wrap, carriage right\n knit 4 rows\n"
        " work short_row_heel(right half, down_to: " + std::to_string(down) + " sts, wrap: " + wrap + ")\n"
        " section rest \"Rest\"\n" + "}\nfinish {\n weave in ends\n}\n";
    // Stitches stay on the needles at the end of this piece, which is the one finding.
    text::MemoryFiles files(stdlib::files());
    const service::Checked checked = service::Session(files).check("widths.stk", source, {});
    INFO(findings::render_text(checked.findings, checked.sources, checked.names, {}, 0));
    for (const findings::Finding& finding : checked.findings) REQUIRE((finding.code == findings::Code::E19 || finding.severity == findings::Severity::note));
    const auto& steps = checked.facts->editions[0].pieces[0].first;
    for (std::size_t i = 0; i < sizes.size(); ++i) {
      const auto end = end_of(section(steps, "heel").steps, i);
      const int difference = sizes[i] - down;
      REQUIRE(end->row_counter == 2 * difference + difference % 2);
      REQUIRE(end->carriage == (difference % 2 ? Side::left : Side::right));
      REQUIRE(end->stitches == 2 * sizes[i]);
      REQUIRE(end->held == 0);
    }
  }
}

// The counts of the next two were worked out from the sizes and gauges in exact fractions, by hand and once more by a
// calculator that knows nothing of this program; the eases agree with those of the first paper knitting.
TEST_CASE("an afterthought heel in both editions, first and mirrored") {
  const Knitted sock = Knitted::file("afterthought_heel.stk");
  const std::size_t n = sock.sizes();
  struct Expected {
    const char* edition;
    Row body, half, leg, foot, heel, tail, seam;
  };
  const Expected both[] = {
      {"mid", body_mid, half_mid, leg_mid, {20, 26, 36, 42, 48, 58, 64, 70}, heel_mid, {35, 40, 45, 45, 55, 55, 65, 65},
       {44, 58, 74, 86, 100, 116, 130, 138}},
      {"standard", {32, 36, 40, 48, 52, 60, 68, 72}, {16, 18, 20, 24, 26, 30, 34, 36}, {26, 34, 42, 50, 58, 68, 76, 80},
       {26, 34, 44, 52, 60, 72, 80, 88}, {20, 24, 28, 32, 36, 40, 44, 48}, {40, 40, 45, 50, 50, 55, 65, 65},
       {56, 72, 90, 106, 122, 144, 160, 172}}};
  for (const Expected& expected : both) {
    INFO(expected.edition);
    const knit::EditionFacts& edition = sock.edition(expected.edition);
    for (const bool mirrored : {false, true}) {
      const Side side = mirrored ? Side::left : Side::right;
      const auto& leg = mirrored ? edition.pieces[0].mirrored : edition.pieces[0].first;
      CHECK(counters(leg, "leg", n) == expected.leg);
      CHECK(stitches(leg, "leg", n) == expected.body);
      CHECK(all_on(leg, "line", n, side));   // knitted by hand: the carriage stays
      CHECK(counters(leg, "foot", n) == expected.foot);
      CHECK(amounts(only(leg, Act::gather)) == expected.half);
      const auto& heel = mirrored ? edition.pieces[1].mirrored : edition.pieces[1].first;
      Row before_the_cut;
      for (const knit::SizeRecord& record : only(heel, Act::cut).records) before_the_cut.push_back(record.before.row_counter);
      CHECK(before_the_cut == expected.heel);
      CHECK(stitches(heel, "heel", n) == Row(n, 0));   // all on waste at its end
      CHECK(tails_cm(only(heel, Act::cut)) == expected.tail);
    }
    const auto& finish = edition.finish;
    CHECK(amounts(only(finish, Act::graft)) == expected.half);
    Row between = expected.half;   // head to foot: n whole to n - 1 between and a half at each end
    for (auto& loops : between) --loops;
    CHECK(second_amounts(only(finish, Act::graft)) == between);
    CHECK(amounts(only(finish, Act::seam)) == expected.seam);
    CHECK(second_amounts(only(finish, Act::seam)) == expected.seam);
  }
}

TEST_CASE("a slipper sock in two pieces from the toe, with its cord, in both editions") {
  const Knitted sock = Knitted::file("slipper_with_cord.stk");
  const std::size_t n = sock.sizes();
  struct Expected {
    const char* edition;
    Row start, half, foot, heel, ankle, eyelets, cord, side;
  };
  const Expected both[] = {
      {"bulky", {6, 6, 6, 8, 8, 8, 10, 10}, {10, 10, 12, 14, 14, 16, 18, 20}, {6, 10, 11, 15, 19, 22, 26, 25},
       {12, 12, 16, 20, 20, 20, 24, 28}, {6, 10, 12, 14, 16, 18, 20, 22}, {3, 3, 4, 4, 4, 5, 6, 6},
       {158, 166, 172, 180, 188, 200, 210, 216}, {26, 34, 40, 46, 52, 60, 66, 70}},
      {"mid", {6, 8, 8, 10, 10, 12, 12, 14}, {12, 14, 16, 18, 20, 22, 24, 26}, {9, 13, 18, 22, 23, 33, 34, 38},
       {16, 20, 20, 24, 28, 28, 32, 36}, {10, 12, 16, 18, 22, 24, 28, 30}, {4, 4, 5, 6, 6, 7, 8, 8},
       {216, 226, 236, 248, 258, 274, 286, 296}, {36, 42, 54, 60, 68, 80, 88, 94}}};
  for (const Expected& expected : both) {
    INFO(expected.edition);
    const knit::EditionFacts& edition = sock.edition(expected.edition);
    const auto &sole = edition.pieces[0].first, &top = edition.pieces[1].first, &cord = edition.pieces[2].first;
    for (const auto* piece : {&sole, &top}) {
      CHECK(amounts(only(*piece, Act::cast_on)) == expected.start);
      CHECK(stitches(*piece, "toe", n) == expected.half);
      CHECK(counters(*piece, "foot", n) == expected.foot);
      CHECK(amounts(only(*piece, Act::move)) == expected.eyelets);
    }
    CHECK(all_on(sole, "foot", n, Side::right));   // toe and foot are of one parity, so the heel begins on the right
    CHECK(counters(sole, "heel", n) == expected.heel);
    CHECK(counters(sole, "back", n) == expected.ankle);
    CHECK(counters(top, "front", n) == expected.ankle);
    CHECK(amounts(only(cord, Act::knit)) == expected.cord);
    // The sole has the two rows of its short-row section more at each side.
    const Row rows = amounts(only(edition.finish, Act::seam, 1)), other = second_amounts(only(edition.finish, Act::seam, 1));
    CHECK(other == expected.side);
    for (std::size_t i = 0; i < n; ++i) CHECK(rows[i] == expected.side[i] + 2);
    // Twice the eyelets of one piece take the cord.
    const Row threaded = amounts(only(edition.finish, Act::thread_through));
    for (std::size_t i = 0; i < n; ++i) CHECK(threaded[i] == 2 * expected.eyelets[i]);
  }
}
