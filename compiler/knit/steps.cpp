// One machine step: which function lowers it, and how what it did is recorded.
#include <algorithm>

#include "compiler/knit/knitter.hpp"
#include "compiler/knit/verbs.hpp"

namespace stk::knit {

using findings::Code;
using grade::has_size;

void Knitter::step(const syntax::Step& step, text::Span where, Place& place, std::vector<Step>& out) {
  using K = syntax::StepKind;
  frame_ = place.frame;
  if (is_finishing(step.kind) != finishing_) {
    findings_.report<Code::E26>(sites_[tag(step.verb)].mend, verb_of(step.kind))
        .label("{}", finishing_ ? "the pieces are off the machine in the finishing" : "a piece is still on the machine here")
        .help("{}", finishing_ ? "machine steps stand in a piece" : "graft, seam and weave in stand in the `finish` block");
    return;
  }
  (void)where;
  if (finishing_) {
    finishing(step, place, out);
    return;
  }
  switch (step.kind) {
    case K::cast_on: cast_on(step, place, out); return;
    case K::knit:
      if (step.needles) knit_by_hand(step, place, out);
      else knit(step, place, out);
      return;
    case K::knit_to_row: knit_to_row(step, place, out); return;
    case K::knit_chart: knit_chart(step, place, out); return;
    case K::thread: thread(step, place, out); return;
    case K::cut: cut(step, place, out); return;
    case K::rest_yarn: rest_yarn(step, place, out); return;
    case K::tension: tension(step, place, out); return;
    case K::counter: counter(step, place, out); return;
    case K::hang_comb:
    case K::hang_weights:
    case K::remove_comb: comb(step, place, out); return;
    case K::hold:
    case K::release:
    case K::wrap: hold_release_wrap(step, place, out); return;
    case K::bring_into_work:
    case K::put_out_of_work: bring_or_put(step, place, out); return;
    case K::set_needles: set_needles(step, place, out); return;
    case K::move: move(step, place, out); return;
    case K::move_to_bed: transfer(step, place, out); return;
    case K::lift:
    case K::latch_up: lift_or_latch(step, place, out); return;
    case K::increase:
    case K::decrease: shape(step, place, out); return;
    case K::fill: fill(step, place, out); return;
    case K::cross: cross(step, place, out); return;
    case K::tuck:
    case K::slip: tuck_or_slip(step, place, out); return;
    case K::mark_row: mark_row(step, place, out); return;
    case K::hang_edge: hang_edge(step, place, out); return;
    case K::pick_up: pick_up(step, place, out); return;
    case K::open: open(step, place, out); return;
    case K::scrap_off: scrap_off(step, place, out); return;
    case K::take_off: take_off(step, place, out); return;
    case K::bind_off: bind_off(step, place, out); return;
    case K::gather: gather(step, place, out); return;
    case K::pitch: pitch(step, place, out); return;
    case K::carriage_knits: carriage_knits(step, place, out); return;
    case K::graft:
    case K::seam:
    case K::thread_through:
    case K::close_corners:
    case K::weave_in_ends: return;   // above
  }
}

namespace {
// Whatever loops the step makes are written down with the tension they are made at.
template <class Do>
void with_its_yarn(Bench& bench, Act act, const Do& step) {
  const std::int32_t tension = bench.loop_tension_hundredths();
  const std::vector<std::int64_t> before = YarnUse::look(bench.fabric(), bench.yarns);
  step();
  if (bench.knitting()) bench.used.knitted(bench.piece_at_hand(), tension, act, before, YarnUse::look(bench.fabric(), bench.yarns));
}
}  // namespace

Step& Knitter::operate(const syntax::Step& written, Operation operation, Place& place, std::vector<Step>& out, const PerSize& act) {
  if (!recording_) {
    SizeRecord unrecorded;
    for (std::size_t i = 0; i < sizes_; ++i)
      if (has_size(place.active, i)) with_its_yarn(benches_[i], operation.act, [&] { act(i, benches_[i], unrecorded); });
    scratch_.assign(1, Step{});
    return scratch_.front();
  }
  ++recorded_;
  Step step;
  step.kind = Step::Kind::operation;
  step.where = written.verb;
  step.sizes = place.active;
  step.operation = std::move(operation);
  step.records.resize(sizes_);
  for (std::size_t i = 0; i < sizes_; ++i) {
    if (!has_size(place.active, i)) continue;
    Bench& bench = benches_[i];
    SizeRecord& record = step.records[i];
    record.before = bench.state();
    with_its_yarn(bench, step.operation.act, [&] { act(i, bench, record); });
    record.after = bench.state();
    if (bench.knitting())
      for (const runtime::Bed bed : {runtime::Bed::main, runtime::Bed::second})
        bench.most_needles = std::max(bench.most_needles, (bench.in_work(bed) | bench.held(bed)).count());
  }
  out.push_back(std::move(step));
  return out.back();
}

runtime::Outcome Knitter::apply(const syntax::Step& written, std::size_t size, decltype(runtime::Operation::what) what) {
  const runtime::Outcome outcome = benches_[size].apply({tag(written.verb), std::move(what)});
  report_faults(outcome, size);
  return outcome;
}

std::vector<DrawnNeedle> Knitter::picture(const Bench& bench, runtime::Bed bed) const {
  const runtime::Machine& m = bench.machine();
  std::vector<DrawnNeedle> needles(static_cast<std::size_t>(bench.spec().needles));
  for (int n : m.in_work(bed)) needles[static_cast<std::size_t>(n)].position = DrawnNeedle::Position::work;
  for (int n : m.held(bed)) needles[static_cast<std::size_t>(n)].position = DrawnNeedle::Position::hold;
  for (int n : m.carrying(bed))
    needles[static_cast<std::size_t>(n)].loops = static_cast<std::uint8_t>(std::min(m.loops_on(bed, n), 255));
  for (int n : m.eyelets(bed)) needles[static_cast<std::size_t>(n)].eyelet = true;
  return needles;
}

// Cut down to the stretch in which anything stands, before or after.
void Knitter::draw(const Bench& bench, const std::vector<DrawnNeedle>& before, const std::vector<DrawnMove>& moves, SizeRecord& record) const {
  draw(bench, before, picture(bench), moves, record);
}

void Knitter::draw(const Bench& bench, const std::vector<DrawnNeedle>& before, const std::vector<DrawnNeedle>& after,
                   const std::vector<DrawnMove>& moves, SizeRecord& record) const {
  const DrawnNeedle nothing;
  std::size_t first = after.size(), last = 0;
  for (std::size_t n = 0; n < after.size(); ++n)
    if (!(before[n] == nothing) || !(after[n] == nothing)) {
      first = std::min(first, n);
      last = n;
    }
  if (first > last) return;
  DrawnBed drawn;
  drawn.first = bench.needle(static_cast<int>(first));
  drawn.before.assign(before.begin() + static_cast<std::ptrdiff_t>(first), before.begin() + static_cast<std::ptrdiff_t>(last) + 1);
  drawn.after.assign(after.begin() + static_cast<std::ptrdiff_t>(first), after.begin() + static_cast<std::ptrdiff_t>(last) + 1);
  for (const DrawnMove& m : moves) {
    // A move that left the bed was a fault; it is not drawn.
    if (m.to < static_cast<std::int32_t>(first) || m.to > static_cast<std::int32_t>(last)) continue;
    drawn.moves.push_back({m.from - static_cast<std::int32_t>(first), m.to - static_cast<std::int32_t>(first)});
  }
  record.drawn = std::move(drawn);
}

// The main bed before and after, and the second bed after, cut down to the stretch in which anything stands on either.
void Knitter::draw_beds(const Bench& bench, const std::vector<DrawnNeedle>& before, SizeRecord& record) const {
  const std::vector<DrawnNeedle> main = picture(bench), second = picture(bench, runtime::Bed::second);
  std::vector<DrawnNeedle> either = main;   // settles the stretch
  for (std::size_t n = 0; n < either.size(); ++n)
    if (either[n] == DrawnNeedle{}) either[n] = second[n];
  draw(bench, before, either, {}, record);
  if (!record.drawn) return;
  const int first = record.drawn->first.number;
  std::size_t from = 0;
  while (bench.needle(static_cast<int>(from)).number != first) ++from;
  const auto cut = [&](const std::vector<DrawnNeedle>& bed) {
    return std::vector<DrawnNeedle>(bed.begin() + static_cast<std::ptrdiff_t>(from),
                                    bed.begin() + static_cast<std::ptrdiff_t>(from + record.drawn->after.size()));
  };
  record.drawn->after = cut(main);
  record.drawn->second = cut(second);
}

}  // namespace stk::knit
