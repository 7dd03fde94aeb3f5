// How the layers of a graft lie.
#include "compiler/document/layers.hpp"

#include <catch2/catch.hpp>

#include "tests/unit/sample_facts.hpp"

using namespace stk;
using document::Layers;
using knit::Act;

namespace {

// Twenty stitches on the main bed and so many on the second.
void both_beds(test::Recorder& r, std::int32_t second) {
  r.cast_on({20, 20, 20, 20});
  for (knit::MachineState& state : r.states()) {
    state.second_bed = second;
    state.stitches += second;
  }
}
// A pass of the carriage for each row; rounds are two.
void rows(test::Recorder& r, std::int64_t amount, bool rounds) {
  knit::Step& step = r.counted(Act::knit, {amount, amount, amount, amount});
  for (knit::SizeRecord& record : step.records) record.after.row_counter += rounds ? 2 * amount : amount;
}
void scrap(test::Recorder& r, std::vector<std::string> edges) { r.op(Act::scrap_off).operation.edges = std::move(edges); }

Layers of(test::Recorder& r, const std::string& a, const std::string& b) {
  knit::EditionFacts edition;
  edition.pieces.push_back({});
  edition.pieces.back().name = "sock";
  edition.pieces.back().first = r.take();
  return document::layers_of(edition, {a}, {b});
}

}  // namespace

TEST_CASE("a tube scrapped off both beds at once lies as it came off") {
  test::Recorder r(4);
  both_beds(r, 20);
  rows(r, 5, true);
  scrap(r, {"a", "b"});
  CHECK(of(r, "sock.a", "sock.b") == Layers::as_they_came);
}

TEST_CASE("edges of plain fabric are laid on one another, as is one edge on the cast-on") {
  test::Recorder r(4);
  both_beds(r, 0);
  rows(r, 5, false);
  scrap(r, {"a"});
  rows(r, 5, false);
  scrap(r, {"b"});
  CHECK(of(r, "sock.a", "sock.b") == Layers::laid);
  test::Recorder again(4);
  both_beds(again, 0);
  rows(again, 5, false);
  scrap(again, {"a"});
  CHECK(of(again, "sock.a", "sock.cast_on") == Layers::laid);
}

TEST_CASE("a rib at the edge has no purl side to speak of; one that lies elsewhere does not matter") {
  test::Recorder r(4);
  both_beds(r, 20);
  rows(r, 5, false);
  scrap(r, {"rib_end"});
  rows(r, 5, true);
  scrap(r, {"a", "b"});
  std::vector<knit::Step> steps = r.take();
  knit::EditionFacts edition;
  edition.pieces.push_back({});
  edition.pieces.back().name = "sock";
  edition.pieces.back().first = steps;
  CHECK(document::layers_of(edition, {"sock.rib_end"}, {"sock.a"}) == Layers::untold);
  CHECK(document::layers_of(edition, {"sock.a"}, {"sock.b"}) == Layers::as_they_came);
}

TEST_CASE("fabric that was turned over on its way shows another side") {
  test::Recorder r(4);
  both_beds(r, 0);
  rows(r, 5, false);
  scrap(r, {"a"});
  r.op(Act::hang_edge).operation.method = knit::Method::reversed;
  rows(r, 5, false);
  scrap(r, {"b"});
  CHECK(of(r, "sock.a", "sock.b") == Layers::untold);
}
