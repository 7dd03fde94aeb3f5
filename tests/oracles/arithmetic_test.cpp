// Exact arithmetic, rounding and spelling against GMP's rationals (mpq_class of libgmp, an independent library) over
// many random cases of every width. Where GMP's answer does not fit our range we must say so, and must not where it
// does.
#include <gmpxx.h>

#include <catch2/catch.hpp>
#include <random>

#include "compiler/values/rounding.hpp"

using namespace stk::values;

namespace {

const mpz_class limit = (mpz_class(1) << 127) - 1;

mpq_class theirs(const Rational& ours) {
  return mpq_class(exact(ours));
}

bool fits(const mpq_class& value) {
  return abs(value.get_num()) <= limit && value.get_den() <= limit;
}

// Numerators and denominators from one bit to the full width, so that sums and products leave the range now and then.
class RandomRationals {
 public:
  Rational next() {
    const Wide numerator = wide();
    Wide denominator = wide();
    if (denominator == 0 || pick_(random_) % 3 == 0) denominator = 1;
    return *Rational::fraction(numerator, denominator);
  }
  std::mt19937_64& engine() { return random_; }

 private:
  Wide wide() {
    const unsigned bits = static_cast<unsigned>(pick_(random_) % 127) + 1;
    Wide value = static_cast<Wide>(random_() >> 1) << 63 | static_cast<Wide>(random_() >> 1);
    value &= (static_cast<Wide>(1) << (bits - 1)) - 1 + (static_cast<Wide>(1) << (bits - 1));
    return random_() % 2 == 0 ? value : -value;
  }
  std::mt19937_64 random_{20240611};
  std::uniform_int_distribution<int> pick_{0, 1 << 20};
};

struct Tally {
  int answered = 0, refused = 0;
  void compare(const Outcome<Rational>& ours, const mpq_class& expected) {
    if (ours) {
      ++answered;
      REQUIRE(theirs(*ours) == expected);
    } else {
      ++refused;
      REQUIRE(ours.reason() == Reason::out_of_range);
      REQUIRE_FALSE(fits(expected));
    }
  }
};

mpz_class floor_of(const mpq_class& value) {
  mpz_class result;
  mpz_fdiv_q(result.get_mpz_t(), value.get_num_mpz_t(), value.get_den_mpz_t());
  return result;
}

}  // namespace

TEST_CASE("sums, products and quotients agree with GMP") {
  RandomRationals random;
  Tally tally;
  for (int i = 0; i < 40000; ++i) {
    const Rational a = random.next(), b = random.next();
    INFO(exact(a) << " and " << exact(b));
    tally.compare(add(a, b), theirs(a) + theirs(b));
    tally.compare(subtract(a, b), theirs(a) - theirs(b));
    tally.compare(multiply(a, b), theirs(a) * theirs(b));
    if (b.is_zero()) {
      REQUIRE(divide(a, b).reason() == Reason::division_by_zero);
    } else {
      tally.compare(divide(a, b), theirs(a) / theirs(b));
    }
    REQUIRE((a < b) == (theirs(a) < theirs(b)));
    REQUIRE((a == b) == (theirs(a) == theirs(b)));
  }
  // Both kinds of answer must have been seen, or the test proves less than it says.
  CHECK(tally.answered > 20000);
  CHECK(tally.refused > 20000);
}

TEST_CASE("floor, ceil, nearest and decimals agree with GMP") {
  RandomRationals random;
  for (int i = 0; i < 40000; ++i) {
    const Rational a = random.next();
    INFO(exact(a));
    const mpq_class q = theirs(a);
    REQUIRE(theirs(floor(a)) == mpq_class(floor_of(q)));
    REQUIRE(theirs(ceil(a)) == mpq_class(-floor_of(-q)));
    REQUIRE(theirs(nearest(a)) == mpq_class(floor_of(q + mpq_class(1, 2))));
    REQUIRE(mpq_class(decimal(a, 0)) == mpq_class(floor_of(q + mpq_class(1, 2))));

    std::string digits = decimal(a, 3);
    digits.erase(digits.find('.'), 1);
    mpz_class shifted;
    REQUIRE(shifted.set_str(digits, 10) == 0);
    REQUIRE(shifted == floor_of(q * 1000 + mpq_class(1, 2)));
  }
}

TEST_CASE("rounding to multiples with an offset agrees with GMP") {
  std::mt19937_64 random(77);
  for (int i = 0; i < 60000; ++i) {
    const auto value = *Rational::fraction(static_cast<Wide>(random() % 2000001) - 1000000, random() % 5000 + 1);
    const auto step = *Rational::fraction(static_cast<Wide>(random() % 60 + 1), random() % 4 + 1);
    const auto offset = *Rational::fraction(static_cast<Wide>(random() % 41) - 20, random() % 3 + 1);
    INFO(exact(value) << " to " << exact(step) << "n + " << exact(offset));
    const mpq_class steps = (theirs(value) - theirs(offset)) / theirs(step);
    const auto back = [&](const mpz_class& n) -> mpq_class { return mpq_class(n) * theirs(step) + theirs(offset); };
    const auto rounded = [&](RoundTowards towards) { return theirs(round(value, towards, step, offset)->value); };
    REQUIRE(rounded(RoundTowards::down) == back(floor_of(steps)));
    REQUIRE(rounded(RoundTowards::up) == back(-floor_of(-steps)));
    REQUIRE(rounded(RoundTowards::nearest) == back(floor_of(steps + mpq_class(1, 2))));
    REQUIRE(round(value, RoundTowards::nearest, step, offset)->tie == (steps.get_den() == 2));
  }
}

TEST_CASE("spelled numbers are read as GMP reads them") {
  std::mt19937_64 random(5);
  int read = 0;
  for (int i = 0; i < 20000; ++i) {
    std::string whole, rest;
    for (std::size_t n = random() % 20 + 1; n > 0; --n) whole += static_cast<char>('0' + random() % 10);
    for (std::size_t n = random() % 20 + 1; n > 0; --n) rest += static_cast<char>('0' + random() % 10);
    mpz_class scale;
    mpz_ui_pow_ui(scale.get_mpz_t(), 10, rest.size());
    mpq_class expected(mpz_class(whole + rest, 10), scale);
    expected.canonicalize();
    INFO(whole << "." << rest);
    const auto ours = from_digits(whole + "." + rest);
    REQUIRE(ours.has_value() == fits(expected));
    if (!ours) continue;
    ++read;
    REQUIRE(theirs(*ours) == expected);
  }
  CHECK(read > 10000);
}
