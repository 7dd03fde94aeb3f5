#include <catch2/catch.hpp>

#include <random>
#include <set>

#include "tests/unit/runtime/support.hpp"

using namespace stk::runtime;

namespace {

std::set<int> members(const NeedleSet& set) {
  std::set<int> all;
  for (const int needle : set) all.insert(needle);
  return all;
}

}  // namespace

TEST_CASE("a needle set does what a set of numbers does") {
  std::mt19937 random(7);
  for (int round = 0; round < 300; ++round) {
    NeedleSet a, b;
    std::set<int> as, bs;
    for (int times = 0; times < 60; ++times) {
      const int x = static_cast<int>(random() % needle_limit), y = static_cast<int>(random() % 130);
      a.insert(x), as.insert(x);
      b.insert(y), bs.insert(y);
    }
    std::set<int> both, either = as, only = as;
    for (const int y : bs) {
      if (as.count(y)) both.insert(y);
      either.insert(y);
      only.erase(y);
    }
    CHECK(members(a & b) == both);
    CHECK(members(a | b) == either);
    CHECK(members(a - b) == only);
    CHECK(a.count() == static_cast<int>(as.size()));
    CHECK(a.first() == *as.begin());
    CHECK(a.last() == *as.rbegin());
    const int by = static_cast<int>(random() % 2100) - 1050;
    std::set<int> moved;
    for (const int x : as) {
      if (x + by >= 0 && x + by < needle_limit) moved.insert(x + by);
    }
    INFO("by " << by);
    CHECK(members(a.shifted(by)) == moved);
    const int at = static_cast<int>(random() % needle_limit), other = static_cast<int>(random() % needle_limit);
    int between = 0;
    for (const int x : as) between += x > std::min(at, other) && x < std::max(at, other);
    CHECK(a.count_between(at, other) == between);
    const auto next = as.lower_bound(at);
    CHECK(a.next(at) == (next == as.end() ? -1 : *next));
    const auto after = as.upper_bound(at);
    CHECK(a.previous(at) == (after == as.begin() ? -1 : *std::prev(after)));
    CHECK(a.mirrored(needle_limit).mirrored(needle_limit) == a);
  }
}

TEST_CASE("ranges and ends of a needle set") {
  CHECK(NeedleSet::range(3, 5).count() == 3);
  CHECK(NeedleSet::range(5, 3).empty());
  CHECK(NeedleSet::range(-4, 1) == NeedleSet::range(0, 1));
  CHECK(NeedleSet::range(0, 5000).count() == needle_limit);
  CHECK(NeedleSet::range(63, 64).count() == 2);
  NeedleSet set;
  set.insert(-1);
  set.insert(needle_limit);
  CHECK(set.empty());
  CHECK(set.first() == -1);
  CHECK(set.last() == -1);
  CHECK_FALSE(set.contains(-1));
  CHECK(set.side_by_side());
  CHECK(NeedleSet::range(60, 70).side_by_side());
  CHECK_FALSE((NeedleSet::range(60, 70) - NeedleSet::one(64)).side_by_side());
}

TEST_CASE("needles are named outwards from the centre") {
  MachineSpec spec;
  spec.needles = 150;
  CHECK(needle_name(spec, 0) == "L75");
  CHECK(needle_name(spec, 74) == "L1");
  CHECK(needle_name(spec, 75) == "R1");
  CHECK(needle_name(spec, 149) == "R75");
  for (const int needles : {2, 3, 150, 151, 1000}) {
    spec.needles = needles;
    for (int needle = 0; needle < needles; ++needle) CHECK(needle_index(spec, needle_name(spec, needle)) == needle);
    CHECK(needle_index(spec, Side::left, needles / 2 + 1) == -1);
    CHECK(needle_index(spec, Side::right, needles - needles / 2 + 1) == -1);
  }
  for (const char* name : {"", "L", "R0", "L0", "r1", "R01", "R-1", "R1x", "M1", "R99999999999"})
    CHECK(needle_index(spec, name) == -1);
}

TEST_CASE("a machine's figures have their ranges") {
  MachineSpec spec;
  CHECK(spec.valid());
  const auto refused = [](auto change) {
    MachineSpec other;
    change(other);
    return !other.valid();
  };
  CHECK(refused([](MachineSpec& of) { of.needles = 1; }));
  CHECK(refused([](MachineSpec& of) { of.needles = needle_limit + 1; }));
  CHECK_FALSE(refused([](MachineSpec& of) { of.needles = needle_limit; }));
  CHECK(refused([](MachineSpec& of) { of.beds = 3; }));
  CHECK(refused([](MachineSpec& of) { of.float_limit = -1; }));
  CHECK(refused([](MachineSpec& of) { of.hook_limit = 0; }));
  CHECK(refused([](MachineSpec& of) { of.usual_waste_rows = 0; }));
}
