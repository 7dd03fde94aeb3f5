// Edges: hung, picked up, opened, taken off, bound off, gathered; and colour from a chart.
#include <algorithm>

#include "compiler/knit/knitter.hpp"
#include "compiler/knit/verbs.hpp"

namespace stk::knit {

using findings::Code;
using grade::has_size;
using grade::size_bit;
using runtime::NeedleSet;
using ClauseKind = syntax::Clause::Kind;

namespace {

knit::Side told(runtime::Side side) { return side == runtime::Side::left ? Side::left : Side::right; }

}  // namespace

void Knitter::mark_row(const syntax::Step& step, Place& place, std::vector<Step>& out) {
  clauses_fit(step, {}, {});
  Operation operation;
  operation.act = Act::mark_row;
  if (!step.names.empty()) operation.edges = {step.names.front().text};
  std::optional<Needles> chosen;
  if (step.needles) {
    chosen = needles(*step.needles, place, Among::working);
    if (!chosen) return;
    operation.selections = {selections_[chosen->id].shape};
  }
  operate(step, operation, place, out, [&](std::size_t i, Bench& bench, SizeRecord& record) {
    std::array<NeedleSet, 2> sets;
    if (chosen) {
      sets = selections_[chosen->id].needles[i];
    } else {   // what is said of no bed is of the main bed, if anything is on it
      const runtime::Bed bed = bench.carrying(runtime::Bed::main).empty() ? runtime::Bed::second : runtime::Bed::main;
      sets[static_cast<std::size_t>(bed)] = bench.carrying(bed);
    }
    const runtime::Bed bed = sets[0].empty() && !sets[1].empty() ? runtime::Bed::second : runtime::Bed::main;
    const NeedleSet& set = sets[static_cast<std::size_t>(bed)];
    record.amount = set.count();
    record.needles = bench.span(set, bed);
    const runtime::Outcome outcome = apply(step, i, runtime::MarkRow{bed, set});
    for (const runtime::EdgeId edge : outcome.edges) bench.name_edge(operation.edges.front(), edge);
  });
}

void Knitter::hang_edge(const syntax::Step& step, Place& place, std::vector<Step>& out) {
  clauses_fit(step, {"by_loops_between", "folded", "reversed"}, {ClauseKind::open_side, ClauseKind::carriage, ClauseKind::placed});
  SizeSet missing = 0;
  std::vector<Part> parts(sizes_);
  for (std::size_t i = 0; i < sizes_; ++i)
    if (has_size(place.active, i))
      if (auto part = edge(step.edges.front(), i, missing)) parts[i] = *part;
  report_missing_edge(step.edges.front(), missing);
  place.active = living(place.active);
  if (!place.active) return;
  const bool on_empties = [&] {
    const auto* ref = std::get_if<syntax::NameRef>(&step.needles->node);
    return ref && ref->parts.size() == 1 && ref->parts[0].text == "empties";
  }();
  const auto chosen = needles(*step.needles, place, on_empties ? Among::waiting : Among::working, &step);
  if (!chosen) return;
  Operation operation;
  operation.act = Act::hang_edge;
  operation.selections = {selections_[chosen->id].shape};
  told_edges(step, place.active, operation);
  const std::vector<AskedPart> asked = asked_parts(step, place);
  runtime::Hang hang;
  for (const syntax::Clause& c : step.clauses) {
    if (c.kind != ClauseKind::method) continue;
    if (c.word == "by_loops_between") hang.loops = runtime::Loops::between, operation.method = Method::by_loops_between;
    if (c.word == "folded") hang.order = runtime::HangOrder::folded, operation.method = Method::folded;
    if (c.word == "reversed") hang.order = runtime::HangOrder::reversed, operation.method = Method::reversed;
  }
  const auto marked = [&](std::size_t i) -> const runtime::Edge* {
    if (!has_size(place.active, i) || parts[i].edges.empty()) return nullptr;
    const runtime::Edge& edge = benches_[i].fabric().edge(parts[i].edges.front());
    return edge.kind == runtime::EdgeKind::row ? &edge : nullptr;
  };
  for (std::size_t i = 0; i < sizes_; ++i)
    if (marked(i)) operation.method = Method::marked_row;
  hang.carriage = side_of(clause(step, ClauseKind::carriage));
  if (const auto side = side_of(clause(step, ClauseKind::open_side))) {
    hang.open_side = *side;
    operation.side = told(*side);
  }
  Step& made = operate(step, operation, place, out, [&](std::size_t i, Bench& bench, SizeRecord& record) {
    const auto& pair = selections_[chosen->id].needles[i];
    runtime::Hang own = hang;
    own.edge = parts[i].edges.empty() ? runtime::EdgeId{} : parts[i].edges.front();
    if (!own.edge.given() || !take_parts(step, i, asked, parts[i].edges, record)) return;
    own.edge = parts[i].edges.front();
    if (own.order == runtime::HangOrder::folded) {
      own.bed = runtime::Bed::main;
      own.needles = bench.in_work(runtime::Bed::main);
      own.second_needles = bench.in_work(runtime::Bed::second);
    } else {
      own.bed = pair[0].empty() && !pair[1].empty() ? runtime::Bed::second : runtime::Bed::main;
      own.needles = pair[0].empty() ? pair[1] : pair[0];
    }
    record.amount = own.needles.count() + own.second_needles.count();
    record.needles = bench.span(own.needles, own.bed);
    if (const runtime::Edge* row = marked(i)) {
      const std::int64_t since = bench.machine().passes() - row->pass;
      if (bench.machine().counter() - row->counter == since) record.target = row->counter;
    }
    const auto before = picture(bench);
    const runtime::Outcome outcome = apply(step, i, own);
    record.comb_moved = outcome.comb_moved;
    record.waste_drawn = outcome.waste_drawn;
    if (place.drawing && own.loops == runtime::Loops::between) draw(bench, before, {}, record);
  });
  (void)made;
}

void Knitter::pick_up(const syntax::Step& step, Place& place, std::vector<Step>& out) {
  clauses_fit(step, {}, {ClauseKind::onto, ClauseKind::every_rows});
  const Counts counts = evaluator_.whole(*step.amount, values::dimensions::sts, *place.frame, place.active);
  const syntax::Clause* onto = clause(step, ClauseKind::onto);
  const auto side = side_of(onto);
  if (!side) {
    findings_.report<Code::C39>(onto ? onto->span : step.verb, "pick up").label("the side is needed").help("`onto left` or `onto right` says beside which end of the work").at(edition_, place.active);
    lose(place.active);
    return;
  }
  int loops = 1, rows = 2;
  if (const syntax::Clause* rate = clause(step, ClauseKind::every_rows)) {
    const Counts a = evaluator_.whole(*rate->amount, {}, *place.frame, place.active);
    const Counts b = evaluator_.whole(*rate->second_amount, values::dimensions::rows, *place.frame, place.active);
    const auto first = static_cast<std::size_t>(std::countr_zero(place.active));
    if (!a[first] || !b[first] || *a[first] < 1 || *b[first] < 1 || *a[first] > 1000 || *b[first] > 1000) {
      findings_.report<Code::C39>(rate->span, "pick up").label("a rate is like `3 for every 4 rows`").at(edition_, place.active);
      lose(place.active);
      return;
    }
    loops = static_cast<int>(*a[first]);
    rows = static_cast<int>(*b[first]);
  }
  std::vector<SizeSet> missing(step.edges.size(), 0);
  std::vector<std::vector<runtime::EdgeId>> along(sizes_);
  for (std::size_t i = 0; i < sizes_; ++i)
    if (has_size(place.active, i)) along[i] = sum_of_edges(step.edges, i, missing);
  for (std::size_t e = 0; e < step.edges.size(); ++e) report_missing_edge(step.edges[e], missing[e]);
  place.active = living(place.active);
  if (!place.active) return;
  Operation operation;
  operation.act = Act::pick_up;
  operation.side = told(*side);
  // An edge that is joined already, as the sides of a square heel, has no loop to give and is not told.
  const auto gives_loops = [&](const syntax::EdgeRef& ref) {
    SizeSet told_missing = 0;
    for (std::size_t i = 0; i < sizes_; ++i) {
      if (!has_size(place.active, i)) continue;
      std::int64_t joined = 0, left = 0;
      const std::optional<Part> part = edge(ref, i, told_missing);
      if (!part) continue;
      for (const runtime::EdgeId id : part->edges) {
        joined += benches_[i].fabric().edge(id).joined;
        left += benches_[i].fabric().edge(id).rows - benches_[i].fabric().edge(id).joined;
      }
      if (joined == 0 || left >= rows) return true;
    }
    return false;
  };
  for (const syntax::EdgeRef& ref : step.edges)
    if (step.edges.size() == 1 || gives_loops(ref)) operation.edges.push_back(edge_name(ref));
  operation.rate_loops = loops;
  operation.rate_rows = rows;
  operate(step, operation, place, out, [&](std::size_t i, Bench& bench, SizeRecord& record) {
    if (!counts[i]) {
      bench.lost = true;
      return;
    }
    const NeedleSet carrying = bench.carrying(runtime::Bed::main);
    const int n = static_cast<int>(std::min<std::int64_t>(*counts[i], runtime::needle_limit));
    record.amount = n;
    record.idle = n == 0;
    if (n == 0) return;
    if (carrying.empty()) {
      findings_.report<Code::E08>(step.verb).label("nothing is on the needles").help("hang or cast on the stitches beside which the loops are to stand first").at(edition_, size_bit(i));
      bench.lost = true;
      return;
    }
    const NeedleSet set = *side == runtime::Side::left ? NeedleSet::range(carrying.first() - n, carrying.first() - 1) : NeedleSet::range(carrying.last() + 1, carrying.last() + n);
    if (set.count() < n || (!set.empty() && set.last() >= bench.spec().needles)) {
      findings_.report<Code::C06>(step.verb).label("{} more needles are needed on the {}", n, *side == runtime::Side::left ? "left" : "right").at(edition_, size_bit(i));
      bench.lost = true;
      return;
    }
    record.needles = bench.span(set);
    apply(step, i, runtime::PickUp{along[i], runtime::Bed::main, *side, set, loops, rows});
  });
}

void Knitter::open(const syntax::Step& step, Place& place, std::vector<Step>& out) {
  clauses_fit(step, {}, {ClauseKind::upper_on});
  SizeSet missing = 0;
  std::vector<Part> parts(sizes_);
  for (std::size_t i = 0; i < sizes_; ++i)
    if (has_size(place.active, i))
      if (auto part = edge(step.edges.front(), i, missing)) parts[i] = *part;
  report_missing_edge(step.edges.front(), missing);
  place.active = living(place.active);
  if (!place.active) return;
  const bool upper = clause(step, ClauseKind::upper_on) != nullptr;
  Operation operation;
  operation.act = Act::open;
  operation.edges = {edge_name(step.edges.front())};
  operation.upper_on_holder = upper;
  operate(step, operation, place, out, [&](std::size_t i, Bench& bench, SizeRecord& record) {
    if (!parts[i].slot.given()) {
      findings_.report<Code::E05>(step.edges.front().span).label("this is no slot").help("`knit 1 row over … with waste, by hand, as NAME` makes a slot to be opened").at(edition_, size_bit(i));
      bench.lost = true;
      return;
    }
    record.amount = bench.fabric().edge(bench.fabric().slot(parts[i].slot).lower).whole;
    apply(step, i, runtime::OpenSlot{parts[i].slot, upper});
  });
}

void Knitter::scrap_off(const syntax::Step& step, Place& place, std::vector<Step>& out) {
  clauses_fit(step, {}, {ClauseKind::rows});
  const auto waste = yarn_called("waste");
  if (!waste) {
    findings_.report<Code::Y09>(step.verb).label("the edition {} declares none", setup_.name).help("`yarn waste \"smooth cotton\"` in the edition").at(edition_, place.active);
    lose(place.active);
    return;
  }
  Operation operation;
  operation.act = Act::scrap_off;
  std::vector<grade::NeedlesId> parts;
  for (const syntax::NamedSelection& named : step.named) {
    const auto chosen = needles(*named.needles, place, Among::working);
    if (!chosen) return;
    parts.push_back(chosen->id);
    operation.selections.push_back(selections_[chosen->id].shape);
    operation.edges.push_back(named.name.text);
  }
  Counts rows(sizes_);
  if (const syntax::Clause* said = clause(step, ClauseKind::rows)) rows = evaluator_.whole(*said->amount, values::dimensions::rows, *place.frame, place.active);
  int waste_rows = 0;
  Step& made = operate(step, operation, place, out, [&](std::size_t i, Bench& bench, SizeRecord& record) {
    // Parts on one bed come off together; each bed by itself.
    for (const runtime::Bed bed : {runtime::Bed::main, runtime::Bed::second}) {
      runtime::ScrapOff scrap;
      scrap.bed = bed;
      scrap.waste = bench.yarns[*waste];
      scrap.rows = rows[i] ? static_cast<int>(std::min<std::int64_t>(*rows[i], 1000)) : 0;
      std::vector<std::string> names;
      for (std::size_t p = 0; p < parts.size(); ++p) {
        const NeedleSet& set = selections_[parts[p]].needles[i][static_cast<std::size_t>(bed)];
        if (set.empty()) continue;
        scrap.parts.push_back(set);
        names.push_back(operation.edges[p]);
        record.needles = bench.span(set, bed);
        record.amount = std::max<std::int64_t>(record.amount, set.count());
        record.part_counts.push_back(set.count());
      }
      if (scrap.parts.empty()) continue;
      const runtime::Outcome outcome = apply(step, i, scrap);
      waste_rows = outcome.waste_rows;
      for (std::size_t p = 0; p < outcome.edges.size() && p < names.size(); ++p) bench.name_edge(names[p], outcome.edges[p]);
      record.set_aside += outcome.set_aside.count();
    }
    record.idle = record.amount == 0;
  });
  made.operation.waste_rows = waste_rows;
}

void Knitter::take_off(const syntax::Step& step, Place& place, std::vector<Step>& out) {
  clauses_fit(step, {"on_cord", "on_holder"}, {});
  Operation operation;
  operation.act = Act::take_off;
  std::vector<grade::NeedlesId> parts;
  for (const syntax::NamedSelection& named : step.named) {
    const auto chosen = needles(*named.needles, place, Among::working);
    if (!chosen) return;
    parts.push_back(chosen->id);
    operation.selections.push_back(selections_[chosen->id].shape);
    operation.edges.push_back(named.name.text);
  }
  operate(step, operation, place, out, [&](std::size_t i, Bench& bench, SizeRecord& record) {
    for (std::size_t p = 0; p < parts.size(); ++p)
      for (const runtime::Bed bed : {runtime::Bed::main, runtime::Bed::second}) {
        const NeedleSet& set = selections_[parts[p]].needles[i][static_cast<std::size_t>(bed)];
        if (set.empty()) continue;
        record.amount += set.count();
        record.needles = bench.span(set, bed);
        record.part_counts.push_back(set.count());
        const runtime::Outcome outcome = apply(step, i, runtime::TakeOff{bed, set});
        for (const runtime::EdgeId edge : outcome.edges) bench.name_edge(operation.edges[p], edge);
      }
  });
}

void Knitter::bind_off(const syntax::Step& step, Place& place, std::vector<Step>& out) {
  clauses_fit(step, {"by_latch", "by_crochet", "by_hand", "loose"}, {ClauseKind::as});
  const auto chosen = needles(*step.needles, place, Among::working);
  if (!chosen) return;
  Operation operation;
  operation.act = Act::bind_off;
  operation.method = clause(step, ClauseKind::method, "by_latch") ? Method::by_latch : Method::none;
  operation.loose = clause(step, ClauseKind::method, "loose") != nullptr;
  const syntax::Clause* as = clause(step, ClauseKind::as);
  if (as && as->name) operation.edges = {as->name->text};
  operation.selections = {selections_[chosen->id].shape};
  operate(step, operation, place, out, [&](std::size_t i, Bench& bench, SizeRecord& record) {
    const auto& [main, second] = selections_[chosen->id].needles[i];
    record.amount = main.count() + second.count();
    const runtime::Bed bed = main.empty() ? runtime::Bed::second : runtime::Bed::main;
    record.needles = bench.span(main.empty() ? second : main, bed);
    if (main.empty() && second.empty()) return;
    record.second_amount = second.count();
    // It begins where the yarn hangs: on that bed, at that side.
    record.yarn_side = record.before.carriage;
    if (const auto at = bench.machine().place(bench.machine().threaded())) {
      record.yarn_needle = bench.needle(at->needle, at->bed);
      const NeedleSet all = bench.seen(main | second);
      record.yarn_side = at->needle - all.first() < all.last() - at->needle ? Side::left : Side::right;
    }
    const runtime::Outcome outcome = apply(step, i, runtime::BindOff{bed, main.empty() ? second : main, main.empty() ? NeedleSet() : second});
    if (!as || !as->name) return;
    if (outcome.edges.size() > 1) {
      findings_.report<Code::C39>(as->span, "bind off").label("the edge runs over both beds").help("one name is for what is bound off on one bed").at(edition_, size_bit(i));
      bench.lost = true;
    }
    for (const runtime::EdgeId edge : outcome.edges) bench.name_edge(as->name->text, edge);
  });
}

void Knitter::gather(const syntax::Step& step, Place& place, std::vector<Step>& out) {
  clauses_fit(step, {}, {ClauseKind::as});
  const auto chosen = needles(*step.needles, place, Among::working);
  if (!chosen) return;
  Operation operation;
  operation.act = Act::gather;
  operation.selections = {selections_[chosen->id].shape};
  const syntax::Clause* as = clause(step, ClauseKind::as);
  const syntax::Name* named = !step.names.empty() ? &step.names.front() : as && as->name ? &*as->name : nullptr;
  if (named) operation.edges = {named->text};
  const grade::FabricGauge* gauge = evaluator_.gauge("");
  operate(step, operation, place, out, [&](std::size_t i, Bench& bench, SizeRecord& record) {
    const auto& pair = selections_[chosen->id].needles[i];
    const runtime::Bed bed = pair[0].empty() ? runtime::Bed::second : runtime::Bed::main;
    // The gaps that transfers left are drawn through as well: everything that carries.
    const NeedleSet set = pair[static_cast<std::size_t>(bed)] & bench.carrying(bed);
    // A tube's toe is drawn through both beds at once.
    const NeedleSet facing = bed == runtime::Bed::main ? pair[1] & bench.carrying(runtime::Bed::second) : NeedleSet();
    record.amount = set.count() + facing.count();
    record.second_amount = bed == runtime::Bed::second ? set.count() : facing.count();
    record.needles = bench.span(set, bed);
    std::int64_t needed = 0;
    if (gauge) {
      // Twice the width of what it is drawn through (common practice), so that the end can be fastened.
      const auto width = values::divide(values::Quantity{values::Rational(set.count()), values::dimensions::sts}, gauge->stitches);
      if (width) {
        const auto twice = values::multiply(width->value, values::Rational(2000));
        if (twice) needed = values::nearest(*twice).as_int64().value_or(0);
      }
    }
    const runtime::Fabric& fabric = bench.fabric();
    std::vector<bool> used;
    for (const runtime::YarnEnd& end : fabric.ends()) used.push_back(end.used);
    record.yarn_side = record.before.carriage;   // if none is found: where the yarn was cut last
    const runtime::Outcome outcome = apply(step, i, runtime::Gather{bed, set, facing, needed});
    const runtime::NeedleSet drawn_in = bench.seen(set | facing);
    for (std::size_t e = 0; e < used.size(); ++e) {
      const int at = fabric.ends()[e].needle;
      if (!used[e] && fabric.ends()[e].used && at >= 0)
        record.yarn_side = at - drawn_in.first() < drawn_in.last() - at ? Side::left : Side::right;
    }
    if (named)
      for (const runtime::EdgeId edge : outcome.edges) bench.name_edge(named->text, edge);
  });
}

// Rows of a chart, bottom row first, repeated across from the anchor; end needles may take a yarn of their own.
void Knitter::knit_chart(const syntax::Step& step, Place& place, std::vector<Step>& out) {
  clauses_fit(step, {}, {ClauseKind::repeat_from, ClauseKind::end_needles});
  const names::Declaration* declaration = step.names.empty() ? nullptr : program_.find(place.frame->file, names::Space::chart, step.names.front().text);
  const auto* chart_at = declaration ? std::get_if<const syntax::Chart*>(&declaration->what) : nullptr;
  if (!chart_at || (*chart_at)->rows.empty()) {
    lose(place.active);
    return;
  }
  const syntax::Chart& chart = **chart_at;
  // The yarn of each mark; the first of the key is the ground, the other the second yarn.
  std::vector<std::pair<char, std::size_t>> marks;
  for (const syntax::Mark& mark : chart.key) {
    const auto used = yarn(mark.yarn);
    if (!used) {
      lose(place.active);
      return;
    }
    marks.push_back({mark.mark, *used});
  }
  if (marks.size() != 2) {
    findings_.report<Code::C42>(chart.name.span).label("its key has {}", marks.size() == 1 ? "1 mark" : std::to_string(marks.size()) + " marks").at(edition_, place.active).help("a row takes two yarns: one mark for each");
    lose(place.active);
    return;
  }
  if (!chart.seen_from)
    findings_.report<Code::C45>(chart.name.span).label("the knit side and the purl side read it from opposite ends")
        .help("`chart {}, seen from purl side` for a chart as it stands on the bed", chart.name.text).at(edition_, place.active);
  // Seen from the knit side a chart's left is the bed's right.
  const bool turned = chart.seen_from && chart.seen_from->text == "knit";
  const std::size_t width = chart.rows.front().marks.size();
  for (const syntax::ChartRow& row : chart.rows) {
    if (row.marks.size() != width || width == 0) {
      findings_.report<Code::C43>(row.span).label("{} marks here, {} in the first row", row.marks.size(), width).at(edition_, place.active);
      lose(place.active);
      return;
    }
    for (char mark : row.marks)
      if (mark != marks[0].first && mark != marks[1].first) {
        findings_.report<Code::C44>(row.span, std::string(1, mark)).label("the key has `{}` and `{}`", marks[0].first, marks[1].first).at(edition_, place.active);
        lose(place.active);
        return;
      }
  }
  if (const auto repeat = setup_.repeat; repeat && *repeat > 0 && *repeat % static_cast<std::int64_t>(width) != 0)
    findings_.report<Code::C46>(chart.name.span).label("{} columns; this machine selects {} needles and then the same again", width, *repeat)
        .help("a width that divides {}, or a selection by hand: a `machine` of your own without `repeat`", *repeat).at(edition_, place.active);
  std::optional<std::size_t> end_yarn;
  if (const syntax::Clause* ends = clause(step, ClauseKind::end_needles); ends && ends->name) {
    end_yarn = yarn(*ends->name);
    if (!end_yarn) {
      lose(place.active);
      return;
    }
  }
  std::optional<int> anchor;
  const syntax::Clause* from = clause(step, ClauseKind::repeat_from);
  if (from && from->needles)
    if (const auto* range = std::get_if<syntax::NeedleRange>(&from->needles->node)) {
      const auto first = static_cast<std::size_t>(std::countr_zero(place.active));
      anchor = needle_index(benches_[first].spec(), range->from);
      if (*anchor < 0) {
        findings_.report<Code::C05>(from->span).label("the bed has needles L{} to R{}", benches_[first].spec().needles / 2, (benches_[first].spec().needles + 1) / 2).at(edition_, place.active);
        lose(place.active);
        return;
      }
    }
  Operation operation;
  operation.act = Act::knit_chart;
  operation.edges = {chart.name.text};
  operation.yarns = {setup_.yarns[marks[0].second].name, setup_.yarns[marks[1].second].name};
  if (end_yarn) operation.edges_to = {setup_.yarns[*end_yarn].name};
  operation.from = chart.seen_from ? chart.seen_from->text : std::string();
  for (const syntax::ChartRow& row : chart.rows) operation.chart.push_back(row.marks);
  operation.chart_marks = {marks[0].first, marks[1].first};
  operate(step, operation, place, out, [&](std::size_t i, Bench& bench, SizeRecord& record) {
    const NeedleSet work = bench.in_work(runtime::Bed::main) & bench.carrying(runtime::Bed::main);
    if (work.empty()) {
      apply(step, i, runtime::Knit{static_cast<std::int64_t>(chart.rows.size()), runtime::KnitMode::rows});
      return;
    }
    const int w = static_cast<int>(width);
    // Without an anchor the repeat begins at the left edge; centred, its middle stands at the middle of the work.
    int start = anchor.value_or(work.first());
    if (from && from->word == "centred") start = (work.first() + work.last() + 1) / 2 - w / 2;
    const runtime::YarnId ground = bench.yarns[marks[0].second], second = bench.yarns[marks[1].second];
    // The ground is in the feeder already; the second yarn joins it for these rows, and rests after them.
    if (bench.machine().threaded() == ground && bench.machine().second_threaded() != second) {
      apply(step, i, runtime::RestYarn{ground});
      apply(step, i, runtime::ThreadYarn{ground, second});
    } else if (!bench.machine().threaded().given() ||
               (bench.machine().threaded() != ground && bench.machine().second_threaded() == second)) {
      apply(step, i, runtime::ThreadYarn{ground, second});
    }
    std::vector<NeedleSet> rows;
    for (const syntax::ChartRow& row : chart.rows) {
      NeedleSet set;
      for (int needle : work) {
        int column = ((needle - start) % w + w) % w;
        if (turned) column = w - 1 - column;
        bool takes_second = row.marks[static_cast<std::size_t>(column)] == marks[1].first;
        if (end_yarn && (needle == work.first() || needle == work.last())) takes_second = *end_yarn == marks[1].second;
        if (takes_second) set.insert(needle);
      }
      rows.push_back(set);
    }
    record.amount = static_cast<std::int64_t>(rows.size());
    record.needles = bench.span(work);
    const auto column_at = [&](int needle) {   // counted as it is drawn
      const int column = ((needle - start) % w + w) % w;
      return turned ? w - column : column + 1;
    };
    record.target = column_at(work.first());           // chart column under the left end needle
    record.second_amount = column_at(work.last());     // and under the right one
    apply(step, i, runtime::KnitPattern{runtime::PatternKind::two_colour, rows});
    if (bench.machine().second_threaded() == second) apply(step, i, runtime::RestYarn{second});
  });
}

}  // namespace stk::knit
