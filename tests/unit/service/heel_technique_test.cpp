// The library's short-row heel as a pattern works it, over every width from 3 to 40 and every narrowing, with both ways
// to wrap: on all needles, on either half, and on one bed of a tube. Every number is stated here from the shape, two
// trapezoids one on the other, and none is taken from the program:
//
//   N   ---------------    rows    a needle less or more in each: 2(N - M); an odd difference takes a plain row at the
//        -------------             turn, so that as many come back as went
//   M       -------        loops   N - 1 to M and M + 1 to N: (N - M)(N + M); for the carriage's own wrap a needle is
//        -------------             knitted once more before it is held: (N - M)(N + M + 1); the plain row has M
//   N   ---------------    wraps   one where a row ends, but none at an outer end once nothing is held there; the
//                                  carriage's own are no loops of their own
#include "tests/unit/service/knitted.hpp"

using namespace stk;
using namespace stk::test;
using knit::Side;

namespace {

struct Heel {
  std::int64_t width, down;
  std::int64_t difference() const { return width - down; }
  bool odd() const { return difference() % 2 != 0; }
};
struct Place {
  const char* name;
  const char* part;        // the needles of the heel, as the language calls them
  const char* beginning;   // what is knitted before it, 5 loops on each stitch
  std::int64_t stitches;   // on the needles, for each of the heel
  std::int64_t free_ends;  // ends of the heel beside which nothing is held in the end
  Side side;               // where the carriage waits when it begins
};
const Place places[] = {
    {"on all needles", "all", " cast on width_of, e-wrap, carriage right\n knit 3 rows\n hang comb\n knit 1 row\n", 1,
     2, Side::right},
    {"on the right half", "right half",
     " cast on 2 * width_of, e-wrap, carriage right\n knit 3 rows\n hang comb\n knit 1 row\n", 2, 1, Side::right},
    {"on the left half", "left half",
     " cast on 2 * width_of, e-wrap, carriage left\n knit 3 rows\n hang comb\n knit 1 row\n", 2, 1, Side::left},
    {"on the main bed of a tube", "main bed",
     " pitch half\n set needles [|] across width_of, second bed [|]\n cast on main bed, e-wrap, carriage left\n"
     " cast on second bed, e-wrap, carriage right\n knit 3 rounds\n hang comb\n knit 1 round\n",
     2, 2, Side::right}};

std::string source_of(const Place& place, const std::string& wrap, const std::vector<Heel>& heels) {
  std::string names, widths, downs;
  for (const Heel& heel : heels) {
    names += " w" + std::to_string(heel.width) + "_" + std::to_string(heel.down);
    widths += " " + std::to_string(heel.width);
    downs += " " + std::to_string(heel.down);
  }
  return "stockinger 1\npattern \"Widths\" {\n by \"Tidewrack Hosiery\"\n}\nuse heels\nsizes {\n" + names +
         "\n width_of" + widths + " sts\n down_of" + downs +
         " sts\n}\nedition mid {\n machine mid_gauge with second bed\n yarn main \"sport wool\", 330 tex\n"
         " gauge 24 sts, 34 rows to 10 cm\n}\npiece sock {\n section leg \"Leg\"\n thread main\n" +
         place.beginning + " section heel \"Heel\"\n work short_row_heel(" + place.part +
         ", down_to: down_of, wrap: " + wrap + ")\n section rest \"Rest\"\n}\nfinish {\n weave in ends\n}\n";
}

// As many at a time as a pattern may have sizes. Half of the needles are narrowed by an even number alone: after an odd
// one the yarn would end beside the half that waits.
enum class Differences { all, even, odd };
std::vector<std::vector<Heel>> every_heel(Differences wanted) {
  std::vector<std::vector<Heel>> result(1);
  for (std::int64_t width = 3; width <= 40; ++width)
    for (std::int64_t down = 2; down < width; ++down) {
      const Heel heel{width, down};
      if (wanted != Differences::all && heel.odd() != (wanted == Differences::odd)) continue;
      if (result.back().size() == 64) result.emplace_back();
      result.back().push_back(heel);
    }
  return result;
}

}  // namespace

TEST_CASE("the heel technique over every width and every narrowing") {
  const std::string wrap = GENERATE("by_hand", "by_carriage");
  const bool by_hand = wrap == "by_hand";
  for (const Place& place : places) {
    int cases = 0;
    const bool on_a_half = place.free_ends == 1;
    for (const std::vector<Heel>& heels : every_heel(on_a_half ? Differences::even : Differences::all)) {
      text::MemoryFiles files(stdlib::files());
      const service::Checked checked = service::Session(files).check("widths.stk", source_of(place, wrap, heels), {});
      INFO(wrap << " " << place.name << "\n"
                << findings::render_text(checked.findings, checked.sources, checked.names, {}, 0));
      // The stitches stay on the needles at the end of this piece, and the widest hold the rest long (a note). An open
      // turn, a long float or a hook with more than the 3 loops that it holds would be a finding besides.
      for (const findings::Finding& finding : checked.findings)
        REQUIRE((finding.code == findings::Code::E19 || finding.code == findings::Code::Y16));
      REQUIRE(checked.facts.has_value());
      const knit::EditionFacts& edition = checked.facts->editions[0];
      const auto& heel_steps = section(edition.pieces[0].first, "heel").steps;
      for (std::size_t i = 0; i < heels.size(); ++i) {
        const Heel& heel = heels[i];
        INFO("from " << heel.width << " to " << heel.down);
        const auto end = end_of(heel_steps, i);
        REQUIRE(end.has_value());
        REQUIRE(end->held == 0);
        REQUIRE(end->stitches == place.stitches * heel.width);
        ++cases;
        const std::int64_t rows = 2 * heel.difference() + (heel.odd() ? 1 : 0);
        REQUIRE(end->row_counter == rows);
        REQUIRE((end->carriage == place.side) == !heel.odd());
        const std::int64_t before = 5 * place.stitches * heel.width;
        const std::int64_t loops =
            heel.difference() * (heel.width + heel.down + (by_hand ? 0 : 1)) + (heel.odd() ? heel.down : 0);
        const std::int64_t wraps = rows - place.free_ends - (by_hand ? 0 : heel.difference());
        REQUIRE(edition.yarns[0].loops[i] == before + loops + wraps);
      }
    }
    CHECK(cases == (on_a_half ? 361 : 741));
  }
}

TEST_CASE("the heel technique refuses an odd difference on half of the needles, in every size") {
  int cases = 0;
  for (const Place& place : places) {
    if (place.free_ends != 1) continue;
    for (const std::vector<Heel>& heels : every_heel(Differences::odd)) {
      text::MemoryFiles files(stdlib::files());
      const service::Checked checked =
          service::Session(files).check("widths.stk", source_of(place, "by_hand", heels), {});
      INFO(place.name << "\n" << findings::render_text(checked.findings, checked.sources, checked.names, {}, 0));
      std::uint64_t refused = 0;
      for (const findings::Finding& finding : checked.findings)
        if (finding.code == findings::Code::C38)
          for (const findings::Lanes& lanes : finding.lanes) refused |= lanes.sizes;
      for (std::size_t i = 0; i < heels.size(); ++i) {
        INFO("from " << heels[i].width << " to " << heels[i].down);
        REQUIRE(((refused >> i) & 1U) != 0);
        ++cases;
      }
    }
  }
  CHECK(cases == 2 * (741 - 361));
}
