// Whole socks in eight sizes, operation by operation, with the counts, rows and carriage sides that each must give. The
// socks are our own; their figures follow from the gauges and rounding (24 sts and 34 rows to 10 cm) and were worked
// out by hand and by a separate simulation.
#include <catch2/catch.hpp>

#include "tests/unit/runtime/short_rows.hpp"

using namespace stk::runtime;

namespace {

constexpr std::int64_t cm = 10'000;   // micrometres
constexpr int body_of[8] = {24, 28, 32, 36, 44, 48, 56, 60};
constexpr int heel_to_of[8] = {4, 4, 6, 6, 8, 8, 10, 10};
constexpr int leg_of[8] = {20, 28, 34, 40, 48, 54, 62, 64};
constexpr int foot_of[8] = {18, 22, 32, 36, 40, 48, 52, 56};

void flat_sock_with_mock_rib_hem(Bench& bench, int size) {
  const int body = body_of[size], half = body / 2, heel_to = heel_to_of[size];
  constexpr int hem_of[8] = {16, 20, 22, 22, 26, 30, 30, 34};
  const NeedleSet across = NeedleSet::range(75 - half, 75 + half);   // one needle more on the right
  NeedleSet ribs;
  for (int needle = across.first(); needle <= across.last(); needle += 2) ribs.insert(needle);
  const SectionId hem = bench(BeginSection{}).section;
  bench(SetNeedles{Bed::main, ribs});
  const Outcome cast_on =
      bench(CastOn{CastOnMethod::open_on_waste, Bed::main, ribs, {}, Side::right, bench.waste, bench.cord, 0});
  CHECK(cast_on.waste_rows_before_comb == 3);
  CHECK(cast_on.waste_rows_after_comb == 4);
  CHECK(cast_on.cord_rows == 1);
  CHECK(cast_on.wrapped_from == Side::left);
  bench(ThreadYarn{bench.main});
  bench(SetTension{Beds::main, -20});
  bench(Knit{hem_of[size]});
  CHECK(bench.machine.counter() == hem_of[size]);
  CHECK(bench.machine.stitches() == half + 1);
  bench(BringIntoWork{Bed::main, across - ribs});
  const Outcome hung = bench(Hang{cast_on.edges[0], Bed::main, across - ribs, {}, Loops::between});
  CHECK(hung.comb_moved);
  CHECK(hung.waste_drawn);
  CHECK(bench.machine.stitches() == body + 1);
  bench(Decrease{Bed::main, Side::right, 0});
  CHECK(bench.machine.stitches() == body);
  CHECK(bench.machine.carriage() == Side::right);
  const SectionId leg = bench(BeginSection{}).section;
  bench(ResetCounter{0});
  bench(SetTension{Beds::main, 0});
  bench(Knit{leg_of[size]});
  const NeedleSet sole = NeedleSet::range(75, 74 + half), instep = NeedleSet::range(75 - half, 74);
  std::vector<SectionId> sections{hem, leg};
  for (const bool heel : {true, false}) {
    sections.push_back(bench(BeginSection{}).section);
    bench(ResetCounter{0});
    bench(Hold{Bed::main, instep});
    ShortRows{bench, Bed::main, sole}.run(heel_to);
    CHECK(bench.machine.counter() == 2 * (half - heel_to));
    CHECK(bench.machine.in_work(Bed::main) == sole);
    bench(Release{Bed::main, instep});
    if (!heel) break;
    sections.push_back(bench(BeginSection{}).section);
    bench(ResetCounter{0});
    bench(Knit{foot_of[size]});
  }
  bench(CutYarn{bench.main, 35 * cm});
  const Outcome off = bench(ScrapOff{Bed::main, {sole, instep}, bench.waste});
  bench(EndPiece{});
  Seam seam;
  std::int64_t left = 0, right = 0;
  for (const SectionId section : sections) {
    seam.a.push_back(bench.fabric.section(section).left);
    seam.b.push_back(bench.fabric.section(section).right);
    if (section == hem) continue;
    left += bench.fabric.selvedge_rows(section, Side::left);
    right += bench.fabric.selvedge_rows(section, Side::right);
  }
  // Two rows more on the heel's side from each of the two short-row sections.
  CHECK(left == leg_of[size] + foot_of[size]);
  CHECK(right == left + 4);
  bench.finish(Graft{off.edges[0], off.edges[1], GraftFrom::open_side});
  bench.finish(seam);
  bench.finish(WeaveInEnds{});
  bench.finish(Finish{});
}

void tube_sock(Bench& bench, int size) {
  const int body = body_of[size], half = body / 2, heel_to = heel_to_of[size];
  constexpr int cuff_of[8] = {10, 12, 14, 14, 18, 22, 22, 22};
  constexpr int leg_passes[8] = {42, 56, 68, 82, 96, 110, 124, 130};
  constexpr int foot_passes[8] = {36, 44, 64, 72, 80, 96, 104, 112};
  const NeedleSet across = bench.centred(body);
  NeedleSet on_main, on_second;
  for (const int needle : across) ((needle - across.first()) % 4 < 2 ? on_main : on_second).insert(needle);
  const SectionId cuff = bench(BeginSection{}).section;
  bench(SetNeedles{Bed::main, on_main});
  bench(SetNeedles{Bed::second, on_second});
  bench(ThreadYarn{bench.main});
  bench(SetTension{Beds::both, -40});
  const Outcome zigzag = bench(CastOn{CastOnMethod::zigzag, Bed::main, on_main, on_second, Side::right, {}, {}, 0});
  CHECK(bench.machine.counter() == 1);
  bench(HangComb{});
  bench(Knit{2, KnitMode::rounds});
  bench(SetTension{Beds::both, -30});
  bench(ResetCounter{0});
  bench(Knit{cuff_of[size]});
  CHECK(bench.machine.stitches() == body);
  CHECK(bench.machine.stitches(Bed::main) == half);
  bench(CutYarn{bench.main, 25 * cm});
  bench(Transfer{Bed::second, on_second});
  const Outcome top = bench(ScrapOff{Bed::main, {across}, bench.waste});
  CHECK(bench.fabric.edge(top.edges[0]).whole == body);
  CHECK(bench.machine.carriage() == Side::right);

  bench(BeginSection{});
  bench(SetPitch{Pitch::half});
  const NeedleSet layer = bench.centred(half);
  bench(SetNeedles{Bed::main, layer});
  bench(SetNeedles{Bed::second, layer});
  CHECK(bench(Hang{top.edges[0], Bed::main, layer, layer, Loops::whole, HangOrder::folded, Side::right}).tube);
  bench(HangComb{zigzag.edges[0]});
  bench(ThreadYarn{bench.main});
  bench(SetTension{Beds::both, 0});
  bench(ResetCounter{0});
  bench(Knit{leg_passes[size], KnitMode::rounds});
  CHECK(bench.machine.counter() == leg_passes[size]);
  CHECK(bench.machine.carriage() == Side::right);
  for (const bool heel : {true, false}) {
    bench(BeginSection{});
    bench(ResetCounter{0});
    CHECK(bench(Hold{Bed::second, layer}).bed_rested);
    ShortRows rows{bench, Bed::main, layer};
    rows.run(heel_to);
    CHECK(rows.most <= 3);
    CHECK(bench.machine.counter() == 2 * (half - heel_to));
    bench(Release{Bed::second, layer});
    if (!heel) break;
    NeedleSet ends = NeedleSet::one(layer.first());
    ends.insert(layer.last());
    bench(Lift{Bed::main, ends});
    bench(BeginSection{});
    bench(ResetCounter{0});
    bench(Knit{foot_passes[size], KnitMode::rounds});
    CHECK(bench.machine.stitches() == body);
  }
  bench(CutYarn{bench.main, 65 * cm});
  const EdgeId sole = bench(ScrapOff{Bed::main, {layer}, bench.waste}).edges[0];
  const EdgeId instep = bench(ScrapOff{Bed::second, {layer}, bench.waste}).edges[0];
  bench(EndPiece{});
  bench.finish(Graft{sole, instep, GraftFrom::right});
  bench.finish(Seam{{bench.fabric.section(cuff).left}, {bench.fabric.section(cuff).right}, true});
  bench.finish(WeaveInEnds{});
  bench.finish(Finish{});
}

void flap_and_gusset_sock(Bench& bench, int size) {
  const int body = body_of[size], half = body / 2, heel_to = heel_to_of[size];
  constexpr int flap_of[8] = {12, 14, 16, 18, 22, 24, 28, 30};
  constexpr int gusset_of[8] = {7, 8, 9, 10, 12, 13, 15, 16};
  constexpr int sole_rows[8] = {18, 22, 32, 36, 40, 48, 52, 56};
  const int gusset = gusset_of[size];
  const NeedleSet right_half = NeedleSet::range(75, 74 + half), left_half = NeedleSet::range(75 - half, 74);
  const SectionId leg = bench(BeginSection{}).section;
  bench.cast_on(body);
  bench(Knit{3});
  bench(HangComb{});
  bench(Knit{leg_of[size] - 3});
  CHECK(bench.machine.carriage() == Side::right);

  const SectionId instep = bench(BeginSection{}).section;
  bench(CutYarn{bench.main, 10 * cm});
  const Outcome heel_sts = bench(ScrapOff{Bed::main, {right_half}, bench.waste});
  CHECK(heel_sts.set_aside == left_half);
  bench(ThreadYarn{bench.main});
  bench(ResetCounter{0});
  bench(Knit{sole_rows[size]});
  bench(CutYarn{bench.main, 10 * cm});
  const EdgeId instep_end = bench(ScrapOff{Bed::main, {left_half}, bench.waste}).edges[0];

  const SectionId flap = bench(BeginSection{}).section;
  const NeedleSet heel = bench.centred(half);
  bench(Hang{heel_sts.edges[0], Bed::main, heel});
  bench(ThreadYarn{bench.main});
  bench(ResetCounter{0});
  bench(Knit{flap_of[size]});
  const SectionId turn = bench(BeginSection{}).section;
  ShortRows{bench, Bed::main, heel}.run(heel_to);
  CHECK(bench.fabric.selvedge_rows(turn, Side::left) == 2);
  CHECK(bench.fabric.selvedge_rows(turn, Side::right) == 2);

  const SectionId gussets = bench(BeginSection{}).section;
  bench(ResetCounter{0});
  for (const Side side : {Side::left, Side::right}) {
    const auto edge = [&](SectionId of) {
      return side == Side::left ? bench.fabric.section(of).left : bench.fabric.section(of).right;
    };
    const NeedleSet onto = side == Side::left ? NeedleSet::range(heel.first() - gusset, heel.first() - 1)
                                              : NeedleSet::range(heel.last() + 1, heel.last() + gusset);
    bench(PickUp{{edge(turn), edge(flap)}, Bed::main, side, onto, 1, 2});
    bench(Knit{1});
  }
  CHECK(bench.machine.stitches() == half + 2 * gusset);
  for (int times = 0; times < gusset; ++times) {
    bench(Knit{2});
    bench(Decrease{Bed::main, Side::left, 2});
    bench(Decrease{Bed::main, Side::right, 2});
  }
  CHECK(bench.machine.stitches() == half);
  CHECK(bench.machine.counter() == 2 * gusset + 2);
  bench(Knit{sole_rows[size] - 2 * gusset - 2});
  const SectionId toe = bench(BeginSection{}).section;
  ShortRows{bench, Bed::main, heel}.run(heel_to);
  CHECK(bench.machine.carriage() == Side::right);
  bench(CutYarn{bench.main, 35 * cm});
  const EdgeId sole_end = bench(ScrapOff{Bed::main, {heel}, bench.waste}).edges[0];
  bench(EndPiece{});
  const auto sides = [&](SectionId of) { return bench.fabric.section(of); };
  CHECK(bench.fabric.selvedge_rows(gussets, Side::left) + 2 == sole_rows[size] + 2);
  bench.finish(Graft{sole_end, instep_end, GraftFrom::right});
  bench.finish(Seam{{sides(gussets).left, sides(toe).left}, {sides(instep).right}});
  bench.finish(Seam{{sides(gussets).right, sides(toe).right}, {sides(instep).left}});
  bench.finish(Seam{{sides(leg).left}, {sides(leg).right}});
  bench.finish(WeaveInEnds{});
  bench.finish(Finish{});
}

void afterthought_heel_sock(Bench& bench, int size) {
  const int body = body_of[size], half = body / 2;
  const NeedleSet right_half = NeedleSet::range(75, 74 + half);
  bench.cast_on(body);
  bench(Knit{3});
  bench(HangComb{});
  bench(Knit{leg_of[size] - 3});
  const Outcome line = bench(KnitByHand{Bed::main, right_half, bench.waste});
  CHECK(bench.machine.counter() == leg_of[size]);
  CHECK(bench.machine.carriage() == Side::right);
  bench(Knit{foot_of[size]});
  // gathered toe: the last of each 2 moved, 4 plain rows
  NeedleSet moved;
  for (int needle = 75 - half + 1; needle < 75 + half; needle += 2) moved.insert(needle);
  bench(Move{Bed::main, moved, -1, Empties::out_of_work});
  CHECK(bench.machine.stitches() == half);
  bench(Knit{4});
  bench(CutYarn{bench.main, 80 * cm});
  bench(Gather{Bed::main, bench.machine.carrying(Bed::main), {}, 60 * cm});
  bench(EndPiece{});
  const SectionId sock = bench.machine.section();
  CHECK(bench.machine.selvedge_rows(Side::left) == leg_of[size] + foot_of[size] + 4);
  CHECK(bench.machine.selvedge_rows(Side::right) == leg_of[size] + foot_of[size] + 4);

  Machine heel(bench.spec, bench.fabric);
  const auto knit = [&](auto op) {
    for (const Fault& fault : heel.apply(Operation{++bench.tag, op}).faults) bench.faults.push_back(fault);
  };
  const NeedleSet needles = bench.centred(half);
  Hang lower{bench.fabric.slot(line.slot).lower, Bed::main, needles};
  lower.carriage = Side::right;
  knit(lower);
  knit(OpenSlot{line.slot, true});
  knit(ThreadYarn{bench.main});
  knit(Knit{4});
  knit(CutYarn{bench.main, 35 * cm});
  const EdgeId end{static_cast<std::uint32_t>(bench.fabric.edges().size())};
  knit(ScrapOff{Bed::main, {needles}, bench.waste});
  knit(EndPiece{});
  const Section& of_heel = bench.fabric.section(heel.section());
  bench.finish(Graft{end, bench.fabric.slot(line.slot).upper, GraftFrom::right});
  bench.finish(CloseCorners{line.slot, {of_heel.left, of_heel.right}});
  bench.finish(Seam{{bench.fabric.section(sock).left}, {bench.fabric.section(sock).right}});
  bench.finish(WeaveInEnds{});
  bench.finish(Finish{});
}

void picot_hem_sock(Bench& bench, int size) {
  constexpr int counts[8] = {30, 36, 42, 48, 54, 66, 72, 78};
  constexpr int hem_of[8] = {4, 6, 6, 8, 8, 8, 10, 10};
  const int body = counts[size], hem = hem_of[size];
  const NeedleSet all = bench.centred(body);
  const Outcome cast_on = bench.cast_on(body);
  bench(Knit{3});
  bench(HangComb{});
  bench(Knit{hem - 3});
  NeedleSet second_of_two;
  for (int needle = all.first() + 1; needle <= all.last() - 2; needle += 2) second_of_two.insert(needle);
  const Outcome picot = bench(Move{Bed::main, second_of_two, -1, Empties::in_work});
  CHECK(picot.emptied.count() == body / 2 - 1);
  CHECK(bench.machine.stitches() == body / 2 + 1);
  bench(Knit{hem});
  CHECK(bench.machine.stitches() == body);
  CHECK(bench(Hang{cast_on.edges[0], Bed::main, all}).comb_moved);
  bench(Knit{20});
  NeedleSet last_of_three;
  for (int needle = all.first() + 2; needle <= all.last(); needle += 3) last_of_three.insert(needle);
  bench(Move{Bed::main, last_of_three, -1, Empties::out_of_work});
  CHECK(bench.machine.stitches() == body / 3 * 2);
  bench(Knit{4});
  // The edge stitch of the right was moved inwards: the selvedge goes on beside it all the same.
  CHECK(bench.machine.selvedge_rows(Side::left) == bench.machine.selvedge_rows(Side::right));
  bench(CutYarn{bench.main, 80 * cm});
  bench(Gather{Bed::main, bench.machine.carrying(Bed::main)});
  const Section& section = bench.fabric.section(bench.machine.section());
  bench(EndPiece{});
  bench.finish(Seam{{section.left}, {section.right}, true});
  bench.finish(WeaveInEnds{});
  bench.finish(Finish{});
}

void slipper_sock(Bench& bench, int size) {
  const int half = 12 + 2 * size, start = half / 2 / 2 * 2, widen = (half - start) / 2;
  EdgeId cast_on[2];
  SectionId section[2], top[2];
  Machine second(bench.spec, bench.fabric);
  for (int piece = 0; piece < 2; ++piece) {
    Machine& machine = piece == 0 ? bench.machine : second;
    const auto knit = [&](auto op) {
      Outcome outcome = machine.apply(Operation{++bench.tag, op});
      for (const Fault& fault : outcome.faults) bench.faults.push_back(fault);
      return outcome;
    };
    section[piece] = knit(BeginSection{}).section;
    knit(ThreadYarn{bench.main});
    CastOn closed{CastOnMethod::closed_by_latch, Bed::main, bench.centred(start)};
    cast_on[piece] = knit(closed).edges[0];
    knit(Knit{2});
    knit(HangComb{});
    for (int times = 0; times < widen; ++times) {
      for (const Side side : {Side::left, Side::right}) knit(Increase{Bed::main, side, 2});
      knit(Knit{3});
    }
    CHECK(machine.stitches() == half);
    if (machine.carriage() == Side::left) knit(Knit{1});
    top[piece] = knit(BeginSection{}).section;
    NeedleSet middles;   // eyelets in each 3, the rest and two edge stitches left alone
    const NeedleSet all = machine.carrying(Bed::main);
    for (int needle = all.first() + 3; needle + 2 < all.last(); needle += 3) middles.insert(needle);
    knit(Move{Bed::main, middles, 1, Empties::in_work});
    knit(Knit{6});
    CHECK(machine.stitches() == half);
    knit(BindOff{Bed::main, machine.carrying(Bed::main)});
    CHECK(knit(EndPiece{}).yarn_cut);
  }
  // a cord of 3 stitches, knitted to the right only
  Machine cord(bench.spec, bench.fabric);
  const auto knit = [&](auto op) {
    Outcome outcome = cord.apply(Operation{++bench.tag, op});
    for (const Fault& fault : outcome.faults) bench.faults.push_back(fault);
    return outcome;
  };
  knit(ThreadYarn{bench.main});
  knit(CastOn{CastOnMethod::e_wrap, Bed::main, bench.centred(3)});
  knit(SetCarriage{CarriageKnits::to_right});
  CHECK(knit(Knit{2 * 55}).loops == 3 * 55);
  knit(SetCarriage{CarriageKnits::both_ways});
  knit(CutYarn{bench.main, 15 * cm});
  knit(Gather{Bed::main, cord.carrying(Bed::main)});
  knit(EndPiece{});
  const auto sides = [&](SectionId of) { return bench.fabric.section(of); };
  bench.finish(Seam{{cast_on[0]}, {cast_on[1]}});
  bench.finish(Seam{{sides(section[0]).left, sides(top[0]).left}, {sides(section[1]).right, sides(top[1]).right}});
  bench.finish(Seam{{sides(section[0]).right, sides(top[0]).right}, {sides(section[1]).left, sides(top[1]).left}});
  bench.finish(ThreadThrough{{top[0], top[1]}});
  bench.finish(WeaveInEnds{});
  bench.finish(Finish{});
}

using Sock = void (*)(Bench&, int);

}  // namespace

TEST_CASE("whole socks are clean in eight sizes") {
  const std::pair<const char*, Sock> socks[] = {{"flat sock with mock-rib hem", flat_sock_with_mock_rib_hem},
                                                {"tube sock", tube_sock},
                                                {"flap and gusset", flap_and_gusset_sock},
                                                {"afterthought heel", afterthought_heel_sock},
                                                {"picot hem", picot_hem_sock},
                                                {"slipper sock", slipper_sock}};
  for (const auto& [name, sock] : socks) {
    for (int size = 0; size < 8; ++size) {
      INFO(name << ", size " << size);
      Bench bench(Bench::two_beds());
      sock(bench, size);
      std::vector<FaultKind> faults = bench.kinds();
      std::erase(faults, FaultKind::eyelet_beside_edge);   // the picot's: a note, and meant
      CHECK(faults == std::vector<FaultKind>{});
      CHECK(bench.machine.loops_on_hooks() == 0);
    }
  }
}
