// Yarn counts into tex and back.
#include "compiler/values/yarn_count.hpp"

#include <catch2/catch.hpp>

using namespace stk::values;

TEST_CASE("a plied count is so many times one single") {
  CHECK(*tex_of(CountSystem::metric, 80, 2) == 25);
  CHECK(*tex_of(CountSystem::metric, *from_digits("9.5")) == *from_digits("2000/19"));
  CHECK(*tex_of(CountSystem::tex, 20, 2) == 40);
  CHECK(*tex_of(CountSystem::denier, 9) == 1);
  CHECK(*tex_of(CountSystem::dtex, 78) == *from_digits("7.8"));
  CHECK(yarn_count(CountSystem::tex, 200)->dimension == dimensions::mass_per_length);
  CHECK(*amount_in(*yarn_count(CountSystem::tex, 200), *find_unit("tex")) == 200);
}

TEST_CASE("every system goes to tex and back, and is found by its spelling") {
  for (const CountSystemEntry& entry : count_systems()) {
    INFO(entry.spelling);
    CHECK(find_count_system(entry.spelling) == &entry);
    CHECK_FALSE(entry.source.empty());
    CHECK(*count_in(entry.system, *tex_of(entry.system, *from_digits("24.5"))) == *from_digits("24.5"));
    CHECK(*Rational::fraction(entry.factor.numerator(), entry.factor.denominator()) == entry.factor);
  }
  CHECK(find_count_system("nm") == nullptr);  // as spelled: Nm
}

TEST_CASE("a count that is none is said to be none") {
  CHECK(tex_of(CountSystem::metric, 0).reason() == Reason::division_by_zero);
  CHECK(tex_of(CountSystem::tex, 0).reason() == Reason::out_of_range);
  CHECK(tex_of(CountSystem::metric, -5).reason() == Reason::out_of_range);
  CHECK(tex_of(CountSystem::metric, 5, 0).reason() == Reason::out_of_range);
  CHECK(count_in(CountSystem::metric, 0).reason() == Reason::division_by_zero);
}

TEST_CASE("plies written before the count are told") {
  CHECK(looks_swapped(2, 24));
  CHECK_FALSE(looks_swapped(24, 2));
  CHECK_FALSE(looks_swapped(*from_digits("9.5"), 1));
  CHECK(looks_swapped(80, *from_digits("2.5")));
}
