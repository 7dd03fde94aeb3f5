#include "compiler/knit/faults.hpp"

#include <string>

#include "compiler/findings/suggest.hpp"

namespace stk::knit {
namespace {

using findings::Builder;
using findings::Code;
using runtime::Fault;
using runtime::FaultKind;

std::string needle_text(const Bench& bench, int needle) {
  return needle < 0 ? std::string("nowhere") : runtime::needle_name(bench.spec(), needle);
}

// "L16, L13, L10 and 9 more"
std::string needles_text(const Bench& bench, const runtime::NeedleSet& set) {
  const int count = set.count();
  std::string text;
  int shown = 0;
  for (int needle : set) {
    if (shown == 3 && count > 4) break;
    const bool last = shown + 1 == count;
    text += (shown == 0 ? "" : last ? " and " : ", ") + needle_text(bench, needle);
    ++shown;
  }
  if (shown < count) text += " and " + std::to_string(count - shown) + " more";
  return text;
}

std::string count_text(std::int64_t n, const char* one, const char* many) {
  return std::to_string(n) + " " + (n == 1 ? one : many);
}

// Loops of an edge by their kinds: "12 whole", "11 between and 2 half".
std::string loops_text(std::int64_t whole, std::int64_t between, std::int64_t half) {
  if (whole) return count_text(whole, "stitch", "stitches");
  std::string text = count_text(between, "loop between stitches", "loops between stitches");
  if (half) text += " and " + std::to_string(half) + " half " + (half == 1 ? "loop" : "loops");
  return text;
}

class Reporter {
 public:
  Reporter(const FaultContext& context, const Fault& fault, const Bench& bench, std::size_t size)
      : c_(context), f_(fault), bench_(bench), size_(size) {}

  void report() {
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
      case FaultKind::hang_counts_differ: hang_counts(); return;
      case FaultKind::hung_aside: {
        const std::int64_t by = f_.a < 0 ? -f_.a : f_.a;
        at<Code::E30>().label("the loops are hung {} to the {}", count_text(by, "needle", "needles"), f_.a > 0 ? "right" : "left")
            .help("each loop goes on the needle straight above it, or the hem spirals: name the needles over the cast-on");
        return;
      }
      case FaultKind::edge_not_open: edge_not_open(); return;
      case FaultKind::edge_already_used: cause(at<Code::E06>().label("it was used before"), "used here first"); return;
      case FaultKind::comb_hangs_in_edge: cause(at<Code::E07>().label("it must come out before the edge is hung or drawn").help("`remove comb` before this step"), "hung here"); return;
      case FaultKind::pick_up_apart: at<Code::E08>().label("{}", needles).help("loops are picked up on the needles next to the work, from the work outwards"); return;
      case FaultKind::pick_up_from_far_end:
        at<Code::E33>().label("what was knitted last lies beside the work: the loops go on from there")
            .help("name the edges in this order: the one knitted last comes first");
        return;
      case FaultKind::hung_crossed: hung_crossed(); return;
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
        cause(at<Code::Y25>().label("{} {} up to {} beyond the weights, which draw on {}", needles, n == 1 ? "is" : "are", count_text(f_.a, "needle", "needles"), f_.b)
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
        at<Code::B10>().label("the main bed at MT{}, the second at MT{}", offset(f_.a), offset(f_.b)).help("`tension MT on both beds`, if they are to knit alike");
        return;
      case FaultKind::layers_joined: at<Code::B05>().label("a row knits both beds together").help("`knit … rounds` keeps them apart"); return;
      case FaultKind::tube_side_open:
        cause(at<Code::B06>().label("{} {} not knitted", needles, n == 1 ? "is" : "are").help("both beds knit their end stitches in every round: release or fill them before it"), "left out here");
        return;
      case FaultKind::bed_rests_in_round: at<Code::B07>().label("one bed is held").help("release it, or knit rows over the other bed alone"); return;
      case FaultKind::corner_gap: at<Code::B08>().label("on the {}", f_.a ? "right" : "left").help("`lift 1 on each side of main bed` closes it"); return;
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
      case FaultKind::join_runs_out:
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

 private:
  template <Code C, class... A>
  Builder at(runtime::Tag tag, A&&... a) {
    const bool known = c_.sites.known(tag);
    const text::Span place = known ? c_.sites[tag].mend : text::Span{};
    Builder builder = c_.findings.report<C>(place, std::forward<A>(a)...);
    builder.at(c_.edition, grade_bit()).mirrored(bench_.mirrored());
    if (bench_.knitting()) builder.row(static_cast<std::uint32_t>(f_.counter));
    if (f_.needle >= 0) builder.needle(needle_text(bench_, f_.needle));
    else if (!f_.needles.empty()) builder.needle(needle_text(bench_, f_.needles.first()));
    // Inside a library the designer mends the call; where it happened is shown beside.
    if (known && c_.sites[tag].step.file.value != place.file.value) builder.label(c_.sites[tag].step, "at this step of the library");
    return builder;
  }
  template <Code C>
  Builder at() {
    return at<C>(f_.tag);
  }
  // At the step that brought it about, where that is known: there it is mended.
  template <Code C>
  Builder at_cause() {
    return at<C>(f_.cause != runtime::no_tag && c_.sites.known(f_.cause) ? f_.cause : f_.tag);
  }
  std::uint64_t grade_bit() const { return std::uint64_t{1} << size_; }

  void cause(Builder& builder, const char* words) {
    if (f_.cause != runtime::no_tag && c_.sites.known(f_.cause) && !(c_.sites[f_.cause].mend == c_.sites[f_.tag].mend))
      builder.label(c_.sites[f_.cause].mend, "{}", words);
  }

  // Beside a finding at its cause: where it was noticed.
  void noticed(Builder& builder) {
    if (f_.cause != runtime::no_tag && c_.sites.known(f_.cause) && !(c_.sites[f_.cause].mend == c_.sites[f_.tag].mend))
      builder.label(c_.sites[f_.tag].mend, "knitted here");
  }

  static std::string tenths(std::int64_t t) {
    const std::int64_t a = t < 0 ? -t : t;
    return std::to_string(a / 10) + (a % 10 ? "." + std::to_string(a % 10) : "");
  }
  static std::string offset(std::int64_t t) { return t == 0 ? std::string() : (t < 0 ? " - " : " + ") + tenths(t); }

  void carriage_elsewhere() {
    at<Code::Y03>().label("it is needed on the {}", f_.a ? "right" : "left")
        .help("an even number of rows brings it back to the side where they began, an odd number to the other");
  }

  // What was taken off last was `all` that was in work, and some stitches waited.
  void loops_on_needles(const std::string& needles) {
    const runtime::NeedleSet held = bench_.held_at_end[static_cast<std::size_t>(f_.bed)] & f_.needles;
    const int n = f_.needles.count(), waiting = held.count();
    const std::string where = f_.bed == runtime::Bed::second ? " of the second bed" : "";
    Builder builder = at<Code::E19>();
    if (waiting == 0) builder.label("{}{}", needles, where).help("bind off, gather, or scrap off at the end of the piece");
    else if (waiting == n) builder.label("{}{}, held", needles, where);
    else builder.label("{}{}, {} of them held", needles, where, waiting);
    if (waiting > 0) builder.help("`all` takes what is in work: `release held` before the last stitches are taken off");
  }

  // One note for a section: both its sides stand in one place of the source.
  void selvedge_left_open() {
    const runtime::Fabric& fabric = bench_.fabric();
    const runtime::Section& section = fabric.section(f_.section);
    const auto open = [&](runtime::EdgeId id) {
      const runtime::Edge& edge = fabric.edge(id);
      return edge.state == runtime::EdgeState::used ? std::int64_t{0} : edge.rows - edge.joined;
    };
    const std::int64_t left = open(section.left), right = open(section.right);
    const std::string name = bench_.selvedge_name(f_.edge);
    const bool both = left > 0 && right > 0;
    const std::string other = bench_.selvedge_name(f_.edge == section.left ? section.right : section.left);
    Builder builder = at<Code::E29>(f_.cause);
    if (both && left == right) builder.label("{} at each side are sewn to nothing", count_text(left, "row", "rows"));
    else if (both) builder.label("{} of `{}` and {} of `{}` are sewn to nothing", count_text(f_.a, "row", "rows"), name, left + right - f_.a, other);
    else builder.label("{} of `{}` are sewn to nothing", count_text(f_.a, "row", "rows"), name);
    if (section.short_row_series > 0 && f_.a <= 3 * section.short_row_series)   // what each series adds to an outer edge
      builder.help("short rows have a few rows of their own at an edge: `{} + …` takes them into the seam, or the pick-up, of the section beside them", name);
    else if (both) builder.help("`{}` and `{}` in a `seam`, if they are meant to be closed", name, other);
    else builder.help("`{}` in a `seam`, if it is meant to be closed", name);
  }

  void float_too_long() {
    Builder builder = at<Code::Y01>();
    const std::string from = needle_text(bench_, static_cast<int>(f_.needle)), to = needle_text(bench_, f_.needles.first());
    const std::string past = count_text(f_.a, "stitch", "stitches");
    const runtime::YarnId second = bench_.machine().second_threaded();
    if (second.given()) {   // rows of a chart: each yarn has a path of its own, from row to row
      builder.label("in row {} of the chart the {} yarn goes from {} to {}, past {}; {} at most", f_.d + 1, f_.yarn == second ? "second" : "first", from, to, past, f_.b);
      if (f_.c == 0) builder.help("a stitch of this yarn in every row, an even number of rows without it, or `cut` it and thread it anew");
      else builder.help("stitches of this yarn closer together; in some sizes only: a chart of their own, in `only for`");
    } else if (f_.c == 2) {
      builder.label("from {} to {} it crosses {}; {} at most", from, to, count_text(f_.a, "empty needle", "empty needles"), f_.b)
          .help("stitches that have drifted apart ladder: `take off` all and `hang` them side by side, or leave fewer needles empty between them");
      cause(builder, "emptied here");
      return;
    } else if (f_.c == 3 && f_.cause != runtime::no_tag) {
      builder.label("the yarn hangs at {} and is next knitted at {}, past {}; {} at most", from, to, past, f_.b)
          .help("add these loops on the side away from the yarn, `knit 1 row`, and then those on the other side");
      cause(builder, "loops added here");
      return;
    } else if (f_.c == 3) {
      builder.label("the yarn hangs at {}, and this begins at {}, past {}; {} at most", from, to, past, f_.b)
          .help("begin where the yarn is: the other `carriage` side");
      return;
    } else if (f_.c == 0) {
      builder.label("the yarn hangs at {} and is next knitted at {}, past {}; {} at most", from, to, past, f_.b)
          .help("one row more or less before this brings the carriage, and the yarn, to the side where the knitting begins; `rounded to even` where the rows are worked out does it for every size");
    } else {
      builder.label("from {} to {} it passes {}; {} at most", from, to, past, f_.b).help("`floats at most …` says how far a yarn may pass");
    }
    cause(builder, "held here");
  }

  void hung_crossed() {
    Builder builder = at<Code::E34>();
    if (f_.a == 0) builder.label("the hem would cross over itself: each loop goes straight up").help("leave out `reversed`");
    else if (f_.a == 1) builder.label("the loops go straight across to the needles that face them").help("leave out `reversed`");
    else builder.label("the fabric folds sideways, so that its near loop comes to the near needle").help("`reversed` after the needles");
    cause(builder, "this edge");
  }

  void hang_counts() {
    const std::int64_t loops = f_.b ? f_.b : f_.c;
    Builder builder = at<Code::C31>();
    builder.label("{} for {}", count_text(f_.a, "needle waits", "needles wait"), loops_text(f_.b, f_.b ? 0 : f_.c, 0));
    if (!f_.needles.empty() && !f_.b)
      builder.note("{} {} outside the last stitch, where no loop lies below", needles_text(bench_, f_.needles), f_.needles.count() == 1 ? "is" : "are");
    else if (!f_.needles.empty())
      builder.note("{} {} none", needles_text(bench_, f_.needles), f_.needles.count() == 1 ? "gets" : "get");
    if (f_.a == loops + 1 && !f_.b)
      builder.help("between n stitches lie n - 1 loops: cast on 1 more and let the setting end with a needle in work, `ending [|]`");
    else if (!f_.b && f_.a < loops)
      builder.help("one needle over each stretch that was out of work in the cast-on takes the loop below it; `hang … on all` hangs the stitches themselves");
    else if (f_.a > loops) builder.help("{} fewer, or {} more", count_text(f_.a - loops, "needle", "needles"), count_text(f_.a - loops, "loop", "loops"));
    else builder.help("{} more, or {} fewer", count_text(loops - f_.a, "needle", "needles"), count_text(loops - f_.a, "loop", "loops"));
  }

  // Hanging and grafting want loops, seaming a closed edge, picking up a side edge: what the edge is tells which it was.
  void edge_not_open() {
    using runtime::EdgeKind;
    const runtime::Edge* edge = f_.edge.given() ? &bench_.fabric().edge(f_.edge) : nullptr;
    if (!edge) {
      at<Code::E05>().label("there is no such edge");
    } else if (edge->state == runtime::EdgeState::forming) {
      at<Code::E05>().label("no row lies on its waste yet").help("knit the first row in a yarn that stays");
    } else if (edge->live) {
      at<Code::E27>().label("its stitches are open").help("`graft` joins open stitches; a seam or a pick-up takes a closed edge");
    } else if (bench_.knitting() && edge->kind != EdgeKind::selvedge && edge->kind != EdgeKind::gathered) {
      at<Code::E27>().label("it runs along stitches").help("loops are picked up along rows, at `left` or `right` of a section");
    } else {
      at<Code::E05>().label("{}", edge->kind == EdgeKind::selvedge ? "a side edge has rows, no loops" : "its stitches are closed")
          .help("an edge on waste, on a holder or cast on can be hung; one on waste or a holder can be grafted");
    }
  }

  void tail_elsewhere() {
    Builder builder = at<Code::E14>();
    if (f_.needle < 0) {
      builder.label("no tail hangs at what is sewn here").help("`cut main, tail 60 cm` at the end of it, or a new length: `with main`");
      return;
    }
    builder.label("the tail is at {}, and this begins at {}", needle_text(bench_, f_.needle), needle_text(bench_, static_cast<int>(f_.a)))
        .help("one row more or less before the yarn is cut, or begin `from` the other end");
  }

  void graft_counts() {
    Builder builder = at<Code::E02>();
    builder.label("{} to {}", loops_text(f_.a, f_.c, 0), loops_text(f_.b, f_.d, 0));
    for (const runtime::EdgeId id : {f_.edge, f_.other_edge})
      if (id.given()) {
        const runtime::Edge& edge = bench_.fabric().edge(id);
        if (c_.sites.known(edge.made)) builder.label(c_.sites[edge.made].mend, "{} came off here", loops_text(edge.whole, edge.between, edge.half));
      }
    const std::int64_t more = f_.a > f_.b ? f_.a - f_.b : f_.b - f_.a;
    if (more && f_.a && f_.b) builder.help("decrease {} on the larger edge before it comes off, or give both the same count", count_text(more, "stitch", "stitches"));
  }

  // "gusset 24 + sole 46 rows": what a side of the seam is made of, where that is more than one section.
  std::string sections_text(const std::vector<runtime::EdgeId>& side) const {
    std::string text;
    for (const runtime::EdgeId id : side) {
      const runtime::Edge& edge = bench_.fabric().edge(id);
      const std::string name = bench_.section_name(edge.section);
      if (name.empty()) return {};
      text += (text.empty() ? "" : " + ") + name + " " + std::to_string(edge.kind == runtime::EdgeKind::selvedge ? edge.rows - edge.joined : edge.whole);
    }
    return text;
  }

  void seam_counts() {
    const bool rows = f_.edge.given() && bench_.fabric().edge(f_.edge).kind == runtime::EdgeKind::selvedge;
    Builder builder = at<Code::E03>();
    builder.label("{} here, {} there; {} more on one side can be eased in",
                  rows ? count_text(f_.a, "row", "rows") : count_text(f_.a, "stitch", "stitches"), f_.b, f_.c);
    if (c_.seam && (c_.seam->a.size() > 1 || c_.seam->b.size() > 1) && c_.seam->a.size() + c_.seam->b.size() <= 12) {
      const std::string here = sections_text(c_.seam->a), there = sections_text(c_.seam->b);
      if (!here.empty() && !there.empty()) builder.note("here {}; there {}", here, there);
    }
    builder.help("the sections that meet in the seam should have the same number");
  }

  const FaultContext& c_;
  const Fault& f_;
  const Bench& bench_;
  std::size_t size_;
};

}  // namespace

void report_fault(const FaultContext& context, const Fault& fault, const Bench& bench, std::size_t size) {
  Reporter(context, fault, bench, size).report();
}

}  // namespace stk::knit
