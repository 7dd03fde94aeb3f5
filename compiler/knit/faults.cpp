#include "compiler/knit/fault_reporter.hpp"

namespace stk::knit {

using runtime::FaultKind;

void FaultReporter::report() {
  const std::string needles = needles_text(bench_, f_.needles);
  const int n = f_.needles.count();
  switch (f_.kind) {
    case FaultKind::off_the_bed:
      at<Code::C06>().label("the bed has {} needles, L{} to R{}", f_.a, f_.a / 2, (f_.a + 1) / 2)
          .help("a machine with more needles, fewer stitches, or two pieces");
      return;
    case FaultKind::no_second_bed:
      at<Code::B02>().label("one bed in this edition").help("`machine … with second bed` in the edition, if the machine has one");
      return;
    case FaultKind::not_in_work:
      at<Code::C08>().label("{} {} not in work", needles, n == 1 ? "is" : "are")
          .help("`2 on left`, `right half` or `last of each 3` name needles that are in work, in every size");
      return;
    case FaultKind::not_held:
      at<Code::C09>().label("{} {} not held", needles, n == 1 ? "is" : "are")
          .help("`hold` it before the row; `wrap 1 on carriage side` finds the held needle beside the yarn");
      return;
    case FaultKind::needles_held:
      at<Code::C10>().label("{} {} held", needles, n == 1 ? "is" : "are").help("`release` what is to be used first");
      return;
    case FaultKind::without_loops:
      cause(at<Code::C11>().label("{} {} no loop", needles, n == 1 ? "has" : "have")
                .help("`of (all except empties)` leaves empty needles out"), "emptied here");
      return;
    case FaultKind::needles_carry:
      at<Code::C12>().label("{} {} already", needles, n == 1 ? "carries a loop" : "carry loops")
          .help("take off, scrap off or bind off what is there first");
      return;
    case FaultKind::needle_occupied:
      at<Code::C13>().label("{} {} a loop already", needles, n == 1 ? "carries" : "carry")
          .help("release, move or bind off what is there first; between the beds `onto` puts both loops on one hook");
      return;
    case FaultKind::not_empty: at<Code::C14>().label("{} {} loops", needles, n == 1 ? "carries" : "carry"); return;
    case FaultKind::loops_out_of_work:
      at<Code::C15>().label("{} still {} a loop", needles, n == 1 ? "carries" : "carry")
          .help("move the loops to other needles, or bind them off, before their needles go out of work");
      return;
    case FaultKind::moved_off_bed:
      at<Code::C16>().label("from {} there is no needle {} farther", needles, std::abs(f_.a))
          .help("fewer stitches, or a piece that begins farther from this end of the bed");
      return;
    case FaultKind::lands_outside_work:
      at<Code::C17>().label("{} {} out of work", needles, n == 1 ? "is" : "are")
          .help("`bring … into work` before, or `increase` to widen the work");
      return;
    case FaultKind::move_too_far:
      at<Code::C18>().label("{} needles at once; a loop stretches over {}", std::abs(f_.a), f_.b)
          .help("shorter moves, with a row knitted between them");
      return;
    case FaultKind::hook_too_full:
      cause(at<Code::C19>().label("{} loops on {}; up to {} knit off safely", f_.a, needle_text(bench_, f_.needle), f_.b)
                .help("knit a row between, or spread the loops"), "one of the loops came here");
      return;
    case FaultKind::nothing_to_fill_from:
      cause(at<Code::C20>().label("beside {} there is no loop with a row below it", needles).help("knit a row first, or fill from the other side"), "emptied here");
      return;
    case FaultKind::too_few_to_shape:
      at<Code::C21>().label("{} here, {} needed", count_text(f_.a, "stitch", "stitches"), f_.b)
          .help("fewer turns of the shaping, or fewer stitches outside it");
      return;
    case FaultKind::gap_in_shaping:
      at<Code::C22>().label("{} {} empty or out of work", needles, n == 1 ? "is" : "are")
          .help("shape before stitches are moved away here, or close the gaps first");
      return;
    case FaultKind::tool_too_narrow: at<Code::C23>().label("{} prongs needed, {} at most", f_.a, f_.b).help("fewer stitches outside the shaping"); return;
    case FaultKind::crossing_too_wide:
      at<Code::C24>().label("{} stitches cross, {} at most", f_.a, f_.b).help("cross fewer stitches");
      return;
    case FaultKind::nothing_to_lift:
      at<Code::C25>().label("beside {} there is no other stitch", needles).help("name only the needle beside the gap: `lift 1 on left`");
      return;
    case FaultKind::wrap_away_from_yarn: {
      Builder builder = at<Code::C26>();
      const int beside = static_cast<int>(f_.a);   // the held one that the yarn could go round
      if (beside >= 0) builder.label("{} {} away from the needle knitted last; {} is beside it", needles, n == 1 ? "is" : "are", needle_text(bench_, beside));
      else builder.label("{} {} away from the needle knitted last", needles, n == 1 ? "is" : "are");
      builder.help("`wrap 1 on carriage side`, straight after the row");
      return;
    }
    case FaultKind::transfer_at_half_pitch: at<Code::B01>().label("the needles face gaps here").help("`pitch full` before the transfer"); return;
    case FaultKind::edge_runs_out: 
      cause(at<Code::C03>().label("{} asked of an edge of {}", f_.a, f_.b)
                .help("a part has 1 stitch at least, {} at most; what an earlier step took of this edge is gone from it", f_.b), "made here");
      return;
    case FaultKind::hang_counts_differ: hang_counts(); return;
    case FaultKind::hung_aside: {
      const std::int64_t by = f_.a < 0 ? -f_.a : f_.a;
      at<Code::E30>().label("the loops are hung {} to the {}", count_text(by, "needle", "needles"), f_.a > 0 ? "right" : "left")
          .help("each loop goes on the needle straight above it, or the hem spirals: name the needles over {}",
                bench_.fabric().edge(f_.edge).kind == runtime::EdgeKind::row ? "the marked row" : "the cast-on");
      return;
    }
    case FaultKind::edge_not_open: edge_not_open(); return;
    case FaultKind::edge_already_used: cause(at<Code::E06>().label("it was used before"), "used here first"); return;
    case FaultKind::comb_hangs_in_edge: cause(at<Code::E07>().label("it must come out before the edge is hung or drawn").help("`remove comb` before this step"), "hung here"); return;
    case FaultKind::pick_up_apart: at<Code::E08>().label("{}", needles).help("loops are picked up on the needles next to the work, from the work outwards"); return;
    case FaultKind::pick_up_from_far_end:
      if (f_.a) {
        at<Code::E33>().label("the {} edge would cross over to the {}", edge_side(f_.edge), edge_side(f_.edge, true)).help("`left` edges `onto left`, `right` edges `onto right`");
        return;
      }
      at<Code::E33>().label("what was knitted last lies beside the work: the loops go on from there")
          .help("`{}` before `{}`", bench_.selvedge_name(f_.other_edge), bench_.selvedge_name(f_.edge));
      return;
    case FaultKind::hung_crossed: hung_crossed(); return;
    case FaultKind::marked_row_unfit: marked_row_unfit(); return;
    case FaultKind::pick_up_too_many:
      at<Code::E09>().label("{} along {} rows; this rate gives {} at most", count_text(f_.a, "loop", "loops"), f_.c, f_.b)
          .help("{} loops, or a closer rate", f_.b);
      return;
    case FaultKind::pick_up_leaves_rows:
      at<Code::E10>().label("{} along {} rows; this rate gives {}", count_text(f_.a, "loop", "loops"), f_.c, f_.b)
          .help("{} use the whole edge", count_text(f_.b, "loop", "loops"));
      return;
    case FaultKind::comb_too_early:
      at<Code::Y12>().label("{} knitted since the cast-on, {} needed", count_text(f_.a, "row", "rows"), f_.b).help("knit {} first", count_text(f_.b - f_.a, "row more", "rows more"));
      return;
    case FaultKind::comb_too_late: cause(at<Code::Y13>().label("a pass has been knitted since").help("`hang comb` right after the cast-on, before the next pass"), "the zigzag"); return;
    case FaultKind::comb_without_fabric: at<Code::Y14>().label("nothing hangs from the needles").help("comb and weights are hung once stitches are on the needles"); return;
    case FaultKind::no_comb: at<Code::Y15>().label("none was hung, or it is out already").help("leave this out, or `hang comb` before"); return;
    case FaultKind::weights_do_not_reach:
      cause(at<Code::Y25>().label("{} {} up to {} beyond the weights; their pull reaches {}", needles, n == 1 ? "is" : "are", count_text(f_.a, "needle", "needles"), count_text(f_.b, "needle", "needles"))
                .help("`hang weights` before this row moves them out under the new stitches"), "hung here");
      return;
    case FaultKind::no_weights:
      at_cause<Code::Y26>().label("more than {} are knitted on from here without any", count_text(f_.b, "row", "rows"))
          .help("`hang comb` after the first rows, or `hang weights`");
      return;
    case FaultKind::carriage_elsewhere: carriage_elsewhere(); return;
    case FaultKind::nothing_in_work: at<Code::Y04>().label("no needle is in work").help("`release held` or `bring … into work` before the row"); return;
    case FaultKind::no_yarn_threaded: at<Code::Y05>().label("the feeder is empty").help("`thread main` before this step"); return;
    case FaultKind::no_second_yarn: at<Code::Y06>().label("one yarn is in the feeder").help("`thread main and contrast` before the two-colour rows"); return;
    case FaultKind::feeder_busy: at<Code::Y07>().label("the yarn in it was neither cut nor rested").help("`cut main` ends it, `rest main` keeps it for later rows"); return;
    case FaultKind::yarn_not_threaded: at<Code::Y08>().label("it is not threaded, and rests nowhere on the fabric").help("`thread` it before, or name the yarn that is knitted here"); return;
    case FaultKind::no_such_yarn: at<Code::Y09>().label("waste yarn is needed here").help("`yarn waste \"smooth cotton\"` in the edition"); return;
    case FaultKind::tension_beyond_dial:
      at<Code::Y10>().label("{} numbers between the tightest and the slackest, {} on the dial", tenths(f_.a), tenths(f_.b))
          .help("tensions closer to one another, or another yarn for the firm part");
      return;
    case FaultKind::tension_jumps:
      at<Code::Y11>().label("from MT{} to MT{}", offset(f_.a), offset(f_.b)).help("a few rows at a number between, or a `section` of its own where another fabric begins");
      return;
    case FaultKind::empty_needles_knitted:
      noticed(at_cause<Code::C27>().label("{} {} left empty", needles, n == 1 ? "is" : "are")
                  .help("`empties out of work` after the move puts them away; `empties in work` makes eyelets of them"));
      return;
    case FaultKind::eyelet_on_edge:
      noticed(at_cause<Code::C28>().label("{} {} at the edge of the work", needles, n == 1 ? "is" : "are")
                  .help("leave two stitches at each side alone: `of (all except 2 on each side)`"));
      return;
    case FaultKind::eyelet_beside_edge:
      noticed(at_cause<Code::C29>().label("only the edge stitch lies outside {}", needles)
                  .help("leave two stitches at each side alone: `of (all except 2 on each side)`"));
      return;
    case FaultKind::float_too_long: float_too_long(); return;
    case FaultKind::open_turn:
      cause(at<Code::Y02>().label("{} is held beside the turn and was not wrapped", needles)
                .help("`wrap 1 on carriage side` after the row, or hold the needle just knitted"), "held here");
      return;
    case FaultKind::open_slit:
      cause(at<Code::Y24>().label("the turn lies beside {}, which waits", needle_text(bench_, f_.needle)).help("wrap that needle if no slit is meant here"), "held here");
      return;
    case FaultKind::long_hold: cause(at<Code::Y16>().label("{} rows by now", f_.a).help("`hang weights` moves the weights up under the needles that knit"), "held here"); return;
    case FaultKind::tuck_too_long:
      at<Code::C32>().label("more than {} rows on {}", f_.a, needle_text(bench_, f_.needle)).help("knit a row after {} rows at most", f_.a);
      return;
    case FaultKind::slip_too_long:
      at<Code::C33>().label("more than {} rows at {}", f_.a, needle_text(bench_, f_.needle)).help("knit a row after {} rows at most", f_.a);
      return;
    case FaultKind::tucks_side_by_side:
      at<Code::C34>().label("{} side by side, {} at most", f_.a, f_.b).help("let a needle that knits stand between: `every other`");
      return;
    case FaultKind::opposed_at_full_pitch: at<Code::B03>().label("{} of needles face each other, {} the first", count_text(n, "pair", "pairs"), needle_text(bench_, f_.needles.first())).help("`pitch half` before this, or a setting in which none face"); return;
    case FaultKind::tube_shut_below: at<Code::B04>().label("both beds were knitted in one pass below").help("`take off` or `scrap off` what is there and `hang` it `folded` on two beds, or cast on bed after bed"); return;
    case FaultKind::tube_shut_by_zigzag:
      noticed(at_cause<Code::B09>().label("it laces the beds together, and rounds go on above it")
                  .help("for an open tube cast on bed after bed, or hang an edge `folded`; a toe may be closed so"));
      return;
    case FaultKind::beds_at_two_tensions:
      noticed(at_cause<Code::B10>().label("the main bed at MT{}, the second at MT{}", offset(f_.a), offset(f_.b)).help("`tension MT on both beds`, if they are to knit alike"));
      return;
    case FaultKind::tube_ends_apart:
      at<Code::B11>().label("on the {} the main bed ends at {}, the second bed at {}", f_.a ? "right" : "left", needle_text(bench_, f_.needle), needle_text(bench_, static_cast<int>(f_.b)))
          .help("begin both halves on the same needles, and shape them alike: the yarn passes from bed to bed at their ends");
      return;
    case FaultKind::layers_joined: at<Code::B05>().label("a row knits both beds together").help("`knit … rounds` keeps them apart"); return;
    case FaultKind::tube_side_open:
      cause(at<Code::B06>().label("{} {} not knitted", needles, n == 1 ? "is" : "are").help("both beds knit their end stitches in every round: release or fill them before it"), "left out here");
      return;
    case FaultKind::bed_rests_in_round: at<Code::B07>().label("one bed is held").help("`release` it before the rounds; rows on the other bed alone are `knit … rows`"); return;
    case FaultKind::corner_gap: {
      const char* const side = f_.a == 0 ? "left" : f_.a == 1 ? "right" : "each side";
      const char* const bed = f_.bed == runtime::Bed::second ? "second" : "main";
      at<Code::B08>().label("on {}{} of the {} bed", f_.a == 2 ? "" : "the ", side, bed).help("before this, `lift 1 on {} of {} bed` closes it", side, bed);
      return;
    }
    case FaultKind::too_little_waste:
      at<Code::E11>().label("{} here, {} at least", count_text(f_.a, "row", "rows"), f_.b).help("`{} rows`, or no number for the usual", f_.b);
      return;
    case FaultKind::yarn_not_at_end: {
      Builder builder = at<Code::E12>();
      if (f_.needle >= 0) builder.label("the yarn is at {}", needle_text(bench_, f_.needle)).help("one row more or less before this brings it to the other end");
      else builder.label("the yarn in the feeder comes from no stitch here").help("bind off with the yarn that knitted them, before it is cut");
      return;
    }
    case FaultKind::yarn_not_cut: at<Code::E13>().label("no end of yarn hangs at these stitches").help("`cut main, tail 40 cm` before this step"); return;
    case FaultKind::tail_elsewhere: tail_elsewhere(); return;
    case FaultKind::tail_too_short:
      at<Code::E15>().label("{} cm there, {} cm needed", f_.a / 10000, (f_.b + 9999) / 10000).help("a longer `tail` where the yarn is cut");
      return;
    case FaultKind::slot_not_knitted: at<Code::E16>().label("no row lies above it").help("knit over the waste before it is drawn"); return;
    case FaultKind::loops_hang_free: at<Code::E17>().label("the {} loops are held by nothing", f_.a ? "upper" : "lower").help("{}", f_.a ? "`open …, upper on holder`" : "hang the lower loops first"); return;
    case FaultKind::waste_still_holds: at<Code::E18>().label("its stitches hang on it alone"); return;
    case FaultKind::loops_on_needles: loops_on_needles(needles); return;
    case FaultKind::graft_counts_differ: graft_counts(); return;
    case FaultKind::seam_sorts_differ:
      at<Code::E04>().label("rows on one side, stitches on the other")
          .help("`left` and `right` have rows; cast-on and bound-off edges have stitches");
      return;
    case FaultKind::seam_counts_differ: seam_counts(); return;
    case FaultKind::slot_not_opened: at<Code::E20>().label("its waste is still in").help("`open …, upper on holder` where the heel begins"); return;
    case FaultKind::join_sorts_differ:
      at<Code::E38>().label("rows and open stitches on the same side").help("join one of them after the other, each in rows of its own");
      return;
    case FaultKind::join_runs_out:
      if (bench_.fabric().edge(f_.edge).live) {
        at<Code::E28>().label("{} start there, {} left to hang", count_text(f_.a, "row", "rows"), count_text(f_.b, "loop", "loops"))
            .help("a loop is hung before each row that starts from the joined side, so for every two rows");
        return;
      }
      at<Code::E28>().label("{} knitted, {} left to join", count_text(f_.a, "row", "rows"), f_.b).help("the two pieces should have the same number of rows where they are joined");
      return;
    case FaultKind::short_rows_apart:
      cause(at<Code::Y23>().label("{} in work", needles).help("a heel and a toe belong on the same half: the sole"), "the earlier short rows, on other needles");
      return;
    case FaultKind::selvedge_left_open: selvedge_left_open(); return;
    case FaultKind::no_eyelets:
      at<Code::E21>().label("none was worked in this section, or a cord is in them already").help("`move …, empties in work` makes them");
      return;
    case FaultKind::edge_never_secured: {
      const bool begun = f_.edge.given() && bench_.fabric().edge(f_.edge).kind == runtime::EdgeKind::cast_on;
      const std::int64_t joined = f_.edge.given() ? bench_.fabric().edge(f_.edge).joined : 0;
      if (joined > 0) {
        at<Code::E01>(f_.cause).label("{} left, {} joined", loops_text(f_.a, 0, 0), joined)
            .help("join the rest, two rows to a loop, or graft, gather, hang or bind it off");
        return;
      }
      at<Code::E01>(f_.cause).label("{} {}", loops_text(f_.a, 0, 0), begun ? "cast on open here" : "on waste or a holder since here")
          .help("graft, gather, hang or bind off this edge");
      return;
    }
    case FaultKind::slot_not_closed:
      if (f_.a) at<Code::E22>(f_.cause).label("its corners gape").help("`close corners of` it in the finishing");
      else at<Code::E22>(f_.cause).label("not all its loops are joined").help("hang the lower loops, graft the upper ones to the heel, then `close corners of` it");
      return;
    case FaultKind::ends_not_woven: at<Code::E23>().label("{}", count_text(f_.a, "end", "ends")).help("`weave in ends` at the end of the finishing"); return;
    case FaultKind::waste_left: at<Code::E24>(f_.cause).label("waste since here").help("hang, graft or bind off the stitches it holds; it comes away then"); return;
  }
}

void report_fault(const FaultContext& context, const runtime::Fault& fault, const Bench& bench, std::size_t size) {
  FaultReporter(context, fault, bench, size).report();
}

}  // namespace stk::knit
