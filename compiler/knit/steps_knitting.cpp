// Beginning, yarn, tension, counting, comb, and rows.
#include <algorithm>
#include <map>

#include "compiler/knit/knitter.hpp"
#include "compiler/knit/verbs.hpp"
#include "compiler/values/format.hpp"

namespace stk::knit {

using findings::Code;
using grade::has_size;
using grade::size_bit;
using ClauseKind = syntax::Clause::Kind;

namespace {

knit::Side told(runtime::Side side) { return side == runtime::Side::left ? Side::left : Side::right; }

std::int64_t micrometres(const values::Quantity& length) {
  const auto scaled = values::multiply(length.value, values::Rational(1000));
  if (!scaled) return 0;
  return values::nearest(*scaled).as_int64().value_or(0);
}

}  // namespace

// A piece that begins without `thread` begins with the main yarn: the one thing nobody writes.
void Knitter::thread_at_first(const syntax::Step& step, Place& place, std::vector<Step>& out) {
  const auto main = yarn_called("main");
  if (!main) return;
  Place empty = place;
  empty.active = 0;
  for (std::size_t i = 0; i < sizes_; ++i)
    if (has_size(place.active, i) && !benches_[i].machine().threaded().given() && benches_[i].machine().passes() == 0 &&
        benches_[i].machine().stitches() == 0)
      empty.active |= size_bit(i);
  if (!empty.active) return;
  Operation operation;
  operation.act = Act::thread;
  operation.yarns = {"main"};
  operate(step, operation, empty, out, [&](std::size_t i, Bench& bench, SizeRecord&) {
    apply(step, i, runtime::ThreadYarn{bench.yarns[*main], {}});
  });
}

void Knitter::cast_on(const syntax::Step& step, Place& place, std::vector<Step>& out) {
  clauses_fit(step, {"e_wrap", "closed_by_latch", "closed_by_crochet", "open_on_waste", "every_other_with_weave", "zigzag"},
              {ClauseKind::carriage, ClauseKind::placed, ClauseKind::rows});
  runtime::CastOnMethod method = runtime::CastOnMethod::e_wrap;
  Operation operation;
  operation.act = Act::cast_on;
  operation.method = Method::e_wrap;
  for (const syntax::Clause& c : step.clauses) {
    if (c.kind != ClauseKind::method) continue;
    if (c.word == "closed_by_latch") method = runtime::CastOnMethod::closed_by_latch, operation.method = Method::closed_by_latch;
    if (c.word == "closed_by_crochet") method = runtime::CastOnMethod::closed_by_crochet, operation.method = Method::closed_by_crochet;
    if (c.word == "open_on_waste") method = runtime::CastOnMethod::open_on_waste, operation.method = Method::open_on_waste;
    if (c.word == "every_other_with_weave") method = runtime::CastOnMethod::every_other_with_weave, operation.method = Method::every_other_with_weave;
    if (c.word == "zigzag") method = runtime::CastOnMethod::zigzag, operation.method = Method::zigzag;
  }
  const bool open = method == runtime::CastOnMethod::open_on_waste;
  std::optional<std::size_t> waste;
  if (open) {
    waste = yarn_called("waste");
    if (!waste) {
      findings_.report<Code::Y09>(step.verb).label("the edition {} declares none", setup_.name).help("`yarn waste \"smooth cotton\"` in the edition").at(edition_, place.active);
      lose(place.active);
      return;
    }
  } else {
    thread_at_first(step, place, out);
  }
  const auto chosen = needles(*step.needles, place, Among::working, &step);
  if (!chosen) return;
  SizeSet none = 0;
  for (std::size_t i = 0; i < sizes_; ++i)
    if (has_size(place.active, i) && selections_[chosen->id].needles[i][0].empty() && selections_[chosen->id].needles[i][1].empty()) none |= size_bit(i);
  if (none) {
    auto builder = findings_.report<Code::C36>(step.needles->span);
    builder.label("this comes to 0").at(edition_, none);
    for (const std::string& part : evaluator_.parts(*step.needles, *place.frame, static_cast<std::size_t>(std::countr_zero(none)))) builder.note("{}", part);
    lose(none);
    place.active = living(place.active);
  }
  // More than the bed has: said at once with the count, before the machine leaves needles out.
  SizeSet wide = 0;
  if (chosen->counted)
    for (std::size_t i = 0; i < sizes_; ++i)
      if (has_size(place.active, i) && selections_[chosen->id].shape.count[i] > benches_[i].spec().needles) wide |= size_bit(i);
  if (wide) {
    const auto first = static_cast<std::size_t>(std::countr_zero(wide));
    findings_.report<Code::C06>(step.needles->span).label("{} stitches on a bed of {} needles", selections_[chosen->id].shape.count[first], benches_[first].spec().needles)
        .help("a coarser gauge, a machine with more needles, or two pieces").at(edition_, wide);
    lose(wide);
    place.active = living(place.active);
  }
  if (!place.active) return;
  operation.selections = {selections_[chosen->id].shape};
  const auto side = side_of(clause(step, ClauseKind::carriage));
  Counts waste_rows(sizes_);
  if (const syntax::Clause* rows = clause(step, ClauseKind::rows); rows && open)
    waste_rows = evaluator_.whole(*rows->amount, values::dimensions::rows, *place.frame, place.active);
  int before_comb = 0, waste_in_all = 0, cord_rows = 0;   // the same in every size: only the side asked decides
  Step& made = operate(step, operation, place, out, [&](std::size_t i, Bench& bench, SizeRecord& record) {
    runtime::CastOn cast;
    cast.method = method;
    const auto& pair = selections_[chosen->id].needles[i];
    cast.bed = pair[0].empty() ? runtime::Bed::second : runtime::Bed::main;
    cast.needles = pair[0].empty() ? pair[1] : pair[0];
    if (method == runtime::CastOnMethod::zigzag) cast.second_needles = bench.in_work(runtime::Bed::second);
    cast.carriage = side.value_or(bench.carriage().value_or(runtime::Side::right));
    if (open) {
      cast.waste = bench.yarns[*waste];
      cast.cord = bench.cord;
      if (waste_rows[i]) cast.waste_rows = static_cast<int>(std::min<std::int64_t>(*waste_rows[i], 1000));
    }
    const runtime::Outcome outcome = apply(step, i, cast);
    before_comb = outcome.waste_rows_before_comb;
    waste_in_all = outcome.waste_rows_before_comb + outcome.waste_rows_after_comb;
    cord_rows = outcome.cord_rows;
    for (const runtime::EdgeId edge : outcome.edges) bench.name_edge("cast_on", edge);
    record.amount = cast.needles.count() + cast.second_needles.count();
    record.needles = bench.span(cast.needles, cast.bed);
    record.yarn_side = told(outcome.wrapped_from);
  });
  made.operation.waste_rows = waste_in_all;
  made.operation.waste_rows_before_comb = before_comb;
  made.operation.cord_rows = cord_rows;
  made.operation.side = side ? std::optional(told(*side)) : std::nullopt;
  counter_reset_ = true;   // a cast-on begins the count anew
}

void Knitter::knit(const syntax::Step& step, Place& place, std::vector<Step>& out) {
  clauses_fit(step, {}, {ClauseKind::joining});
  bool rounds = false;
  const Counts counts = passes(*step.amount, place, rounds);
  SizeSet good = 0;
  for (std::size_t i = 0; i < sizes_; ++i)
    if (has_size(place.active, i) && counts[i]) good |= size_bit(i);
  lose(place.active & ~good);
  place.active = good;
  if (!good) return;
  check_gauge_of(*step.amount, place, counts);
  Operation operation;
  operation.act = Act::knit;
  operation.method = rounds ? Method::full : Method::none;   // full: all the way round
  const syntax::Clause* joining = clause(step, ClauseKind::joining);
  if (rounds && joining)
    findings_.report<Code::C39>(joining->span, verb_text(step)).label("a tube knitted in rounds has no side edges to join").at(edition_, place.active);
  const std::vector<Joined> joined = rounds ? std::vector<Joined>(sizes_) : joined_edges(step, place, operation);
  if (!place.active) return;
  operate(step, operation, place, out, [&](std::size_t i, Bench&, SizeRecord& record) {
    record.amount = *counts[i];
    record.idle = *counts[i] == 0;
    if (!record.idle) record.waste_drawn = knit_passes(step, i, rounds ? *counts[i] * 2 : *counts[i], rounds, joined[i]);
  });
}

// The edges that are joined while these rows are knitted.
std::vector<Knitter::Joined> Knitter::joined_edges(const syntax::Step& step, Place& place, Operation& operation) {
  std::vector<Joined> joined(sizes_);
  for (const syntax::Clause& c : step.clauses) {
    if (c.kind != ClauseKind::joining || !c.side) continue;
    const bool left = *c.side == syntax::Side::left;
    std::vector<SizeSet> missing(c.edges.size(), 0);
    for (std::size_t i = 0; i < sizes_; ++i)
      if (has_size(place.active, i)) (left ? joined[i].left : joined[i].right) = sum_of_edges(c.edges, i, missing);
    for (std::size_t e = 0; e < c.edges.size(); ++e) report_missing_edge(c.edges[e], missing[e]);
    place.active = living(place.active);
    Joining told_joining{left ? Side::left : Side::right, {}};
    for (const syntax::EdgeRef& ref : c.edges) told_joining.edges.push_back(edge_name(ref));
    operation.joining.push_back(std::move(told_joining));
  }
  return joined;
}

// Whether the waste of what was joined came away.
bool Knitter::knit_passes(const syntax::Step& step, std::size_t size, std::int64_t count, bool rounds, const Joined& joined) {
  if (count > 10'000'000) {
    findings_.report<Code::F21>(step.amount ? step.amount->span : step.verb).label("{} rows", count).at(edition_, size_bit(size));
    lose(size_bit(size));
    return false;
  }
  if (joined.any()) {
    const runtime::Outcome outcome = apply(step, size, runtime::KnitJoined{count, joined.left, joined.right});
    have_met(step, size, joined);
    return outcome.waste_drawn;
  }
  apply(step, size, runtime::Knit{count, rounds ? runtime::KnitMode::rounds : runtime::KnitMode::rows});
  return false;
}

// What was joined to the sides of this section; a step that is worked again joins the same sides.
void Knitter::have_met(const syntax::Step& step, std::size_t size, const Joined& joined) {
  Bench& bench = benches_[size];
  const runtime::SectionId here = bench.machine().section();
  if (mirrored_ || !bench.fabric().has(here)) return;
  const text::Span mend = sites_[tag(step.verb)].mend;
  for (const syntax::Clause& c : step.clauses) {
    if (c.kind != ClauseKind::joining || !c.side) continue;
    const bool left = *c.side == syntax::Side::left;
    const runtime::Section& section = bench.fabric().section(here);
    Met met{mend == step.verb ? c.span : mend, left ? "left" : "right", {}, {left ? section.left : section.right}, left ? joined.left : joined.right, false, true};
    for (const syntax::EdgeRef& ref : c.edges) met.words_to += (met.words_to.empty() ? "" : " + ") + edge_name(ref);
    const auto same = [&](const Met& m) { return m.where == met.where && m.edges == met.edges && m.edges_to == met.edges_to; };
    if (std::none_of(bench.met.begin(), bench.met.end(), same)) bench.met.push_back(std::move(met));
  }
}

void Knitter::knit_to_row(const syntax::Step& step, Place& place, std::vector<Step>& out) {
  clauses_fit(step, {}, {ClauseKind::joining});
  const Counts targets = evaluator_.whole(*step.amount, values::dimensions::rows, *place.frame, place.active);
  SizeSet good = 0, past = 0, short_of = 0;
  for (std::size_t i = 0; i < sizes_; ++i) {
    if (!has_size(place.active, i) || !targets[i]) continue;
    const std::int64_t counter = benches_[i].machine().counter();
    if (*targets[i] < counter) past |= size_bit(i);
    else good |= size_bit(i);
    // `knit to row leg` in section leg, with rows of an earlier section still on the counter.
    if (!counter_reset_ && counter_at_section_[i] > 0 && *targets[i] > 0) short_of |= size_bit(i);
  }
  lose(place.active & ~good & ~past);
  const auto* ref = std::get_if<syntax::NameRef>(&step.amount->node);
  const bool own_measure = ref && ref->parts.size() == 1 && ref->parts[0].text == section_name_ && !section_name_.empty();
  if (past) {
    const auto first = static_cast<std::size_t>(std::countr_zero(past));
    auto builder = findings_.report<Code::Y17>(sites_[tag(step.amount->span)].mend);
    builder.label("RC {} already, {} asked", benches_[first].machine().counter(), *targets[first]).at(edition_, past)
        .row(static_cast<std::uint32_t>(benches_[first].machine().counter()));
    for (const std::string& part : evaluator_.parts(*step.amount, *place.frame, first)) builder.note("{}", part);
    builder.help("`counter 0` before it begins a new count");
    lose(past);
  } else if (own_measure && short_of) {
    const auto first = static_cast<std::size_t>(std::countr_zero(short_of));
    const std::int64_t counter = benches_[first].machine().counter();
    findings_.report<Code::Y18>(step.amount->span, section_name_)
        .label("{} rows are knitted here, and `{}` is {}", *targets[first] - counter, section_name_, *targets[first])
        .note("the counter shows {} from the sections before", counter).help("`counter 0` at the beginning of the section").at(edition_, short_of);
  }
  place.active = living(good);
  if (!place.active) return;
  check_gauge_of(*step.amount, place, targets);
  Operation operation;
  operation.act = Act::knit_to_row;
  const std::vector<Joined> joined = joined_edges(step, place, operation);
  if (!place.active) return;
  operate(step, operation, place, out, [&](std::size_t i, Bench& bench, SizeRecord& record) {
    record.target = *targets[i];
    record.amount = *targets[i] - bench.machine().counter();
    record.idle = record.amount == 0;
    if (!record.idle) record.waste_drawn = knit_passes(step, i, record.amount, false, joined[i]);
  });
}

void Knitter::knit_by_hand(const syntax::Step& step, Place& place, std::vector<Step>& out) {
  clauses_fit(step, {"by_hand"}, {ClauseKind::as});
  const Counts rows = evaluator_.whole(*step.amount, values::dimensions::rows, *place.frame, place.active);
  const auto chosen = needles(*step.needles, place, Among::working);
  const syntax::Name* named = step.names.empty() ? nullptr : &step.names.front();
  const auto used = named ? yarn(*named) : yarn_called("main");
  if (!chosen || !used) {
    lose(place.active);
    return;
  }
  SizeSet of_the_carriage = clause(step, ClauseKind::method, "by_hand") ? SizeSet{0} : place.active;
  for (std::size_t i = 0; i < sizes_; ++i) {
    if (!has_size(place.active, i)) continue;
    if (rows[i].value_or(1) > 1) of_the_carriage |= size_bit(i);
    else if (rows[i].value_or(1) < 1) of_the_carriage &= ~size_bit(i);
  }
  if (of_the_carriage) {
    findings_.report<Code::C47>(step.needles->span)
        .label("the carriage knits all that is in work; by hand it is a single row")
        .help("`hold all except …` these, `knit … rows`, `release held`; for a line of waste `knit 1 row over … with waste, by hand`")
        .at(edition_, of_the_carriage);
    lose(of_the_carriage);
    place.active = living(place.active);
    if (!place.active) return;
  }
  Operation operation;
  operation.act = Act::knit_by_hand;
  operation.by_hand = true;
  operation.selections = {selections_[chosen->id].shape};
  operation.yarns = {setup_.yarns[*used].name};
  const syntax::Clause* as = clause(step, ClauseKind::as);
  if (as && as->name) operation.edges = {as->name->text};
  operate(step, operation, place, out, [&](std::size_t i, Bench& bench, SizeRecord& record) {
    const auto& pair = selections_[chosen->id].needles[i];
    record.amount = rows[i].value_or(1);
    record.needles = bench.span(pair[0]);
    for (std::int64_t r = 0; r < std::min<std::int64_t>(record.amount, 100); ++r) {
      const runtime::Outcome outcome = apply(step, i, runtime::KnitByHand{runtime::Bed::main, pair[0], bench.yarns[*used]});
      if (as && as->name && outcome.slot.given()) bench.name_slot(as->name->text, outcome.slot);
    }
  });
}

void Knitter::thread(const syntax::Step& step, Place& place, std::vector<Step>& out) {
  clauses_fit(step, {}, {});
  std::vector<std::size_t> used;
  for (const syntax::Name& name : step.names) {
    const auto found = yarn(name);
    if (!found) {
      lose(place.active);
      return;
    }
    used.push_back(*found);
  }
  if (used.empty()) return;
  Operation operation;
  operation.act = Act::thread;
  for (std::size_t y : used) operation.yarns.push_back(setup_.yarns[y].name);
  operate(step, operation, place, out, [&](std::size_t i, Bench& bench, SizeRecord&) {
    apply(step, i, runtime::ThreadYarn{bench.yarns[used[0]], used.size() > 1 ? bench.yarns[used[1]] : runtime::YarnId{}});
  });
  report_idle_second(place.active, false);
  if (used.size() < 2) return;
  for (std::size_t i = 0; i < sizes_; ++i) {
    Bench& bench = benches_[i];
    if (!has_size(living(place.active), i) || bench.second || bench.machine().second_threaded() != bench.yarns[used[1]]) continue;
    bench.second = {used[1], step.verb, bench.fabric().yarn(bench.yarns[used[1]]).loops};
  }
}

// Plain rows knit the first yarn alone. Said when the second leaves the feeder and no row of two colours has taken it.
void Knitter::report_idle_second(SizeSet active, bool piece_ends) {
  std::map<std::uint32_t, std::pair<Bench::SecondYarn, SizeSet>> idle;   // by where it was threaded
  for (std::size_t i = 0; i < sizes_; ++i) {
    Bench& bench = benches_[i];
    if (!has_size(living(active), i) || !bench.second) continue;
    const runtime::YarnId id = bench.yarns[bench.second->yarn];
    if (!piece_ends && (bench.machine().threaded() == id || bench.machine().second_threaded() == id)) continue;
    if (bench.fabric().yarn(id).loops == bench.second->loops) {
      auto& told = idle[bench.second->threaded.begin];
      told.first = *bench.second;
      told.second |= size_bit(i);
    }
    bench.second.reset();
  }
  for (const auto& [place, told] : idle) {
    const std::string& name = setup_.yarns[told.first.yarn].name;
    findings_.report<Code::Y28>(told.first.threaded, name).label("it leaves the feeder without a stitch")
        .help("rows of `knit chart` knit it; plain rows knit the first yarn alone")
        .help("two strands that are knitted as one are one yarn: `yarn heel \"wool and nylon as one\"` in the edition, and `thread heel`")
        .at(edition_, told.second);
  }
}

void Knitter::cut(const syntax::Step& step, Place& place, std::vector<Step>& out) {
  clauses_fit(step, {}, {ClauseKind::tail});
  const auto used = step.names.empty() ? std::nullopt : yarn(step.names.front());
  if (!used) {
    lose(place.active);
    return;
  }
  std::vector<std::optional<values::Quantity>> tails(sizes_);
  if (const syntax::Clause* tail = clause(step, ClauseKind::tail); tail && tail->amount)
    tails = evaluator_.quantity(*tail->amount, values::dimensions::length, *place.frame, place.active);
  Operation operation;
  operation.act = Act::cut;
  operation.yarns = {setup_.yarns[*used].name};
  operate(step, operation, place, out, [&](std::size_t i, Bench& bench, SizeRecord& record) {
    record.length = tails[i];
    if (const auto at = bench.machine().place(bench.yarns[*used])) {
      record.yarn_needle = bench.needle(at->needle, at->bed);
      record.yarn_side = record.yarn_needle.number < 0 ? Side::left : Side::right;
      if (const auto& carrying = bench.machine().carrying(at->bed); !carrying.empty())
        record.yarn_side = at->needle - carrying.first() < carrying.last() - at->needle ? Side::left : Side::right;
    }
    apply(step, i, runtime::CutYarn{bench.yarns[*used], tails[i] ? micrometres(*tails[i]) : 0});
  });
  report_idle_second(place.active, false);
}

void Knitter::rest_yarn(const syntax::Step& step, Place& place, std::vector<Step>& out) {
  const auto used = step.names.empty() ? std::nullopt : yarn(step.names.front());
  if (!used) {
    lose(place.active);
    return;
  }
  Operation operation;
  operation.act = Act::rest_yarn;
  operation.yarns = {setup_.yarns[*used].name};
  operate(step, operation, place, out, [&](std::size_t i, Bench& bench, SizeRecord&) { apply(step, i, runtime::RestYarn{bench.yarns[*used]}); });
  report_idle_second(place.active, false);
}

void Knitter::tension(const syntax::Step& step, Place& place, std::vector<Step>& out) {
  if (!step.tension) {
    findings_.report<Code::V06>(step.amount ? step.amount->span : step.verb, "a tension such as `MT - 2`").label("the dial of another machine shows another number")
        .help("tensions are offsets from the main tension, MT").at(edition_, place.active);
    return;
  }
  const auto hundredths = evaluator_.tension(*step.tension, *place.frame, place.active);
  if (!hundredths) return;
  runtime::Beds beds = runtime::Beds::main;
  if (step.bed) beds = *step.bed == syntax::Bed::both ? runtime::Beds::both : *step.bed == syntax::Bed::second ? runtime::Beds::second : runtime::Beds::main;
  Operation operation;
  operation.act = Act::tension;
  const int tenths = (*hundredths >= 0 ? *hundredths + 5 : *hundredths - 5) / 10;
  operate(step, operation, place, out, [&](std::size_t i, Bench&, SizeRecord& record) {
    record.target = *hundredths;
    record.idle = record.before.tension_hundredths == *hundredths;
    apply(step, i, runtime::SetTension{beds, tenths});
  });
}

void Knitter::counter(const syntax::Step& step, Place& place, std::vector<Step>& out) {
  const Counts targets = evaluator_.whole(*step.amount, values::dimensions::rows, *place.frame, place.active);
  Operation operation;
  operation.act = Act::counter;
  counter_reset_ = true;
  operate(step, operation, place, out, [&](std::size_t i, Bench&, SizeRecord& record) {
    if (!targets[i]) {
      benches_[i].lost = true;
      return;
    }
    record.target = *targets[i];
    apply(step, i, runtime::ResetCounter{*targets[i]});
  });
}

void Knitter::comb(const syntax::Step& step, Place& place, std::vector<Step>& out) {
  using K = syntax::StepKind;
  Operation operation;
  operation.act = step.kind == K::hang_comb ? Act::hang_comb : step.kind == K::hang_weights ? Act::hang_weights : Act::remove_comb;
  SizeSet missing = 0;
  std::vector<runtime::EdgeId> on(sizes_);
  if (!step.edges.empty()) {
    for (std::size_t i = 0; i < sizes_; ++i)
      if (has_size(place.active, i))
        if (const auto part = edge(step.edges.front(), i, missing); part && !part->edges.empty()) on[i] = part->edges.front();
    report_missing_edge(step.edges.front(), missing);
    place.active = living(place.active);
    operation.edges = {edge_name(step.edges.front())};
  }
  operate(step, operation, place, out, [&](std::size_t i, Bench&, SizeRecord&) {
    if (step.kind == K::hang_comb) apply(step, i, runtime::HangComb{on[i]});
    else if (step.kind == K::hang_weights) apply(step, i, runtime::HangWeights{});
    else apply(step, i, runtime::RemoveComb{});
  });
}

}  // namespace stk::knit
