// What is usual for socks, and how far knitted fabric stretches. None of it is a law of nature: each figure says where
// it is from, and a designer who knows better declares an `ease` of his or her own.
#pragma once

#include "compiler/fit/shape.hpp"
#include "compiler/values/rational.hpp"

namespace stk::fit {

struct Range {
  Rational from, to;
  bool holds(const Rational& value) const { return value >= from && value <= to; }
};

// How many times its own width a fabric opens without strain. A tube at the girth of the ball with 10 % of ease taken
// away must open 1.36 / 0.9 = 1.51 times over heel and instep (1.36: mean of heel-ankle over ball circumference in the
// records of NATICK/TR-15/007, and "about 1.35" in a designer's survey). The limits are our judgement.
inline Rational opening_limit(Fabric fabric) {
  switch (fabric) {
    case Fabric::rib:
      return Rational(2);
    case Fabric::stranded:
      return Rational::of(13, 10);
    case Fabric::plain:
      break;
  }
  return Rational::of(8, 5);
}
inline constexpr Rational edge_limit = Rational::of(13, 10);  // an edge that hardly yields (judgement)

// Ease around, published: plain -10 %, stranded -5 %, rib -25 % (Druchunas, How to Knit Socks That Fit, ch. 3). The
// ranges about them are our judgement, wide enough for a rounding to whole groups of stitches in a small size.
inline Range usual_ease_of_top(Fabric fabric) {
  switch (fabric) {
    case Fabric::rib:
      return {Rational::of(-2, 5), Rational::of(3, 25)};
    case Fabric::stranded:
      return {Rational::of(-1, 5), Rational::of(3, 20)};
    case Fabric::plain:
      break;
  }
  return {Rational::of(-1, 4), Rational::of(3, 25)};
}
inline Range usual_ease_around(Fabric fabric) {
  switch (fabric) {
    case Fabric::rib:
      return {Rational::of(-7, 20), Rational(0)};
    case Fabric::stranded:
      return {Rational::of(-3, 20), Rational::of(1, 10)};
    case Fabric::plain:
      break;
  }
  return {Rational::of(-1, 5), Rational::of(1, 20)};
}
// The foot of a sock is 90 to 95 % of the foot's length, less with a stiff yarn (from memory); wider by our judgement.
inline constexpr Rational usual_length_from = Rational::of(-1, 10), usual_length_to = Rational::of(1, 50);

// From this share of the foot's length on a leg reaches the calf (judgement).
inline constexpr Rational calf_leg = Rational(1);

}  // namespace stk::fit
