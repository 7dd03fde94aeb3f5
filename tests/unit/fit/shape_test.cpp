// What is read from the record of whole socks: how wide the leg is where, and where it ends.
#include "compiler/fit/shape.hpp"

#include <catch2/catch.hpp>

#include "compiler/values/format.hpp"
#include "tests/unit/service/knitted.hpp"

using namespace stk;

namespace {

struct Part {
  std::string section;
  std::int64_t stitches;
  std::string fabric;
  friend bool operator==(const Part&, const Part&) = default;
};

std::vector<Part> parts(const fit::Leg& leg) {
  std::vector<Part> all;
  for (const fit::Stretch& stretch : leg.stretches) {
    const Part part{stretch.section, stretch.stitches, fit::fabric_word(stretch.fabric)};
    if (all.empty() || !(all.back() == part)) all.push_back(part);
  }
  return all;
}

fit::Leg leg(const test::Knitted& knitted, const char* edition, std::size_t size = 0) {
  const auto found = fit::leg_of(knitted.edition(edition), size);
  REQUIRE(found);
  return *found;
}

constexpr const char* head =
    "stockinger 1\n"
    "edition mid {\n machine mid_gauge with second bed\n yarn main \"sport wool\", 200 tex\n"
    " yarn waste \"smooth cotton\"\n gauge 24 sts, 34 rows to 10 cm\n gauge rib 30 sts, 36 rows to 10 cm, at MT - 3\n}\n";

}  // namespace

TEST_CASE("a heel ends the leg, and a tube's leg ends above the middle of the foot") {
  const test::Knitted heel("heel.stk", std::string(head) +
                                           "use heels\npiece sock {\n section leg \"Leg\"\n cast on 48, e-wrap, carriage right\n"
                                           " knit 60 rows\n section heel \"Heel\"\n work short_row_heel(right half, down_to: 8)\n"
                                           " section foot \"Foot\"\n knit 60 rows\n bind off all, by latch\n}\n"
                                           "finish {\n seam sock.left to sock.right, mattress, with main\n weave in ends\n}\n");
  const fit::Leg with = leg(heel, "mid");
  CHECK(with.has_heel);
  REQUIRE(with.stretches.size() == 1);
  CHECK(with.stretches[0].rows == 60);
  CHECK(with.stretches[0].stitches == 48);
  CHECK(with.stretches[0].section == "Leg");
  CHECK(values::centimetres(*with.stretches[0].width()) == "20");
}

TEST_CASE("a piece that nothing closes has no leg; two pieces sewn to one another have one") {
  const std::string flat =
      "piece a {\n cast on 24, e-wrap, carriage right\n knit 40 rows\n bind off all, by latch\n}\n";
  const test::Knitted open("open.stk", head + flat + "finish {\n weave in ends\n}\n");
  CHECK_FALSE(fit::leg_of(open.edition("mid"), 0));
  const std::string other =
      "piece b {\n cast on 20, e-wrap, carriage right\n knit 40 rows\n bind off all, by latch\n}\n";
  const test::Knitted two("two.stk", head + flat + other +
                                         "finish {\n seam a.left to b.right, mattress, with main\n"
                                         " seam a.right to b.left, mattress, with main\n weave in ends\n}\n");
  CHECK(parts(leg(two, "mid")) == std::vector<Part>{{"", 44, "plain"}});
}

TEST_CASE("a needle left out counts, one that a move emptied does not") {
  const test::Knitted ribbed("mock.stk", std::string(head) +
                                             "piece a {\n set needles [| .] across 37, ending [|]\n"
                                             " cast on all, e-wrap, carriage right\n knit 20 rows\n bind off all, by latch\n}\n"
                                             "finish {\n seam a.left to a.right, mattress, with main\n weave in ends\n}\n");
  CHECK(parts(leg(ribbed, "mid")) == std::vector<Part>{{"", 37, "rib"}});
}

TEST_CASE("a rib on two beds has the width of its own gauge, or none") {
  const auto rib = [&](const char* tension) {
    return test::Knitted("rib.stk", std::string(head) +
                                        "piece a {\n pitch full\n set needles [| | . .] across 48, second bed [. . | |]\n thread main\n" +
                                        tension + " cast on all, zigzag, carriage right\n hang comb\n knit 20 rows\n move second bed to main bed\n"
                                        " bind off all, by latch\n}\n"
                                        "finish {\n seam a.left to a.right, mattress, with main\n weave in ends\n}\n");
  };
  const test::Knitted own = rib(" tension MT - 3 on both beds\n"), none = rib(" tension MT on both beds\n");
  const fit::Leg measured = leg(own, "mid");
  CHECK(parts(measured) == std::vector<Part>{{"", 48, "rib"}});
  CHECK(values::centimetres(*measured.stretches[0].width()) == "16");
  CHECK_FALSE(leg(none, "mid").stretches[0].width());
}
