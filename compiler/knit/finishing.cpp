// The finish block: pieces are off the machine, their edges are joined and secured.
#include <algorithm>

#include "compiler/knit/knitter.hpp"
#include "compiler/knit/seam_stretches.hpp"
#include "compiler/knit/verbs.hpp"

namespace stk::knit {

using findings::Code;
using grade::has_size;
using grade::size_bit;
using ClauseKind = syntax::Clause::Kind;

namespace {

constexpr std::int64_t sewing_end_micrometres = 150'000;   // 15 cm, to be woven in (common practice)

// Rows of a selvedge, or stitches of any other edge. A cast-on that opens has both whole loops and those between them: they
// are two ways to take hold of one row.
std::int64_t length_of(const runtime::Edge& edge) {
  if (edge.kind == runtime::EdgeKind::selvedge) return edge.rows;
  return edge.whole > 0 ? edge.whole : edge.between;
}

// What a graft takes: head to head the stitches, at the foot of a row the loops between two of them.
std::int64_t grafted_loops(const runtime::Edge& edge, const runtime::Edge& other) {
  const bool foot = edge.between > 0, other_foot = other.between > 0;
  return foot && !other_foot ? edge.between : length_of(edge);
}

// Short rows make the edge beside them longer, by two rows a series, or three where the carriage wraps. A section that is
// sewn along both its sides tells by these which of them it was and by how many; of others the difference tells. Nothing
// where the shorter edge has such rows as well: then no one place is to be eased.
std::vector<ExtraRows> rows_of_short_rows(const Bench& bench, const std::vector<runtime::EdgeId>& longer, const std::vector<runtime::EdgeId>& shorter, std::int64_t difference) {
  const runtime::Fabric& fabric = bench.fabric();
  const auto among = [](const std::vector<runtime::EdgeId>& edges, runtime::EdgeId id) { return std::find(edges.begin(), edges.end(), id) != edges.end(); };
  const auto series_of = [&](const runtime::Edge& edge) { return edge.kind == runtime::EdgeKind::selvedge ? fabric.section(edge.section).short_row_series : 0; };
  for (const runtime::EdgeId id : shorter)
    if (series_of(fabric.edge(id)) > 0 && !among(longer, fabric.mirrored_edge(id))) return {};
  const auto explained_by = [&](std::int64_t rows_each) {
    std::vector<ExtraRows> found;
    for (const runtime::EdgeId id : longer) {
      const runtime::Edge& edge = fabric.edge(id);
      const std::int64_t series = series_of(edge);
      if (series == 0) continue;
      const runtime::EdgeId opposite = fabric.mirrored_edge(id);
      const std::int64_t rows = among(shorter, opposite) ? edge.rows - fabric.edge(opposite).rows : std::min(edge.rows, rows_each * series);
      std::string name = bench.section_name(edge.section).empty() ? std::string() : bench.selvedge_name(id);
      if (rows != 0) found.push_back({name.substr(0, name.rfind('.')), rows});
    }
    return found;
  };
  const auto sum = [](const std::vector<ExtraRows>& rows) {
    std::int64_t all = 0;
    for (const ExtraRows& one : rows) all += one.rows;
    return all;
  };
  std::vector<ExtraRows> found = explained_by(3);
  if (sum(found) != difference) found = explained_by(2);
  const bool backwards = std::any_of(found.begin(), found.end(), [](const ExtraRows& one) { return one.rows < 0; });
  return backwards || sum(found) > difference ? std::vector<ExtraRows>{} : found;
}

}  // namespace

std::vector<runtime::EdgeId> Knitter::sum_of_edges(const std::vector<syntax::EdgeRef>& refs, std::size_t size, std::vector<SizeSet>& missing) const {
  std::vector<runtime::EdgeId> sum;
  for (std::size_t e = 0; e < refs.size(); ++e)
    if (const auto part = edge(refs[e], size, missing[e])) sum.insert(sum.end(), part->edges.begin(), part->edges.end());
  return sum;
}

// How long a yarn must be to sew along these edges, `times` their length; 0 when there is no gauge to tell.
std::int64_t Knitter::micrometres_of(const Bench& bench, const std::vector<runtime::EdgeId>& edges, double times) const {
  const grade::FabricGauge* gauge = evaluator_.gauge("");
  if (!gauge) return 0;
  std::int64_t total = 0;
  for (const runtime::EdgeId id : edges) {
    const runtime::Edge& edge = bench.fabric().edge(id);
    const bool rows = edge.kind == runtime::EdgeKind::selvedge;
    const values::Quantity count{values::Rational(length_of(edge)), rows ? values::dimensions::rows : values::dimensions::sts};
    const auto length = values::divide(count, rows ? gauge->rows : gauge->stitches);
    if (!length) continue;
    const auto scaled = values::multiply(length->value, values::Rational(static_cast<std::int64_t>(times * 1000)));
    if (scaled) total += values::nearest(*scaled).as_int64().value_or(0);
  }
  return total;
}

// The side edges of a section named whole: `close corners of back.heel`; empty when the name is of something else.
std::vector<runtime::EdgeId> Knitter::sides_of_section(const syntax::EdgeRef& ref, std::size_t size) const {
  std::vector<std::string> path = path_of(ref);
  std::vector<runtime::EdgeId> sides;
  if (path.size() < 2 || benches_[size].find(path).found()) return sides;
  for (const char* side : {"left", "right"}) {
    path.push_back(side);
    const Part part = benches_[size].find(path);
    sides.insert(sides.end(), part.edges.begin(), part.edges.end());
    path.pop_back();
  }
  return sides;
}

// So many rows are a corner: the two that short rows leave at each side, three where the carriage wraps.
std::int64_t Knitter::small_rows(const Bench& bench, runtime::SectionId section) {
  return 3 * std::max(1, bench.fabric().section(section).short_row_series);
}

// A length of its own sews here: as much as is needed, and an end of a hand's length on each side.
void Knitter::sewn_with(const Operation& operation, Bench& bench, runtime::EdgeId along, std::int64_t micrometres) {
  const auto yarn = yarn_called(operation.yarns.empty() ? std::string_view("main") : operation.yarns.front());
  if (yarn && micrometres > 0) bench.used.sewn(bench.fabric().edge(along).piece.value, *yarn, micrometres + 2 * sewing_end_micrometres);
}

void Knitter::finishing(const syntax::Step& step, Place& place, std::vector<Step>& out) {
  using K = syntax::StepKind;
  std::vector<std::vector<runtime::EdgeId>> a(sizes_), b(sizes_);
  std::vector<Part> slots(sizes_);
  std::vector<SizeSet> missing_a(step.edges.size(), 0), missing_b(step.edges_to.size(), 0);
  const bool whole_parts = step.kind == K::close_corners || step.kind == K::thread_through;
  for (std::size_t i = 0; i < sizes_; ++i) {
    if (!has_size(place.active, i)) continue;
    if (whole_parts) {
      for (std::size_t e = 0; e < step.edges.size(); ++e)
        if (const auto sides = step.kind == K::close_corners ? sides_of_section(step.edges[e], i) : std::vector<runtime::EdgeId>{}; !sides.empty()) {
          a[i].insert(a[i].end(), sides.begin(), sides.end());
        } else if (const auto part = edge(step.edges[e], i, missing_a[e])) {
          slots[i].slot = part->slot;
          slots[i].sections.insert(slots[i].sections.end(), part->sections.begin(), part->sections.end());
        }
    } else {
      a[i] = sum_of_edges(step.edges, i, missing_a);
      b[i] = sum_of_edges(step.edges_to, i, missing_b);
    }
  }
  for (std::size_t e = 0; e < step.edges.size(); ++e) report_missing_edge(step.edges[e], missing_a[e]);
  for (std::size_t e = 0; e < step.edges_to.size(); ++e) report_missing_edge(step.edges_to[e], missing_b[e]);
  place.active = living(place.active);
  if (!place.active) return;

  Operation operation;
  told_edges(step, place.active, operation);
  const syntax::Clause* with = clause(step, ClauseKind::with);
  const bool with_tail = with && with->name && with->name->text == "tail";
  if (with && with->name && !with_tail) {
    const auto used = yarn(*with->name);
    if (!used) return;
    operation.yarns = {setup_.yarns[*used].name};
  }
  operation.with_own_tail = with_tail;

  const std::vector<AskedPart> parts = asked_parts(step, place);
  const auto words_of = [&](const std::vector<syntax::EdgeRef>& refs) {
    std::string words;
    for (const syntax::EdgeRef& ref : refs) words += (words.empty() ? "" : " + ") + edge_name(ref);
    return words;
  };
  const auto have_met = [&](std::size_t i, Bench& bench) {
    const bool one_to_one = a[i].size() == step.edges.size() && b[i].size() == step.edges_to.size() && a[i].size() == b[i].size();
    if (!mirrored_) bench.met.push_back({sites_[tag(step.verb)].mend, words_of(step.edges), words_of(step.edges_to), a[i], b[i], one_to_one, false});
  };
  const auto in_part = [&](std::size_t i, SizeRecord& record) {
    std::vector<runtime::EdgeId> edges = a[i];
    edges.insert(edges.end(), b[i].begin(), b[i].end());
    if (!take_parts(step, i, parts, edges, record)) return false;
    const auto middle = edges.begin() + static_cast<std::ptrdiff_t>(a[i].size());
    b[i].assign(middle, edges.end());
    a[i].assign(edges.begin(), middle);
    return true;
  };
  switch (step.kind) {
    case K::graft: {
      clauses_fit(step, {}, {ClauseKind::from, ClauseKind::with});
      operation.act = Act::graft;
      runtime::GraftFrom from = runtime::GraftFrom::right;
      const syntax::Clause* said = clause(step, ClauseKind::from);
      if (said) {
        if (said->word == "the_open_side") from = runtime::GraftFrom::open_side, operation.from = "the open side";
        else if (said->word == "the_fold") from = runtime::GraftFrom::fold, operation.from = "the fold";
        else if (said->side == syntax::Side::left) from = runtime::GraftFrom::left, operation.from = "left";
        else operation.from = "right";
      } else {
        operation.from = "right";
      }
      operate(step, operation, place, out, [&](std::size_t i, Bench& bench, SizeRecord& record) {
        if (a[i].empty() || b[i].empty() || !in_part(i, record)) return;
        runtime::Graft graft;
        graft.a = a[i].front();
        graft.b = b[i].front();
        graft.from = from;
        // A mirrored piece begins at the other end.
        if (mirrored_edge_piece(i, graft.a)) graft.from = from == runtime::GraftFrom::left ? runtime::GraftFrom::right : from == runtime::GraftFrom::right ? runtime::GraftFrom::left : from;
        graft.with_tail = !(with && !with_tail);
        // Three times the width (common practice for grafting); checked where a tail is used.
        const std::int64_t needed = micrometres_of(bench, {graft.a}, 3.0);
        graft.tail_needed_micrometres = graft.with_tail ? needed : 0;
        if (!graft.with_tail) sewn_with(operation, bench, graft.a, needed);
        const runtime::Edge &a_edge = bench.fabric().edge(graft.a), &b_edge = bench.fabric().edge(graft.b);
        record.amount = grafted_loops(a_edge, b_edge);
        record.second_amount = grafted_loops(b_edge, a_edge);
        have_met(i, bench);
        report_faults(bench.finish({tag(step.verb), graft}), i);
      });
      return;
    }
    case K::seam: {
      clauses_fit(step, {"mattress", "flat"}, {ClauseKind::with, ClauseKind::from});
      operation.act = Act::seam;
      operation.method = clause(step, ClauseKind::method, "flat") ? Method::flat : Method::mattress;
      operate(step, operation, place, out, [&](std::size_t i, Bench& bench, SizeRecord& record) {
        if (!in_part(i, record)) return;
        runtime::Seam seam;
        seam.a = a[i];
        seam.b = b[i];
        const bool one_to_one = a[i].size() == step.edges.size() && b[i].size() == step.edges_to.size();
        seam.stretches = seam_stretches(bench, seam.a, seam.b, one_to_one);
        seam.with_tail = with_tail;
        const std::int64_t needed = micrometres_of(bench, seam.a, 1.5);   // half as long again (common practice)
        seam.tail_needed_micrometres = with_tail ? needed : 0;
        if (!with_tail && !seam.a.empty()) sewn_with(operation, bench, seam.a.front(), needed);
        for (const runtime::EdgeId id : seam.a) record.amount += length_of(bench.fabric().edge(id));
        for (const runtime::EdgeId id : seam.b) record.second_amount += length_of(bench.fabric().edge(id));
        record.rows = !seam.a.empty() && bench.fabric().edge(seam.a.front()).kind == runtime::EdgeKind::selvedge;
        record.idle = record.amount == 0 && record.second_amount == 0;
        const std::int64_t more = record.amount - record.second_amount;
        if (record.rows && more != 0) record.extra_rows = more > 0 ? rows_of_short_rows(bench, seam.a, seam.b, more) : rows_of_short_rows(bench, seam.b, seam.a, -more);
        have_met(i, bench);
        report_faults(bench.finish({tag(step.verb), seam}), i, &seam);
      });
      return;
    }
    case K::thread_through: {
      clauses_fit(step, {}, {});
      operation.act = Act::thread_through;
      if (!step.names.empty()) operation.yarns = {step.names.front().text};
      operate(step, operation, place, out, [&](std::size_t i, Bench& bench, SizeRecord& record) {
        for (const runtime::SectionId id : slots[i].sections) record.amount += bench.fabric().section(id).eyelets;
        report_faults(bench.finish({tag(step.verb), runtime::ThreadThrough{slots[i].sections}}), i);
      });
      return;
    }
    case K::close_corners: {
      clauses_fit(step, {}, {ClauseKind::with});
      operation.act = Act::close_corners;
      operate(step, operation, place, out, [&](std::size_t i, Bench& bench, SizeRecord&) {
        if (!a[i].empty()) {
          for (const runtime::EdgeId id : a[i]) {
            const runtime::Edge& side = bench.fabric().edge(id);
            if (side.rows - side.joined <= small_rows(bench, side.section)) continue;
            findings_.report<Code::E27>(step.edges.front().span)
                .label("its {} edge has {} rows", side.side == runtime::Side::left ? "left" : "right", side.rows - side.joined)
                .help("`seam` closes an edge of so many rows; a corner has {} at most", small_rows(bench, side.section)).at(edition_, size_bit(i));
            return;
          }
          report_faults(bench.finish({tag(step.verb), runtime::CloseCorners{{}, a[i]}}), i);
          return;
        }
        if (!slots[i].slot.given()) {
          findings_.report<Code::E05>(step.edges.front().span).label("this is no slot").at(edition_, size_bit(i));
          return;
        }
        report_faults(bench.finish({tag(step.verb), runtime::CloseCorners{slots[i].slot, bench.selvedges_hung_from(slots[i].slot)}}), i);
      });
      return;
    }
    default: {
      clauses_fit(step, {}, {});
      operation.act = Act::weave_in_ends;
      operate(step, operation, place, out, [&](std::size_t i, Bench& bench, SizeRecord&) {
        report_faults(bench.finish({tag(step.verb), runtime::WeaveInEnds{}}), i);
      });
      return;
    }
  }
}

bool Knitter::mirrored_edge_piece(std::size_t size, runtime::EdgeId edge) const { return benches_[size].piece_is_mirrored(benches_[size].fabric().edge(edge).piece); }

}  // namespace stk::knit
