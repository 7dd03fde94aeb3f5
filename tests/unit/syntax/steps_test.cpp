// Steps, clauses, facts and declarations: what the tree holds of each spelling.
#include <catch2/catch.hpp>

#include "tests/unit/syntax/support.hpp"

using namespace stk;

namespace {

// The dump of a line in a piece, without the piece; its clauses on the lines behind.
std::string line(const std::string& spelled) {
  const test::Parsed parsed("stockinger 1\npiece p {\n" + spelled + "\n}\n");
  if (!parsed.findings.all().empty()) return "finding: " + parsed.findings.all().front().title;
  const std::string all = syntax::dump(parsed.file);
  const std::string head = "version 1\npiece p\n";
  std::string made = all.substr(head.size());
  while (!made.empty() && made.back() == '\n') made.pop_back();
  return made;
}

std::string part(const std::string& spelled) {
  const test::Parsed parsed("stockinger 1\n" + spelled + "\n");
  if (!parsed.findings.all().empty()) return "finding: " + parsed.findings.all().front().title;
  return syntax::dump(parsed.file).substr(std::string("version 1\n").size());
}

}  // namespace

TEST_CASE("spellings of steps") {
  const std::pair<const char*, const char*> table[] = {
      {"cast on body, e-wrap, carriage right",
       "  cast_on needles=body\n    , method e_wrap\n    , carriage side=right"},
      {"cast on all, closed by latch", "  cast_on needles=all\n    , method closed_by_latch"},
      {"cast on all, open on waste, 8 rows of waste",
       "  cast_on needles=all\n    , method open_on_waste\n    , rows amount=(unit 8 rows)"},
      {"knit 3 rows", "  knit amount=(unit 3 rows)"},
      {"knit to row 2 * hem", "  knit_to_row amount=(* 2 hem)"},
      {"knit 1 row over right half with waste, by hand, as heel_slot",
       "  knit amount=(unit 1 row) needles=right_half name=waste\n    , method by_hand\n    , as name=heel_slot"},
      {"knit chart seeds, repeat from L12, end needles contrast",
       "  knit_chart name=seeds\n    , repeat_from needles=L12\n    , end_needles name=contrast"},
      {"thread main and thin", "  thread name=main name=thin"},
      {"cut main, tail 4 * w + 15 cm rounded to multiple of 5 cm",
       "  cut name=main\n    , tail amount=(rounded (+ (* 4 w) (unit 15 cm)) nearest multiple (unit 5 cm))"},
      {"tension MT - 4 on both beds", "  tension bed=both_beds tension=MT-4"},
      {"tension MT", "  tension tension=MT"},
      {"tension hem_tension", "  tension amount=hem_tension"},
      {"hang comb", "  hang_comb"},
      {"hang comb on cuff.cast_on", "  hang_comb edge=cuff.cast_on"},
      {"hang cast_on on empties, by loops between",
       "  hang_edge needles=empties edge=cast_on\n    , method by_loops_between"},
      {"mark row as fold", "  mark_row name=fold"},
      {"mark row of main bed as fold", "  mark_row needles=main_bed name=fold"},
      {"hang rib_top on all, folded, open side right",
       "  hang_edge needles=all edge=rib_top\n    , method folded\n    , open_side side=right"},
      {"hold 1 on far side of part", "  hold needles=(of (on 1 far_side) part)"},
      {"wrap 1 on carriage side, if any", "  wrap needles=(on 1 carriage_side)\n    , method if_any"},
      {"bring empties into work", "  bring_into_work needles=empties"},
      {"put L3 to L1 out of work", "  put_out_of_work needles=L3..L1"},
      {"set needles [| .] across body + 1, ending [|], second bed [. |]",
       "  set_needles needles=(+ body 1) tile=[|.]\n    , ending tile=[|]\n    , second_bed tile=[.|]"},
      {"move last of each 3 left by 1, empties out of work",
       "  move amount=1 needles=(last 1 of_each 3) direction=left\n    , empties out_of_work"},
      {"move all inward by 1, empties filled from left",
       "  move amount=1 needles=all direction=inward\n    , empties filled_from side=left direction=left"},
      {"move second bed to main bed", "  move_to_bed needles=second_bed bed=main_bed"},
      {"lift 1 on each side of main bed", "  lift needles=(of (on 1 each_side) main_bed)"},
      {"increase 1 on each side, 2 in, filled from outside",
       "  increase amount=1 side=each_side\n    , inset amount=2\n    , filled direction=outside"},
      {"decrease 1 on right, 0 in", "  decrease amount=1 side=right\n    , inset amount=0"},
      {"fill empties from right", "  fill direction=right"},
      {"cross 2 over 3 at middle 5", "  cross amount=2 second=3 needles=(middle 5)"},
      {"tuck every other for 2 rows", "  tuck amount=(unit 2 rows) needles=every_other"},
      {"pick up gusset along turn.left + flap.left, onto left, 1 for every 2 rows",
       "  pick_up amount=gusset edge=turn.left edge=flap.left\n    , onto side=left\n    , every_rows amount=1 "
       "second=(unit 2 rows)"},
      {"open sock.heel_slot, upper on holder", "  open edge=sock.heel_slot\n    , upper_on holder"},
      {"scrap off sole as sole_end, all except sole as instep_end",
       "  scrap_off named=sole:sole_end named=(except all sole):instep_end"},
      {"take off held as holder_sts, on holder", "  take_off named=held:holder_sts\n    , method on_holder"},
      {"bind off all, by latch, loose", "  bind_off needles=all\n    , method by_latch\n    , method loose"},
      {"gather all as toe", "  gather needles=all name=toe"},
      {"pitch half", "  pitch word=half"},
      {"carriage knits to right only", "  carriage_knits word=to_right"},
      {"carriage knits both ways", "  carriage_knits word=both_ways"},
      {"graft sock.sole_end to sock.instep_end, from the open side",
       "  graft edge=sock.sole_end to=sock.instep_end\n    , from the_open_side"},
      {"seam a.left + b.left to c.right, mattress, with main",
       "  seam edge=a.left edge=b.left to=c.right\n    , method mattress\n    , with name=main"},
      {"thread cord through sole.top.eyelets, top.top.eyelets",
       "  thread_through edge=sole.top.eyelets edge=top.top.eyelets name=cord"},
      {"close corners of sock.heel_slot", "  close_corners edge=sock.heel_slot"},
      {"weave in ends", "  weave_in_ends"},
  };
  for (const auto& [spelled, meant] : table) {
    INFO(spelled);
    CHECK(line(spelled) == meant);
  }
}

TEST_CASE("spellings of facts and statements") {
  const std::pair<const char*, const char*> table[] = {
      {"expect body sts, carriage right", "  expect [count (unit body sts)] [carriage right]"},
      {"expect half sts on main bed", "  expect [count (unit half sts) main_bed]"},
      {"expect down_to sts in work, 20 sts held", "  expect [count (unit down_to sts)] [count (unit 20 sts) held]"},
      {"expect part in work, held empty", "  expect [in_work part] [empty held]"},
      {"expect part side by side", "  expect [side_by_side part]"},
      {"expect carriage beside part, nothing held, row 24", "  expect [carriage_beside part] [nothing_held] [row 24]"},
      {"expect total rows knitted", "  expect [rows_knitted (unit total rows)]"},
      {"expect left edge 120 rows", "  expect [edge_rows left (unit 120 rows)]"},
      {"expect even(steps), a < b", "  expect [condition (even() steps)] [condition (< a b)]"},
      {"work heel(right half, down_to: 8) as again", "  work (heel() right_half down_to: 8) as again"},
      {"section leg \"Leg\"", "  section leg \"Leg\""},
      {"section \"Leg\"", "  section \"Leg\""},
      {"only for a, b {\nknit 1 row\n}", "  only for a b\n    knit amount=(unit 1 row)"},
      {"repeat n times as i { knit 1 row }", "  repeat n as i\n    knit amount=(unit 1 row)"},
      {"say \"Narrow\" {\n}", "  say \"Narrow\""},
      {"if a { knit 1 row } else if b { knit 2 rows }\nelse { knit 3 rows }",
       "  if a\n    knit amount=(unit 1 row)\n  else\n    if b\n      knit amount=(unit 2 rows)\n    else\n      knit "
       "amount=(unit 3 rows)"},
      {"let f(n, k) = n", "  let f() n k = n"},
      {"let f() = 1", "  let f() = 1"},
      {"caution \"Mind the ends.\"", "  caution \"Mind the ends.\""},
  };
  for (const auto& [spelled, meant] : table) {
    INFO(spelled);
    CHECK(line(spelled) == meant);
  }
}

TEST_CASE("spellings of the parts of a source") {
  const std::pair<const char*, const char*> table[] = {
      {"pattern \"House sock\" {\n  by \"Tidewrack Hosiery\", \"its sample room\"\n}",
       "pattern \"House sock\"\n  by \"Tidewrack Hosiery\" \"its sample room\"\n"},
      {"use heels as old", "use heels as old\n"},
      {"use \"sizes.stk\"", "use \"sizes.stk\"\n"},
      {"sizes {\n  small large\n  printed \"S\" \"L\"\n  foot 10 - cm\n  from feet foot_length, ball\n}",
       "sizes small large\n  from feet foot_length ball\n  printed \"S\" \"L\"\n  foot 10 - cm\n"},
      {"measures feet {\n  small large\n  ball 10.5 -1 in, \"a survey\"\n}",
       "measures feet small large\n  ball 10.5 -1 in source \"a survey\"\n"},
      {"edition mid {\n machine mid_gauge with second bed\n yarn main \"wool\", 200 tex, Nm 9.5/1\n gauge hem 24 sts, "
       "38 rows to 10 cm, at MT - 2\n}",
       "edition mid\n  machine mid_gauge second_bed\n  yarn main \"wool\" (unit 200 tex) (Nm 9.5/1)\n  gauge hem (unit "
       "24 sts) (unit 38 rows) to (unit 10 cm) at MT-2\n"},
      {"machine mid_gauge {\n  printed \"mid gauge\"\n  pitch 6.5 mm\n  dial 0 to 10 step 1/3\n}",
       "machine mid_gauge\n  printed \"mid gauge\"\n  pitch (unit 6.5 mm)\n  dial 0 10 1/3\n"},
      {"setting depth = 6 cm, from 2 cm to 9 cm step 1 cm, \"Depth\"",
       "setting depth = (unit 6 cm) from (unit 2 cm) to (unit 9 cm) step (unit 1 cm) \"Depth\"\n"},
      {"ease around -16% to -5%, length -8% to 0%",
       "ease [around (- (unit 16 %)) to (- (unit 5 %))] [length (- (unit 8 %)) to (unit 0 %)]\n"},
      {"floats at most 5 (6, 7) sts", "floats (unit (grade 5 6 7) sts)\n"},
      {"finished length = height(tube)", "finished length = (height() tube)\n"},
      {"chart seeds, seen from purl side {\n  . main   x contrast\n  [.x.x]\n  [x . x .]\n}",
       "chart seeds seen from purl\n  . main\n  x contrast\n  [.x.x]\n  [x.x.]\n"},
      {"technique toe(part: needles, n: sts or count = 3) {\n  needs part in work, \"{n}\"\n  leaves n sts\n  says "
       "\"Toe\"\n  knit 1 row\n}",
       "technique toe\n  parameter part: needles\n  parameter n: sts count = 3\n  needs [in_work part] \"{n}\"\n  "
       "leaves [count (unit n sts)]\n  says \"Toe\"\n  knit amount=(unit 1 row)\n"},
      {"piece sock, make 2, second mirrored {\n}", "piece sock make 2 second_mirrored\n"},
      {"finish { weave in ends }", "finish\n  weave_in_ends\n"},
  };
  for (const auto& [spelled, meant] : table) {
    INFO(spelled);
    CHECK(part(spelled) == meant);
  }
}
