#include "compiler/knit/knitter.hpp"

#include <algorithm>

#include "compiler/text/limits.hpp"

namespace stk::knit {

using findings::Code;

Knitter::Knitter(const names::Program& program, const EditionSetup& setup, grade::Evaluator& evaluator, Sites& sites,
                 findings::Findings& findings, bool mirrored)
    : program_(program), setup_(setup), evaluator_(evaluator), sites_(sites), findings_(findings), mirrored_(mirrored),
      edition_(setup.index), sizes_(evaluator.sizes()), selections_(bench_pointers_, findings, setup.index) {
  benches_.reserve(sizes_);
  for (std::size_t i = 0; i < sizes_; ++i) {
    benches_.emplace_back(setup.specs[i]);
    Bench& bench = benches_.back();
    for (const SetupYarn& yarn : setup.yarns)
      bench.yarns.push_back(bench.fabric().add_yarn(yarn.waste ? runtime::YarnKind::waste : runtime::YarnKind::lasting));
    bench.cord = bench.fabric().add_yarn(runtime::YarnKind::cord);
  }
  for (const findings::Finding& finding : findings.all())
    broken_source_ = broken_source_ || findings::entry(finding.code).name.front() == 'S';
  steps_allowed_ = broken_source_ ? 100'000 : static_cast<std::int64_t>(text::limits::steps_of_a_size);
  for (Bench& bench : benches_) bench_pointers_.push_back(&bench);
  counter_at_section_.resize(sizes_);
  selections_.use_evaluator(&evaluator);
  evaluator.use_host(&selections_);
}

Knitter::~Knitter() { evaluator_.use_host(nullptr); }

std::vector<Knitter::KnittedPiece> Knitter::pieces() {
  std::vector<KnittedPiece> result;
  std::vector<text::Span> calls;
  calls_ = &calls;
  for (const names::Placed<syntax::Piece>& placed : program_.pieces) {
    const syntax::Piece& piece = *placed.node;
    // Each piece begins with every size: what went wrong in one does not hide what is wrong in the next.
    for (Bench& bench : benches_) {
      bench.lost_before = bench.lost_before || bench.lost;
      bench.lost = false;
    }
    const SizeSet active = grade::all_sizes(sizes_);
    grade::Frame frame{nullptr, placed.span.file, {}};
    KnittedPiece knitted{&piece, 1, {}};
    if (piece.make) {
      const Counts make = evaluator_.whole(*piece.make, {}, frame, active);
      if (!make.empty() && make[0]) knitted.make = *make[0];
    }
    for (std::size_t i = 0; i < sizes_; ++i) {
      Bench& bench = benches_[i];
      bench.begin_piece(piece.name.text, mirrored_ && piece.second_mirrored);
      bench.doubtful_counts = bench.doubtful_side = bench.hung_in_part = false;
      bench.second.reset();
    }
    section_name_.clear();
    counter_reset_ = true;
    Place place{&frame, active, &calls, true};
    statements(piece.body.statements, 0, place, knitted.steps);
    end_piece(piece, active);
    result.push_back(std::move(knitted));
  }
  for (Bench& bench : benches_) bench.end_knitting();
  return result;
}

std::vector<Step> Knitter::finish() {
  std::vector<Step> out;
  std::vector<text::Span> calls;
  calls_ = &calls;
  finishing_ = true;
  for (Bench& bench : benches_) bench.lost = bench.lost || bench.lost_before;
  const SizeSet active = living(grade::all_sizes(sizes_));
  text::Span last = program_.pieces.empty() ? text::Span{} : program_.pieces.back().node->name.span;
  for (const names::Placed<syntax::Finish>& placed : program_.finishes) {
    grade::Frame frame{nullptr, placed.span.file, {}};
    Place place{&frame, active, &calls, true};
    statements(placed.node->body.statements, 0, place, out);
    last = placed.span;
  }
  for (std::size_t i = 0; i < sizes_; ++i)
    if (grade::has_size(living(active), i)) report_faults(benches_[i].finish({tag(last), runtime::Finish{}}), i);
  finishing_ = false;
  return out;
}

std::vector<std::int64_t> Knitter::loops_of_yarn(std::size_t yarn) const {
  std::vector<std::int64_t> result;
  for (const Bench& bench : benches_) result.push_back(bench.fabric().yarn(bench.yarns[yarn]).loops);
  return result;
}

Knitter::SizeSet Knitter::living(SizeSet active) const {
  for (std::size_t i = 0; i < sizes_; ++i)
    if (benches_[i].lost) active &= ~grade::size_bit(i);
  return active;
}

void Knitter::lose(SizeSet sizes) {
  for (std::size_t i = 0; i < sizes_; ++i)
    if (grade::has_size(sizes, i)) benches_[i].lost = true;
}

// Faults that say no more than that a count or a side is wrong which has been reported as wrong already.
namespace {
bool follows_from_counts(runtime::FaultKind kind) {
  using K = runtime::FaultKind;
  return kind == K::hang_counts_differ || kind == K::graft_counts_differ || kind == K::seam_counts_differ ||
         kind == K::too_few_to_shape || kind == K::pick_up_too_many || kind == K::pick_up_leaves_rows;
}
// A row without yarn makes nothing that could be cut, hung or sewn.
bool follows_from_no_yarn(runtime::FaultKind kind) {
  using K = runtime::FaultKind;
  return kind == K::edge_not_open || kind == K::waste_left || kind == K::edge_never_secured || kind == K::yarn_not_threaded ||
         kind == K::yarn_not_cut || kind == K::tail_elsewhere || kind == K::tail_too_short || kind == K::yarn_not_at_end;
}
bool follows_from_side(runtime::FaultKind kind) {
  using K = runtime::FaultKind;
  return kind == K::carriage_elsewhere || kind == K::tail_elsewhere || kind == K::yarn_not_at_end || kind == K::float_too_long ||
         kind == K::open_turn || kind == K::wrap_away_from_yarn;
}
// Yarn, comb and tails say nothing about counts.
bool touches_counts(runtime::FaultKind kind) {
  using K = runtime::FaultKind;
  switch (kind) {
    case K::tail_elsewhere:
    case K::tail_too_short:
    case K::yarn_not_cut:
    case K::yarn_not_at_end:
    case K::yarn_not_threaded:
    case K::feeder_busy:
    case K::tension_beyond_dial:
    case K::comb_too_early:
    case K::comb_too_late:
    case K::comb_without_fabric:
    case K::comb_hangs_in_edge:
    case K::no_comb:
    case K::ends_not_woven:
    case K::too_little_waste: return false;
    default: return true;
  }
}
}  // namespace

void Knitter::report_faults(const runtime::Outcome& outcome, std::size_t size, const runtime::Seam* seam) {
  Bench& bench = benches_[size];
  const FaultContext context{findings_, sites_, edition_, seam};
  for (const runtime::Fault& fault : outcome.faults) {
    if (fault.kind == runtime::FaultKind::hang_counts_differ) bench.hung_in_part = true;
    if (fault.kind == runtime::FaultKind::empty_needles_knitted && bench.hung_in_part) continue;
    if (bench.no_yarn && follows_from_no_yarn(fault.kind)) continue;
    if (fault.kind == runtime::FaultKind::no_yarn_threaded) bench.no_yarn = true;
    const bool counts = follows_from_counts(fault.kind), side = follows_from_side(fault.kind);
    if ((counts && bench.doubtful_counts) || (side && bench.doubtful_side)) continue;
    report_fault(context, fault, bench, size);
    // A seam whose sections differ and whose whole agrees says nothing about any other count.
    const bool whole_agrees = fault.kind == runtime::FaultKind::seam_counts_differ && fault.d != 0;
    if (runtime::is_note(fault.kind) || whole_agrees) continue;
    if (side) bench.doubtful_side = true;
    else if (touches_counts(fault.kind)) bench.doubtful_counts = true;
  }
}

// A yarn that rests hangs on to the fabric for ever: it has no end to weave in.
void Knitter::report_resting(const syntax::Piece& piece, SizeSet active) {
  if (findings_.has_errors()) return;   // what was left out is looked for once nothing else is wrong
  for (std::size_t y = 0; y < setup_.yarns.size(); ++y) {
    SizeSet resting = 0;
    for (std::size_t i = 0; i < sizes_; ++i) {
      if (!grade::has_size(living(active), i) || !benches_[i].knitting()) continue;
      const runtime::Machine& machine = benches_[i].machine();
      const runtime::YarnId id = benches_[i].yarns[y];
      if (machine.place(id) && !(machine.threaded() == id) && !(machine.second_threaded() == id)) resting |= grade::size_bit(i);
    }
    if (resting)
      findings_.report<Code::E31>(piece.name.span, setup_.yarns[y].name).label("it is still at rest when this piece ends")
          .help("`cut {}` after its last row; `, tail 15 cm` leaves an end to weave in", setup_.yarns[y].name).at(edition_, resting);
  }
}

void Knitter::end_piece(const syntax::Piece& piece, SizeSet active) {
  report_resting(piece, active);
  report_idle_second(active, true);
  for (std::size_t i = 0; i < sizes_; ++i) {
    if (!grade::has_size(living(active), i)) continue;
    Bench& bench = benches_[i];
    for (const runtime::Bed bed : {runtime::Bed::main, runtime::Bed::second}) {
      const runtime::Machine& machine = bench.machine();
      bench.held_at_end[static_cast<std::size_t>(bed)] = machine.rests(bed) ? machine.carrying(bed) : machine.held(bed);
    }
    report_faults(bench.apply({tag(piece.name.span), runtime::EndPiece{}}), i);
  }
}

}  // namespace stk::knit
