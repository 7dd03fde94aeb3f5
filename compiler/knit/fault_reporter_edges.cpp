// Edges that do not fit, are hung askew, or stay open.
#include "compiler/knit/fault_reporter.hpp"

namespace stk::knit {

const char* FaultReporter::edge_side(runtime::EdgeId id, bool opposite) const {
  return (bench_.seen(bench_.fabric().edge(id).side) == runtime::Side::left) != opposite ? "left" : "right";
}

// What was taken off last was `all` that was in work, and some stitches waited.
void FaultReporter::loops_on_needles(const std::string& needles) {
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
void FaultReporter::selvedge_left_open() {
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

void FaultReporter::hung_crossed() {
  Builder builder = at<Code::E34>();
  if (f_.a == 0) builder.label("the hem would cross over itself: each loop goes straight up").help("leave out `reversed`");
  else if (f_.a == 1) builder.label("the loops go straight across to the needles that face them").help("leave out `reversed`");
  else builder.label("the fabric folds sideways, so that its near loop comes to the near needle").help("`reversed` after the needles");
  cause(builder, "this edge");
}

void FaultReporter::marked_row_unfit() {
  Builder builder = at<Code::E37>();
  const bool one = f_.needles.count() == 1;
  const std::string needles = needles_text(bench_, f_.needles);
  switch (f_.a) {
    case 0:
      builder.label("{} {} its {} still", needles, one ? "carries" : "carry", one ? "loop" : "loops")
          .help("knit the rows of the hem first; what is held knits none");
      break;
    case 1:
      if (bench_.fabric().edge(f_.edge).piece == bench_.machine().piece()) {
        builder.label("the work has been off its needles since, and has lost its marks").help("mark the row after that, and hang it before the work is taken off or turned over again");
      } else {
        builder.label("it lies in another piece").help("an edge to be hung here is taken off: `scrap off … as NAME`");
      }
      break;
    case 2:
      builder.label("{} {}", needles, bench_.fabric().edge(f_.edge).bed != f_.bed ? "are of the other bed" : one ? "carries no stitch" : "carry no stitches")
          .help("it is hung as a hem, on needles that carry the rows above it");
      break;
    default:
      builder.label("it goes straight up, one stitch on each needle").help("`hang … on all` alone, neither `folded` nor `by loops between`");
      break;
  }
  cause(builder, "marked here");
}

void FaultReporter::hang_counts() {
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
void FaultReporter::edge_not_open() {
  using runtime::EdgeKind;
  const runtime::Edge* edge = f_.edge.given() ? &bench_.fabric().edge(f_.edge) : nullptr;
  if (!edge) {
    at<Code::E05>().label("there is no such edge");
  } else if (edge->state == runtime::EdgeState::forming) {
    at<Code::E05>().label("no row lies on its waste yet").help("knit the first row in a yarn that stays");
  } else if (edge->kind == EdgeKind::row) {
    at<Code::E27>().label("it is a row inside the fabric").help("`hang … on all` hangs a marked row on the needles above it");
  } else if (edge->live) {
    at<Code::E27>().label("its stitches are open").help("`graft` joins open stitches; a seam or a pick-up takes a closed edge");
  } else if (bench_.knitting() && edge->kind != EdgeKind::selvedge && edge->kind != EdgeKind::gathered) {
    at<Code::E27>().label("it runs along stitches").help("loops are picked up along rows, at `left` or `right` of a section");
  } else {
    at<Code::E05>().label("{}", edge->kind == EdgeKind::selvedge ? "a side edge has rows, no loops" : "its stitches are closed")
        .help("an edge on waste, on a holder or cast on can be hung; one on waste or a holder can be grafted");
  }
}

void FaultReporter::tail_elsewhere() {
  Builder builder = at<Code::E14>();
  if (f_.needle < 0) {
    builder.label("no tail hangs at what is sewn here").help("`cut main, tail 60 cm` at the end of it, or a new length: `with main`");
    return;
  }
  builder.label("the tail is at {}, and this begins at {}", needle_text(bench_, f_.needle), needle_text(bench_, static_cast<int>(f_.a)))
      .help("one row more or less before the yarn is cut, or begin `from` the other end");
}

void FaultReporter::graft_counts() {
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
std::string FaultReporter::sections_text(const std::vector<runtime::EdgeId>& side) const {
  std::string text;
  for (const runtime::EdgeId id : side) {
    const runtime::Edge& edge = bench_.fabric().edge(id);
    const std::string name = bench_.section_name(edge.section);
    if (name.empty()) return {};
    text += (text.empty() ? "" : " + ") + name + " " + std::to_string(edge.kind == runtime::EdgeKind::selvedge ? edge.rows - edge.joined : edge.whole);
  }
  return text;
}

// The whole may agree where the sections do not: then it can be sewn, and lies askew.
void FaultReporter::seam_counts() {
  if (f_.d == 0) tell_lengths(at<Code::E03>()).help("the sections that meet in the seam should have the same number");
  else tell_lengths(at<Code::E36>()).help("as a whole both sides agree, so the sections can have the same rows; where these are not meant to meet, call one of them otherwise");
}

findings::Builder FaultReporter::tell_lengths(Builder builder) {
  const bool rows = f_.edge.given() && bench_.fabric().edge(f_.edge).kind == runtime::EdgeKind::selvedge;
  builder.label("{} here, {} there; {} more on one side can be eased in",
                rows ? count_text(f_.a, "row", "rows") : count_text(f_.a, "stitch", "stitches"), f_.b, f_.c);
  if (c_.seam && (c_.seam->a.size() > 1 || c_.seam->b.size() > 1) && c_.seam->a.size() + c_.seam->b.size() <= 12) {
    const std::string here = sections_text(c_.seam->a), there = sections_text(c_.seam->b);
    if (!here.empty() && !there.empty()) builder.note("here {}; there {}", here, there);
  }
  return builder;
}

}  // namespace stk::knit
