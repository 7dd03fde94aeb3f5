// Short rows by holding: counts and closure for every width and every narrowing. Rows 2(N-M), loops (N-M)(N+M) with
// hand wraps and (N-M)(N+M+1) with the carriage's own, one row and M loops more for an odd difference: common practice,
// worked out from the shape (two trapezoids), and 36->20->36 is 32 rows and 896 loops, 36->16 40 and 1040, 32->11 42
// and 903.
#include <catch2/catch.hpp>

#include <array>
#include <string>

#include "tests/unit/runtime/short_rows.hpp"

using namespace stk::runtime;

TEST_CASE("a short-row heel closes for every width, narrowing and wrap") {
  for (const bool by_hand : {true, false}) {
    int cases = 0;
    for (int n = 3; n <= 40; ++n) {
      for (int m = 2; m < n; ++m) {
        MachineSpec spec;
        spec.long_hold_passes = 100;   // the note on long holds has a test of its own
        Bench bench(spec);
        bench.cast_on(2 * n);
        bench(Knit{10});
        const NeedleSet part = bench.from_to("R1", ("R" + std::to_string(n)).c_str());
        bench(Hold{Bed::main, bench.machine.in_work(Bed::main) - part});
        ShortRows rows{bench, Bed::main, part};
        rows.run(m, by_hand);
        INFO("from " << n << " to " << m << (by_hand ? " by hand" : " by the carriage"));
        CHECK(bench.machine.in_work(Bed::main) == part);
        bench(Release{Bed::main, bench.machine.held(Bed::main)});
        const int odd = (n - m) % 2;
        CHECK(rows.rows == 2 * (n - m) + odd);
        CHECK(rows.loops == (n - m) * (n + m + (by_hand ? 0 : 1)) + odd * m);
        CHECK(rows.most <= 3);
        CHECK(bench.machine.carriage() == (odd ? Side::left : Side::right));
        CHECK(bench.clean());
        bench(Knit{2});
        // An odd heel leaves the yarn at R1 and the carriage on the left: the next row floats over the waiting half.
        const bool floats = odd != 0 && n - 1 > bench.spec.float_limit;
        CHECK(bench.kinds() == std::vector<FaultKind>(floats ? 1 : 0, FaultKind::float_too_long));
        ++cases;
      }
    }
    CHECK(cases == 741);
  }
}

TEST_CASE("a heel on one bed of a tube closes for every width and narrowing, with two corners") {
  int cases = 0;
  for (int n = 3; n <= 40; ++n) {
    for (int m = 2; m < n; ++m) {
      for (const bool lifts : {true, false}) {
        MachineSpec spec = Bench::two_beds();
        spec.long_hold_passes = 100;
        Bench bench(spec);
        const NeedleSet half = bench.centred(n);
        bench(SetPitch{Pitch::half});
        bench.cast_on(n);
        bench(CastOn{CastOnMethod::e_wrap, Bed::second, half, {}, Side::left, {}, {}, 0});
        bench(Knit{11, KnitMode::rounds});   // the first pass is the second bed's, from the left
        REQUIRE(bench.machine.tube());
        REQUIRE(bench(Hold{Bed::second, half}).bed_rested);
        ShortRows rows{bench, Bed::main, half};
        rows.run(m, true);
        INFO("from " << n << " to " << m);
        const int odd = (n - m) % 2;
        CHECK(rows.rows == 2 * (n - m) + odd);
        CHECK(rows.loops == (n - m) * (n + m) + odd * m);
        CHECK(rows.most <= 3);
        bench(Release{Bed::second, half});
        NeedleSet ends = NeedleSet::one(half.first());
        ends.insert(half.last());
        if (lifts) bench(Lift{Bed::main, ends});
        bench(Knit{4, KnitMode::rounds});
        // An odd heel ends on the left, where the second bed takes over: one corner only.
        CHECK(bench.kinds() == std::vector<FaultKind>(lifts ? 0 : 1, FaultKind::corner_gap));
        if (!lifts && !bench.faults.empty()) CHECK(bench.faults.front().a == (odd ? 1 : 2));
      }
      ++cases;
    }
  }
  CHECK(cases == 741);
}

TEST_CASE("worked figures of published short rows") {
  for (const auto& [n, m, rows, loops] : {std::array{36, 20, 32, 896}, {36, 16, 40, 1040}, {32, 11, 42, 903}}) {
    Bench bench;
    bench.cast_on(2 * n);
    bench(Knit{4});
    const NeedleSet part = bench.from_to("R1", ("R" + std::to_string(n)).c_str());
    bench(Hold{Bed::main, bench.machine.in_work(Bed::main) - part});
    ShortRows short_rows{bench, Bed::main, part};
    const int odd = (n - m) % 2;
    short_rows.run(m, true);
    CHECK(short_rows.rows == rows + odd);
    CHECK(short_rows.loops == loops + odd * m);
  }
}

TEST_CASE("each short-row section makes the selvedge on its side two rows longer") {
  Bench bench;
  bench.cast_on(24);
  bench(Knit{20});
  const std::int64_t before = bench.machine.selvedge_rows(Side::left);
  CHECK(before == bench.machine.selvedge_rows(Side::right));
  for (int turn = 0; turn < 2; ++turn) {
    const NeedleSet part = bench.from_to("R1", "R12");
    bench(Hold{Bed::main, bench.from_to("L12", "L1")});
    ShortRows rows{bench, Bed::main, part};
    rows.run(4, true);
    bench(Release{Bed::main, bench.machine.held(Bed::main)});
    bench(Knit{2});
  }
  CHECK(bench.machine.selvedge_rows(Side::left) == before + 4);
  CHECK(bench.machine.selvedge_rows(Side::right) == before + 8);
  CHECK(bench.clean());
}

TEST_CASE("a heel on the side away from the yarn floats over the needles held") {
  Bench bench;
  bench.cast_on(36);
  bench(Knit{41});
  const Tag hold = bench.tag + 1;
  bench(Hold{Bed::main, bench.from_to("L18", "L1")});
  bench(Knit{1});
  const Fault& fault = bench.only();
  CHECK(fault.kind == FaultKind::float_too_long);
  CHECK(fault.a == 17);
  CHECK(fault.needle == bench.at("L18"));
  CHECK(fault.needles == NeedleSet::one(bench.at("R1")));
  CHECK(fault.cause == hold);
}

TEST_CASE("a turn beside a held needle that was not wrapped leaves a hole, once") {
  Bench bench;
  bench.cast_on(12);
  bench(Knit{4});
  const Tag hold = bench.tag + 1;
  bench(Hold{Bed::main, NeedleSet::one(bench.at("L6"))});
  bench(Knit{1});
  CHECK(bench.clean());   // the wrap may still come
  bench(Knit{2});
  CHECK(bench.only().kind == FaultKind::open_turn);
  CHECK(bench.only().needle == bench.at("L6"));
  CHECK(bench.only().cause == hold);
  bench(Knit{8});
  CHECK(bench.faults.size() == 1);
}

TEST_CASE("a heel on one half and a toe on the other are each right, and worth a note") {
  for (const bool same : {true, false}) {
    Bench bench;
    bench.cast_on(24);
    bench(Knit{20});
    for (const bool heel : {true, false}) {
      bench(BeginSection{});
      const bool right = heel || same;
      const NeedleSet part = right ? bench.from_to("R1", "R12") : bench.from_to("L12", "L1");
      bench(Hold{Bed::main, bench.machine.in_work(Bed::main) - part});
      ShortRows{bench, Bed::main, part}.run(4);
      bench(Release{Bed::main, bench.machine.held(Bed::main)});
      bench(BeginSection{});
      bench(Knit{heel && !same ? 21 : 20});   // to the other side
    }
    CHECK(bench.kinds() == std::vector<FaultKind>(same ? 0 : 1, FaultKind::short_rows_apart));
  }
  // Dividing the work is no short row: one half waits, the other is knitted with a yarn of its own.
  Bench divided;
  divided.cast_on(24);
  divided(Knit{20});
  for (const bool first : {true, false}) {
    divided(CutYarn{divided.main});
    const NeedleSet part = first ? divided.from_to("R1", "R12") : divided.from_to("L12", "L1");
    divided(Hold{Bed::main, divided.machine.in_work(Bed::main) - part});
    divided(ThreadYarn{divided.main});
    divided(Knit{20});
    divided(Release{Bed::main, divided.machine.held(Bed::main)});
  }
  CHECK(divided.kinds() == std::vector<FaultKind>(2, FaultKind::open_slit));   // where the two halves part, a note
  CHECK(is_note(FaultKind::open_slit));
}
