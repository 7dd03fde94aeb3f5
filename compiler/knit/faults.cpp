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
      case FaultKind::not_in_work: at<Code::C08>().label("{} {} not in work", needles, n == 1 ? "is" : "are"); return;
      case FaultKind::not_held: at<Code::C09>().label("{} {} not held", needles, n == 1 ? "is" : "are"); return;
      case FaultKind::needles_held: at<Code::C10>().label("{} {} held", needles, n == 1 ? "is" : "are"); return;
      case FaultKind::without_loops: cause(at<Code::C11>().label("{} {} no loop", needles, n == 1 ? "has" : "have"), "emptied here"); return;
      case FaultKind::needles_carry:
        at<Code::C12>().label("{} {} already", needles, n == 1 ? "carries a loop" : "carry loops")
            .help("take off, scrap off or bind off what is there first");
        return;
      case FaultKind::needle_occupied: at<Code::C13>().label("{} {} not free", needles, n == 1 ? "is" : "are"); return;
      case FaultKind::not_empty: at<Code::C14>().label("{} {} loops", needles, n == 1 ? "carries" : "carry"); return;
      case FaultKind::loops_out_of_work:
        at<Code::C15>().label("{} still {} a loop", needles, n == 1 ? "carries" : "carry")
            .help("move the loops to other needles, or bind them off, before their needles go out of work");
        return;
      case FaultKind::moved_off_bed: at<Code::C16>().label("from {} there is no needle {} farther", needles, std::abs(f_.a)); return;
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
      case FaultKind::gap_in_shaping: at<Code::C22>().label("{} {} no loop or {} out of work", needles, n == 1 ? "has" : "have", n == 1 ? "is" : "are"); return;
      case FaultKind::tool_too_narrow: at<Code::C23>().label("{} prongs needed, {} at most", f_.a, f_.b).help("fewer stitches outside the shaping"); return;
      case FaultKind::crossing_too_wide: at<Code::C24>().label("{} stitches cross, {} at most", f_.a, f_.b); return;
      case FaultKind::nothing_to_lift: at<Code::C25>().label("beside {} there is no loop", needles); return;
      case FaultKind::wrap_away_from_yarn:
        at<Code::C26>().label("{} {} not next to the needle knitted last, {}", needles, n == 1 ? "is" : "are", needle_text(bench_, static_cast<int>(f_.a)))
            .help("wrap the held needle on the side where the carriage stands now");
        return;
      case FaultKind::transfer_at_half_pitch: at<Code::B01>().label("the needles face gaps here").help("`pitch full` before the transfer"); return;
      case FaultKind::hang_counts_differ: hang_counts(); return;
      case FaultKind::edge_not_open: at<Code::E05>().label("its stitches are closed").help("an edge on waste, on a holder, or cast on open on waste can be hung"); return;
      case FaultKind::edge_already_used: cause(at<Code::E06>().label("it was used before"), "used here first"); return;
      case FaultKind::comb_hangs_in_edge: cause(at<Code::E07>().label("it must come out before the edge is hung or drawn").help("`remove comb` before this step"), "hung here"); return;
      case FaultKind::pick_up_apart: at<Code::E08>().label("{}", needles).help("loops are picked up on the needles next to the work, from the work outwards"); return;
      case FaultKind::pick_up_too_many:
        at<Code::E09>().label("{} along {} rows; this rate gives {} at most", count_text(f_.a, "loop", "loops"), f_.c, f_.b)
            .help("{} loops, or a closer rate", f_.b);
        return;
      case FaultKind::pick_up_leaves_rows:
        at<Code::E10>().label("{} along {} rows; this rate gives {}", count_text(f_.a, "loop", "loops"), f_.c, f_.b);
        return;
      case FaultKind::comb_too_early:
        at<Code::Y12>().label("{} knitted since the cast-on, {} needed", count_text(f_.a, "row", "rows"), f_.b).help("knit {} first", count_text(f_.b - f_.a, "row more", "rows more"));
        return;
      case FaultKind::comb_too_late: cause(at<Code::Y13>().label("a pass has been knitted since"), "the zigzag"); return;
      case FaultKind::comb_without_fabric: at<Code::Y14>().label("nothing hangs from the needles"); return;
      case FaultKind::no_comb: at<Code::Y15>().label("none was hung, or it is out already"); return;
      case FaultKind::carriage_elsewhere: carriage_elsewhere(); return;
      case FaultKind::nothing_in_work: at<Code::Y04>().label("no needle is in work"); return;
      case FaultKind::no_yarn_threaded: at<Code::Y05>().label("the feeder is empty").help("`thread main` before this step"); return;
      case FaultKind::no_second_yarn: at<Code::Y06>().label("one yarn is in the feeder").help("`thread main and contrast` before the two-colour rows"); return;
      case FaultKind::feeder_busy: at<Code::Y07>().label("it was not cut or rested").help("`cut` or `rest` it first"); return;
      case FaultKind::yarn_not_threaded: at<Code::Y08>().label("it is not threaded, and rests nowhere on the fabric"); return;
      case FaultKind::no_such_yarn: at<Code::Y09>().label("waste yarn is needed here").help("`yarn waste \"smooth cotton\"` in the edition"); return;
      case FaultKind::tension_beyond_dial:
        at<Code::Y10>().label("{} numbers between the tightest and the slackest, {} on the dial", tenths(f_.a), tenths(f_.b));
        return;
      case FaultKind::tension_jumps: at<Code::Y11>().label("from MT{} to MT{}", offset(f_.a), offset(f_.b)); return;
      case FaultKind::empty_needles_knitted:
        cause(at<Code::C27>().label("{} {} empty", needles, n == 1 ? "is" : "are")
                  .help("`empties out of work` after the move puts them away; `empties in work` makes eyelets of them"), "emptied or brought into work here");
        return;
      case FaultKind::eyelet_on_edge:
        cause(at<Code::C28>().label("{} {} at the edge of the work", needles, n == 1 ? "is" : "are").help("leave the two edge stitches on each side alone: `of (all except 2 on right)`"), "emptied here");
        return;
      case FaultKind::eyelet_beside_edge: cause(at<Code::C29>().label("{} {} only the edge stitch outside it", needles, n == 1 ? "has" : "have").help("leave two stitches at each side alone"), "emptied here"); return;
      case FaultKind::float_too_long: float_too_long(); return;
      case FaultKind::open_turn:
        cause(at<Code::Y02>().label("{} {} held beside the turn and was not wrapped", needle_text(bench_, f_.needle), n == 1 ? "is" : "is")
                  .help("`wrap 1 on carriage side` after the row, or hold the needle just knitted"), "held here");
        return;
      case FaultKind::long_hold: cause(at<Code::Y16>().label("{} rows by now", f_.a).help("`hang weights` moves the weights up under the needles that knit"), "held here"); return;
      case FaultKind::tuck_too_long: at<Code::C32>().label("more than {} rows on {}", f_.a, needle_text(bench_, f_.needle)); return;
      case FaultKind::slip_too_long: at<Code::C33>().label("more than {} rows at {}", f_.a, needle_text(bench_, f_.needle)); return;
      case FaultKind::tucks_side_by_side: at<Code::C34>().label("{} side by side, {} at most", f_.a, f_.b); return;
      case FaultKind::opposed_at_full_pitch: at<Code::B03>().label("{} of needles face each other, {} the first", count_text(n, "pair", "pairs"), needle_text(bench_, f_.needles.first())).help("`pitch half` before this, or a setting in which none face"); return;
      case FaultKind::tube_shut_below: at<Code::B04>().label("both beds were knitted in one pass below").help("hang the edge folded on two beds, or begin the tube from a zigzag and a round"); return;
      case FaultKind::layers_joined: at<Code::B05>().label("a row knits both beds together").help("`knit … rounds` keeps them apart"); return;
      case FaultKind::tube_side_open: at<Code::B06>().label("{} {} not knitted", needles, n == 1 ? "is" : "are"); return;
      case FaultKind::bed_rests_in_round: at<Code::B07>().label("one bed is held").help("release it, or knit rows over the other bed alone"); return;
      case FaultKind::corner_gap: at<Code::B08>().label("on the {}", f_.a ? "right" : "left").help("`lift 1 on each side of main bed` closes it"); return;
      case FaultKind::too_little_waste: at<Code::E11>().label("{}; {} hold", count_text(f_.a, "row", "rows"), f_.b); return;
      case FaultKind::yarn_not_at_end: at<Code::E12>().label("the yarn is at {}", needle_text(bench_, f_.needle)); return;
      case FaultKind::yarn_not_cut: at<Code::E13>().label("the yarn is still in the feeder").help("`cut main, tail 40 cm` before this step"); return;
      case FaultKind::tail_elsewhere:
        at<Code::E14>().label("the tail is at {}, and this begins at {}", needle_text(bench_, f_.needle), needle_text(bench_, static_cast<int>(f_.a)))
            .help("one row more or less before the yarn is cut, or begin `from` the other end");
        return;
      case FaultKind::tail_too_short: at<Code::E15>().label("{} cm there, {} cm needed", f_.a / 10000, (f_.b + 9999) / 10000).help("a longer `tail` at the cut"); return;
      case FaultKind::slot_not_knitted: at<Code::E16>().label("no row lies above it"); return;
      case FaultKind::loops_hang_free: at<Code::E17>().label("the {} loops are held by nothing", f_.a ? "upper" : "lower").help("{}", f_.a ? "`open …, upper on holder`" : "hang the lower loops first"); return;
      case FaultKind::waste_still_holds: at<Code::E18>().label("its stitches hang on it alone"); return;
      case FaultKind::loops_on_needles: at<Code::E19>().label("{}", needles).help("bind off, gather, or scrap off at the end of the piece"); return;
      case FaultKind::graft_counts_differ: graft_counts(); return;
      case FaultKind::seam_sorts_differ: at<Code::E04>().label("rows on one side, stitches on the other"); return;
      case FaultKind::seam_counts_differ:
        at<Code::E03>().label("{} here, {} there; {} more on one side can be eased in", f_.a, f_.b, f_.c).help("the sections between the two seams should have the same rows");
        return;
      case FaultKind::slot_not_opened: at<Code::E20>().label("its waste is still in"); return;
      case FaultKind::no_eyelets: at<Code::E21>().label("none was worked in this section, or a cord is in them already"); return;
      case FaultKind::edge_never_secured:
        at<Code::E01>(f_.cause).label("{} on waste or a holder since here", loops_text(f_.a, 0, 0)).help("graft, gather, hang or bind off this edge");
        return;
      case FaultKind::slot_not_closed: at<Code::E22>(f_.cause).label("opened or left here").help("graft its loops to the heel, then `close corners of` it"); return;
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
  std::uint64_t grade_bit() const { return std::uint64_t{1} << size_; }

  void cause(Builder& builder, const char* words) {
    if (f_.cause != runtime::no_tag && c_.sites.known(f_.cause) && !(c_.sites[f_.cause].mend == c_.sites[f_.tag].mend))
      builder.label(c_.sites[f_.cause].mend, "{}", words);
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

  void float_too_long() {
    Builder builder = at<Code::Y01>();
    const std::string from = needle_text(bench_, static_cast<int>(f_.needle)), to = needle_text(bench_, f_.needles.first());
    if (f_.c == 0)
      builder.label("the yarn hangs at {}; the first needle to knit is {}, {} away, {} at most", from, to, count_text(f_.a, "stitch", "stitches"), f_.b);
    else
      builder.label("from {} to {} it passes {}, {} at most", from, to, count_text(f_.a, "stitch", "stitches"), f_.b);
    if (f_.c == 0) builder.help("one row more or less before this brings the carriage, and the yarn, to the side where the knitting begins; `rounded to even` where the rows are worked out does it for every size");
    else builder.help("`floats at most …` says how far a yarn may pass");
  }

  void hang_counts() {
    const std::int64_t loops = f_.b ? f_.b : f_.c;
    Builder builder = at<Code::C31>();
    builder.label("{} for {}", count_text(f_.a, "needle waits", "needles wait"), loops_text(f_.b, f_.b ? 0 : f_.c, f_.b ? 0 : f_.d));
    if (!f_.needles.empty()) builder.note("{} {} none", needles_text(bench_, f_.needles), f_.needles.count() == 1 ? "gets" : "get");
    if (f_.a == loops + 1 && !f_.b)
      builder.help("between n stitches lie n - 1 loops: cast on 1 more and let the setting end with a needle in work, `ending [|]`");
    else if (f_.a > loops) builder.help("{} fewer, or {} more", count_text(f_.a - loops, "needle", "needles"), count_text(f_.a - loops, "loop", "loops"));
    else builder.help("{} more, or {} fewer", count_text(loops - f_.a, "needle", "needles"), count_text(loops - f_.a, "loop", "loops"));
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
