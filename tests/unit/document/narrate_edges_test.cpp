// Edges on and off the needles, and sewing up.
#include <catch2/catch.hpp>

#include "tests/unit/document/told.hpp"

using namespace stk;
using knit::Act;
using test::Recorder;
using test::told;

namespace {

Recorder on_the_needles() {
  Recorder r(4);
  r.cast_on({36, 42, 48, 54});
  r.op(Act::hang_comb);
  return r;
}

std::string after_casting_on(Recorder& r) {
  const std::string text = told(r.take());
  return text.substr(text.find('\n') + 1);
}

void empty_bed(Recorder& r, knit::Step& step) {
  for (std::size_t i = 0; i < 4; ++i) {
    step.records[i].amount = r.states()[i].stitches;
    step.records[i].after.stitches = 0;
  }
}

}  // namespace

TEST_CASE("a gathered toe is threaded, taken off, pulled tight; the comb comes off first") {
  Recorder r = on_the_needles();
  r.cut("main", {50, 50, 50, 50});
  r.gather();
  CHECK(
      after_casting_on(r) ==
      "Hang the comb with its weights. Cut MY with a tail of 50 cm; it hangs on the right. Unhang the comb and the weights. Thread the "
      "tail on a needle and draw it through all 36 (42, 48, 54) sts, from right to left. Take the sts off the machine, "
      "pull the tail tight and fasten it off.\n");
}

TEST_CASE("scrapping off gives the edge its name") {
  Recorder r = on_the_needles();
  knit::Step& off = r.op(Act::scrap_off);
  off.operation.selections = {{}};
  off.operation.selections[0].kind = knit::Selection::Kind::all;
  off.operation.edges = {"toe_end"};
  off.operation.waste_rows = 8;
  empty_bed(r, off);
  CHECK(
      after_casting_on(r) ==
      "Hang the comb with its weights. Thread WY and knit 8 rows. Unhang the comb and the weights. Drop the fabric off the needles: the "
      "toe end, 36 (42, 48, 54) sts.\n");
}

TEST_CASE("two edges from one scrapping off") {
  Recorder r = on_the_needles();
  knit::Step& off = r.op(Act::scrap_off);
  off.operation.selections.resize(2);
  for (auto& selection : off.operation.selections) selection.kind = knit::Selection::Kind::half;
  for (std::size_t i = 0; i < 4; ++i) off.records[i].part_counts.assign(2, 18 + 3 * static_cast<std::int32_t>(i));
  off.operation.selections[0].where = knit::Selection::Where::right;
  off.operation.edges = {"sole_end", "instep_end"};
  off.operation.waste_rows = 8;
  empty_bed(r, off);
  CHECK(
      after_casting_on(r) ==
      "Hang the comb with its weights. Thread WY and knit 8 rows. Unhang the comb and the weights. Drop the fabric off the needles. The "
      "right half is the sole end and the left half the instep end: 18 (21, 24, 27) sts each.\n");
}

TEST_CASE("scrapping off a part holds the rest while the waste is knitted") {
  Recorder r = on_the_needles();
  knit::Step& off = r.op(Act::scrap_off);
  off.operation.selections.resize(1);
  off.operation.selections[0].kind = knit::Selection::Kind::half;
  off.operation.selections[0].where = knit::Selection::Where::right;
  off.operation.edges = {"heel_sts"};
  off.operation.waste_rows = 8;
  for (std::size_t i = 0; i < 4; ++i) {
    knit::MachineState& state = r.states()[i];
    state.stitches /= 2;
    state.span.last = {-1, {}};
    off.records[i].amount = off.records[i].set_aside = state.stitches;
    off.records[i].after = state;
  }
  CHECK(after_casting_on(r) ==
        "Hang the comb with its weights. Put the left half in HP and set the carriage to hold. Thread WY and knit 8 rows over the "
        "right "
        "half. Drop these sts off the needles and put the needles in NWP: the 18 (21, 24, 27) heel sts. Put the held "
        "needles "
        "in UWP and set the carriage to knit all needles. Remaining: 18 (21, 24, 27) sts, L18–L1 (L21–L1, "
        "L24–L1, "
        "L27–L1).\n");
}

TEST_CASE("binding off") {
  Recorder r = on_the_needles();
  knit::Step& off = r.op(Act::bind_off);
  off.operation.method = knit::Method::by_latch;
  off.operation.loose = true;
  empty_bed(r, off);
  CHECK(after_casting_on(r) ==
        "Hang the comb with its weights. Unhang the comb and the weights. Bind off all 36 (42, 48, 54) sts loosely with the yarn and the latch tool, from right to left. "
        "Cut "
        "the yarn and draw its end through the last loop.\n");
}

TEST_CASE("a hem is hung and the comb goes into its fold") {
  Recorder r = on_the_needles();
  knit::Step& hang = r.op(Act::hang_edge);
  hang.operation.edges = {"cast_on"};
  hang.operation.selections = {{}};
  hang.operation.selections[0].kind = knit::Selection::Kind::all;
  for (auto& record : hang.records) record.comb_moved = true;
  CHECK(after_casting_on(r) ==
        "Hang the comb with its weights. Unhang the comb and the weights. From left to right hang the cast-on edge on all needles, one loop on each; none "
        "may be left over. Hang the comb and the weights in the fold.\n");
}

TEST_CASE("a marked row is told where it is marked, and hung with the row counter it was marked at") {
  for (const bool counter_set : {false, true}) {
    Recorder r = on_the_needles();
    r.counted(Act::mark_row, {36, 42, 48, 54}).operation.edges = {"fold"};
    knit::Step& hang = r.op(Act::hang_edge);
    hang.operation.method = knit::Method::marked_row;
    hang.operation.edges = {"fold"};
    hang.operation.selections = {{}};
    hang.operation.selections[0].kind = knit::Selection::Kind::all;
    std::int64_t row = 20;
    for (auto& record : hang.records) record.target = counter_set ? 0 : row++;
    CHECK(after_casting_on(r) ==
          "Hang the comb with its weights. Mark this row: run a length of contrasting yarn through the 36 (42, 48, 54) sts on "
          "the needles, and leave it in. Fold the fabric up towards you, the purl side inside, and from left to right hang the "
          "loops of the " + std::string(counter_set ? "marked row" : "row marked at RC 020 (021, 022, 023)") +
              " on all needles, one on each; none may be left over, and each needle then holds 2 loops. Draw the marking yarn "
              "out.\n");
  }
}

TEST_CASE("seams say what sews them and how many rows meet") {
  Recorder r(4);
  knit::Step& seam = r.counted(Act::seam, {38, 50, 66, 76});
  seam.operation.method = knit::Method::mattress;
  seam.operation.edges = {"sock.left"};
  seam.operation.edges_to = {"sock.right"};
  seam.operation.yarns = {"main"};
  for (auto& record : seam.records) {
    record.second_amount = record.amount + 4;
    record.rows = true;
  }
  knit::Step& even = r.counted(Act::seam, {20, 20, 20, 20});
  even.operation.method = knit::Method::flat;
  even.operation.edges = {"sock.cuff.left"};
  even.operation.edges_to = {"sock.cuff.right"};
  even.operation.with_own_tail = true;
  for (auto& record : even.records) record.second_amount = 20;  // of stitches: a cast-on edge, say
  r.op(Act::weave_in_ends);
  CHECK(
      told(r.take()) ==
      "Seam the left edge to the right edge, with a new length of MY, in mattress stitch. The left edge has 38 (50, "
      "66, "
      "76) rows. The right edge has 42 (54, 70, 80) rows; take up the difference evenly.\n"
      "Seam the left edge of the cuff to the right edge of the cuff, with the tail, flat, edge against edge. Each edge "
      "has 20 sts.\n"
      "Weave in the ends.\n");
}

TEST_CASE("a graft begins where its tail hangs") {
  Recorder r(4);
  knit::Step& graft = r.counted(Act::graft, {18, 21, 24, 27});
  graft.operation.edges = {"sock.sole_end"};
  graft.operation.edges_to = {"sock.instep_end"};
  graft.operation.from = "the open side";
  for (auto& record : graft.records) record.second_amount = record.amount;
  CHECK(told(r.take()) ==
        "Lay the sole end on the instep end, purl sides together, and graft them, beginning with the tail at the open side. There are 18 (21, 24, 27) sts "
        "on "
        "each. Remove WY.\n");
}

TEST_CASE("an edge hung on a bare bed with its sides changed is turned over, whichever side it showed before") {
  Recorder r(4);
  knit::Step& hang = r.op(Act::hang_edge);
  hang.operation.method = knit::Method::reversed;
  hang.operation.edges = {"sole_end"};
  hang.operation.selections.resize(1);
  hang.operation.selections[0].kind = knit::Selection::Kind::span;
  hang.operation.selections[0].count.assign(4, 12);
  for (auto& record : hang.records) {
    record.amount = record.after.stitches = record.after.in_work = 12;
    record.needles = record.after.span = test::about_centre(12);
  }
  CHECK(told(r.take()).find("Turn the fabric over, the side that faced you away from you, and from left to right hang the sole end on 12 needles, one st on each: 12 sts.") !=
        std::string::npos);
}
