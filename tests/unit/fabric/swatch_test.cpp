// What a swatch tells, and which figures cannot be one.
#include "compiler/fabric/swatch.hpp"

#include <catch2/catch.hpp>

using namespace stk::fabric;

namespace {

Swatch swatch() {
  Swatch s;
  s.stitches = 40;
  s.rows = 60;
  s.off_machine = Extent{17.2, 18.6};
  s.washed = Extent{16.4, 17.6};
  return s;
}

}  // namespace

TEST_CASE("a swatch before and after washing") {
  const Reading r = read(swatch());
  CHECK(r.off_machine->stitches == Approx(40 / 17.2));
  CHECK(r.washed->rows == Approx(60 / 17.6));
  CHECK(r.washing->width == Approx(0.8 / 17.2));
  CHECK(r.washing->length == Approx(1.0 / 18.6));
  CHECK(r.washing->area == Approx(1 - 16.4 * 17.6 / (17.2 * 18.6)));
  CHECK_FALSE(r.estimated);
  CHECK(r.ratio == Approx(1.3977).margin(0.0001));
  CHECK_FALSE(r.tightness);
}

TEST_CASE("off the machine, so that it is right when washed") {
  const Reading r = read(swatch());
  // What washing does to this yarn is done to any gauge of it.
  const Gauge aim = r.off_machine_for({2.6, 3.6});
  CHECK(aim.stitches == Approx(2.6 * 16.4 / 17.2));
  CHECK(aim.rows == Approx(3.6 * 17.6 / 18.6));
  // Its own gauge comes from where it came from.
  CHECK(r.off_machine_for(*r.washed).stitches == Approx(r.off_machine->stitches));
}

TEST_CASE("one state alone: the other by wool's constants") {
  Swatch s = swatch();
  s.washed.reset();
  const Reading off = read(s);
  CHECK(off.estimated);
  CHECK(off.relaxed.stitches == Approx(40 / 17.2 * 4.2 / 3.8));
  CHECK(off.relaxed.rows == Approx(60 / 18.6 * 5.5 / 5.0));
  CHECK(off.off_machine_for(off.relaxed).rows == Approx(60 / 18.6));
  s = swatch();
  s.off_machine.reset();
  const Reading washed = read(s);
  CHECK(washed.off_machine_for({2.1, 2.75}).stitches == Approx(1.9));
  CHECK(washed.off_machine_for({2.1, 2.75}).rows == Approx(2.5));
}

TEST_CASE("with its yarn and its mass") {
  Swatch s = swatch();
  s.tex = 333.3;
  const Reading r = read(s);
  CHECK(*r.tightness == Approx(10.96).margin(0.01));
  // The gauges that make a sock have its own proportions, and the tightness that was asked.
  CHECK(row_ratio(*r.sock_from) == Approx(r.ratio));
  CHECK(tightness(*s.tex, loop_from_density(*r.sock_from)) == Approx(sock_from));
  CHECK(tightness(*s.tex, loop_from_density(*r.sock_to)) == Approx(sock_to));
  s.loops = 48 * 68;
  s.grams = 48 * 68 * r.loop * *s.tex / 100'000;
  CHECK(*read(s).loop_by_mass == Approx(r.loop));
}

TEST_CASE("figures that cannot be") {
  CHECK_FALSE(impossible(swatch()));
  Swatch s = swatch();
  s.off_machine.reset();
  s.washed.reset();
  CHECK(impossible(s) == Impossible::nothing_measured);
  s = swatch();
  s.washed->width = 17.2 * 0.2;  // 80 % gone
  CHECK(impossible(s) == Impossible::shrunk);
  s = swatch();
  s.washed->height = 18.6 * 1.5;
  CHECK(impossible(s) == Impossible::stretched);
  s = swatch();
  s.washed = Extent{160, 170};
  CHECK(impossible(s) == Impossible::gauge_out_of_reach);
}
