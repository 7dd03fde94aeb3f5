// Positions, moves and shaping.
#include <algorithm>

#include "compiler/findings/suggest.hpp"
#include "compiler/knit/knitter.hpp"
#include "compiler/knit/verbs.hpp"

namespace stk::knit {

using findings::Code;
using grade::has_size;
using grade::size_bit;
using runtime::NeedleSet;
using ClauseKind = syntax::Clause::Kind;

namespace {

const std::array<runtime::Bed, 2> both_beds{runtime::Bed::main, runtime::Bed::second};

knit::Side told(runtime::Side side) { return side == runtime::Side::left ? Side::left : Side::right; }

bool optional_words(const syntax::Step& step) {
  for (const syntax::Clause& c : step.clauses)
    if (c.kind == ClauseKind::method && c.word == "if_any") return true;
  return false;
}

}  // namespace

void Knitter::hold_release_wrap(const syntax::Step& step, Place& place, std::vector<Step>& out) {
  using K = syntax::StepKind;
  if (step.kind == K::wrap) clauses_fit(step, {"if_any"}, {});
  else clauses_fit(step, {}, {});
  const bool if_any = optional_words(step);
  const auto chosen = needles(*step.needles, place, step.kind == K::hold ? Among::working : Among::resting, nullptr, if_any);
  if (!chosen) return;
  Operation operation;
  operation.act = step.kind == K::hold ? Act::hold : step.kind == K::release ? Act::release : Act::wrap;
  operation.selections = {selections_[chosen->id].shape};
  operate(step, operation, place, out, [&](std::size_t i, Bench& bench, SizeRecord& record) {
    const auto& pair = selections_[chosen->id].needles[i];
    for (const runtime::Bed bed : both_beds) {
      NeedleSet set = pair[static_cast<std::size_t>(bed)];
      // A frozen set is named for hold and release alike: of it, those that are so now.
      if (step.kind == K::release) set &= bench.held(bed);
      if (step.kind == K::wrap && bench.rests(bed)) continue;   // a bed at rest has no turn to wrap beside
      if (set.empty()) continue;
      record.amount += set.count();
      if (bed == runtime::Bed::second) record.second_amount = set.count();
      record.needles = bench.span(set, bed);
      if (step.kind == K::hold) apply(step, i, runtime::Hold{bed, set});
      else if (step.kind == K::release) apply(step, i, runtime::Release{bed, set});
      else apply(step, i, runtime::Wrap{bed, set});
    }
    record.idle = record.amount == 0;
  });
}

void Knitter::bring_or_put(const syntax::Step& step, Place& place, std::vector<Step>& out) {
  clauses_fit(step, {}, {});
  const bool bring = step.kind == syntax::StepKind::bring_into_work;
  const auto chosen = needles(*step.needles, place, bring ? Among::idle : Among::working);
  if (!chosen) return;
  Operation operation;
  operation.act = bring ? Act::bring_into_work : Act::put_out_of_work;
  operation.selections = {selections_[chosen->id].shape};
  operate(step, operation, place, out, [&](std::size_t i, Bench& bench, SizeRecord& record) {
    const auto& pair = selections_[chosen->id].needles[i];
    const auto before = picture(bench);
    for (const runtime::Bed bed : both_beds) {
      const NeedleSet& set = pair[static_cast<std::size_t>(bed)];
      if (set.empty()) continue;
      record.amount += set.count();
      record.needles = bench.span(set, bed);
      if (bring) apply(step, i, runtime::BringIntoWork{bed, set});
      else apply(step, i, runtime::PutOutOfWork{bed, set});
    }
    record.idle = record.amount == 0;
    if (place.drawing && !record.idle) draw(bench, before, {}, record);
  });
}

void Knitter::set_needles(const syntax::Step& step, Place& place, std::vector<Step>& out) {
  clauses_fit(step, {}, {ClauseKind::ending, ClauseKind::second_bed, ClauseKind::placed});
  if (!step.tile || step.tile->needles.empty()) return;
  const auto across = needles(*step.needles, place, Among::working, &step);
  if (!across) return;
  const std::vector<bool>& tile = step.tile->needles;
  const syntax::Clause* ending = clause(step, ClauseKind::ending);
  const syntax::Clause* second = clause(step, ClauseKind::second_bed);
  const std::vector<bool> rest = ending && ending->tile ? ending->tile->needles : std::vector<bool>{};
  // More than the bed has is said at once: what would be left over of a clipped count means nothing.
  SizeSet wide = 0;
  if (across->counted)
    for (std::size_t i = 0; i < sizes_; ++i)
      if (has_size(place.active, i) && selections_[across->id].shape.count[i] > benches_[i].spec().needles) wide |= size_bit(i);
  if (wide) {
    const auto first = static_cast<std::size_t>(std::countr_zero(wide));
    auto builder = findings_.report<Code::C06>(step.needles->span);
    builder.label("{} needles asked, {} on the bed", selections_[across->id].shape.count[first], benches_[first].spec().needles)
        .help("a coarser gauge, a machine with more needles, or two pieces").at(edition_, wide);
    for (const std::string& part : evaluator_.parts(*step.needles, *place.frame, first)) builder.note("{}", part);
    lose(wide);
    place.active = living(place.active);
    if (!place.active) return;
  }
  SizeSet uneven = 0;
  for (std::size_t i = 0; i < sizes_; ++i) {
    if (!has_size(place.active, i)) continue;
    const auto n = static_cast<std::size_t>(selections_[across->id].needles[i][0].count());
    if (n < rest.size() || (n - rest.size()) % tile.size()) uneven |= size_bit(i);
  }
  if (uneven) {
    const auto first = static_cast<std::size_t>(std::countr_zero(uneven));
    const auto n = static_cast<std::int64_t>(selections_[across->id].needles[first][0].count());
    const auto left = (n - static_cast<std::int64_t>(rest.size())) % static_cast<std::int64_t>(tile.size());
    auto builder = findings_.report<Code::C41>(step.needles->span, tile.size());
    builder.label("{} needles{}: {} over", n, rest.empty() ? "" : " with the ending", left).at(edition_, uneven);
    const auto near = findings::nearest_counts(n, static_cast<std::int64_t>(tile.size()), static_cast<std::int64_t>(rest.size()));
    std::string over;   // the beginning of the tile, as long as what is left over: it ends as it begins
    for (std::int64_t k = 0; k < left; ++k) over += std::string(over.empty() ? "" : " ") + (tile[static_cast<std::size_t>(k)] ? "|" : ".");
    if (near.size() == 2 && rest.empty() && left > 0)
      builder.help("{} or {} needles come out even; `ending [{}]` draws what is left over", near[0], near[1], over);
    else if (near.size() == 2) builder.help("{} or {} needles come out even", near[0], near[1]);
    for (const std::string& part : evaluator_.parts(*step.needles, *place.frame, first)) builder.note("{}", part);
    lose(uneven);
    place.active = living(place.active);
    if (!place.active) return;
  }
  const auto pattern = [&](const NeedleSet& over, const std::vector<bool>& repeated) {
    NeedleSet set;
    std::size_t k = 0;
    const auto n = static_cast<std::size_t>(over.count());
    for (int needle : over) {
      const bool in = k >= n - rest.size() ? rest[k - (n - rest.size())] : repeated[k % repeated.size()];
      if (in) set.insert(needle);
      ++k;
    }
    return set;
  };
  Operation operation;
  operation.act = Act::set_needles;
  operation.selections = {selections_[across->id].shape};
  operation.tile = tile;
  operation.ending = rest;
  if (second && second->tile) operation.second_tile = second->tile->needles;
  operate(step, operation, place, out, [&](std::size_t i, Bench& bench, SizeRecord& record) {
    const NeedleSet over = selections_[across->id].needles[i][0];
    const auto before = picture(bench);
    const NeedleSet in = pattern(over, tile);
    record.amount = in.count();
    record.second_amount = over.count() - in.count();
    record.needles = bench.span(over);
    apply(step, i, runtime::SetNeedles{runtime::Bed::main, in});
    if (second && second->tile) {
      const NeedleSet behind = pattern(over, second->tile->needles);
      record.second_amount = behind.count();
      apply(step, i, runtime::SetNeedles{runtime::Bed::second, behind});
    }
    draw(bench, before, {}, record);
  });
}

void Knitter::move(const syntax::Step& step, Place& place, std::vector<Step>& out) {
  clauses_fit(step, {}, {ClauseKind::empties});
  const auto chosen = needles(*step.needles, place, Among::working);
  if (!chosen || !step.amount || !step.direction) return;
  const Counts by = evaluator_.whole(*step.amount, values::dimensions::sts, *place.frame, place.active);
  const syntax::Clause* said = clause(step, ClauseKind::empties);
  Operation operation;
  operation.act = Act::move;
  operation.selections = {selections_[chosen->id].shape};
  runtime::Empties empties = runtime::Empties::unsaid;
  if (said) {
    if (said->word == "out_of_work") empties = runtime::Empties::out_of_work, operation.empties = Empties::out_of_work;
    else if (said->word == "in_work") empties = runtime::Empties::in_work, operation.empties = Empties::in_work;
    else {
      operation.empties = Empties::filled;
      empties = said->direction == syntax::Direction::left ? runtime::Empties::filled_from_left : runtime::Empties::filled_from_right;
      operation.filled_from = said->direction == syntax::Direction::left ? Side::left : Side::right;
    }
  }
  const bool inward = *step.direction == syntax::Direction::inward || *step.direction == syntax::Direction::inside;
  const bool outward = *step.direction == syntax::Direction::outward || *step.direction == syntax::Direction::outside;
  operation.way = inward ? Way::inward : outward ? Way::outward : Way::aside;
  if (!inward && !outward) operation.side = told(*step.direction == syntax::Direction::left ? runtime::Side::left : runtime::Side::right);
  operate(step, operation, place, out, [&](std::size_t i, Bench& bench, SizeRecord& record) {
    if (!by[i]) {
      bench.lost = true;
      return;
    }
    const int distance = static_cast<int>(std::min<std::int64_t>(*by[i], runtime::needle_limit));
    record.target = distance;
    // Drawn is the main bed, or the second where its loops alone move.
    const bool on_main = !selections_[chosen->id].needles[i][0].empty();
    const runtime::Bed shown = on_main ? runtime::Bed::main : runtime::Bed::second;
    const auto before = picture(bench, shown);
    std::vector<DrawnMove> moves;
    for (const runtime::Bed bed : both_beds) {
      const NeedleSet& set = selections_[chosen->id].needles[i][static_cast<std::size_t>(bed)];
      if (set.empty()) continue;
      record.needles = bench.span(set, bed);
      record.amount += set.count();
      const auto one = [&](const NeedleSet& part, int signed_distance) {
        if (part.empty()) return;
        const runtime::Outcome outcome = apply(step, i, runtime::Move{bed, part, signed_distance, empties, outward});
        record.emptied += outcome.emptied.count();
        if (bed == shown)
          for (int needle : part) moves.push_back({bench.seen(needle), bench.seen(needle + signed_distance)});
      };
      if (inward || outward) {
        // Towards or away from the middle of the work: each half its own way.
        const NeedleSet work = bench.in_work(bed);
        const int middle2 = work.first() + work.last();
        NeedleSet left, right;
        for (int needle : set) (needle * 2 < middle2 ? left : right).insert(needle);
        one(left, inward ? distance : -distance);
        one(right, inward ? -distance : distance);
      } else {
        one(set, *step.direction == syntax::Direction::left ? -distance : distance);
      }
    }
    record.idle = record.amount == 0 || distance == 0;
    if (place.drawing && !record.idle) draw(bench, before, picture(bench, shown), moves, record);
  });
}

void Knitter::transfer(const syntax::Step& step, Place& place, std::vector<Step>& out) {
  clauses_fit(step, {}, {ClauseKind::onto});
  const auto chosen = needles(*step.needles, place, Among::working);
  if (!chosen || !step.bed) return;
  const runtime::Bed target = *step.bed == syntax::Bed::second ? runtime::Bed::second : runtime::Bed::main;
  const runtime::Bed source = runtime::other(target);
  Operation operation;
  operation.act = Act::transfer;
  operation.selections = {selections_[chosen->id].shape};
  operate(step, operation, place, out, [&](std::size_t i, Bench& bench, SizeRecord& record) {
    const NeedleSet set = selections_[chosen->id].needles[i][static_cast<std::size_t>(source)];
    record.amount = set.count();
    record.needles = bench.span(set, source);
    record.idle = set.empty();
    if (record.idle) return;
    record.second_amount = (set & bench.carrying(target)).count();
    const auto before = picture(bench);
    apply(step, i, runtime::Transfer{source, set, clause(step, ClauseKind::onto) != nullptr});
    if (place.drawing) draw_beds(bench, before, record);
  });
}

void Knitter::lift_or_latch(const syntax::Step& step, Place& place, std::vector<Step>& out) {
  clauses_fit(step, {}, {});
  const auto chosen = needles(*step.needles, place, Among::working);
  if (!chosen) return;
  Operation operation;
  operation.act = step.kind == syntax::StepKind::lift ? Act::lift : Act::latch_up;
  operation.selections = {selections_[chosen->id].shape};
  operate(step, operation, place, out, [&](std::size_t i, Bench& bench, SizeRecord& record) {
    for (const runtime::Bed bed : both_beds) {
      const NeedleSet& set = selections_[chosen->id].needles[i][static_cast<std::size_t>(bed)];
      if (set.empty()) continue;
      record.amount += set.count();
      record.needles = bench.span(set, bed);
      if (bench.machine().tube() && !bench.carrying(runtime::other(bed)).empty()) {   // its ends are corners
        const NeedleSet all = bench.carrying(bed);
        for (int needle : set) record.second_amount += needle == all.first() || needle == all.last() ? 1 : 0;
      }
      if (step.kind == syntax::StepKind::lift) apply(step, i, runtime::Lift{bed, set});
      else apply(step, i, runtime::LatchUp{bed, set});
    }
  });
}

void Knitter::shape(const syntax::Step& step, Place& place, std::vector<Step>& out) {
  const bool increase = step.kind == syntax::StepKind::increase;
  if (increase) clauses_fit(step, {}, {ClauseKind::inset, ClauseKind::filled});
  else clauses_fit(step, {}, {ClauseKind::inset});
  const Counts amounts = evaluator_.whole(*step.amount, values::dimensions::sts, *place.frame, place.active);
  Counts insets(sizes_, 0);
  if (const syntax::Clause* inset = clause(step, ClauseKind::inset)) insets = evaluator_.whole(*inset->amount, values::dimensions::sts, *place.frame, place.active);
  const syntax::Clause* filled = clause(step, ClauseKind::filled);
  const bool eyelet = filled && filled->word == "eyelet";
  Operation operation;
  operation.act = increase ? Act::increase : Act::decrease;
  operation.each_side = step.side == syntax::Side::each;
  operation.empties = !increase ? Empties::out_of_work : eyelet ? Empties::in_work : Empties::filled;
  const auto first = static_cast<std::size_t>(std::countr_zero(place.active));
  if (first < sizes_ && insets[first]) {
    operation.inset = static_cast<std::int32_t>(std::min<std::int64_t>(*insets[first], 1000));
    operation.prongs = increase ? operation.inset : operation.inset + 1;
  }
  std::vector<runtime::Side> sides;
  if (step.side == syntax::Side::left || step.side == syntax::Side::each) sides.push_back(runtime::Side::left);
  if (step.side == syntax::Side::right || step.side == syntax::Side::each) sides.push_back(runtime::Side::right);
  const bool by_carriage = step.side == syntax::Side::carriage || step.side == syntax::Side::far;
  if (sides.size() == 1) operation.side = told(sides.front());
  operate(step, operation, place, out, [&](std::size_t i, Bench& bench, SizeRecord& record) {
    if (!amounts[i] || !insets[i]) {
      bench.lost = true;
      return;
    }
    const runtime::Bed bed = bench.carrying(runtime::Bed::main).empty() ? runtime::Bed::second : runtime::Bed::main;
    const auto before = picture(bench);
    std::vector<DrawnMove> moves;
    record.amount = *amounts[i];
    record.idle = *amounts[i] == 0;
    std::vector<runtime::Side> own = sides;
    if (by_carriage)
      if (const auto carriage = bench.carriage())
        own = {step.side == syntax::Side::carriage ? *carriage : runtime::opposite(*carriage)};
    const int inset = static_cast<int>(std::min<std::int64_t>(*insets[i], runtime::needle_limit));
    for (std::int64_t n = 0; n < std::min<std::int64_t>(*amounts[i], runtime::needle_limit); ++n)
      for (const runtime::Side side : own) {
        const int to_shape = own.size() == 2 && side == own.front() ? 2 : 1;   // the second side follows the first
        const runtime::Outcome outcome = increase ? apply(step, i, runtime::Increase{bed, side, inset, eyelet, to_shape})
                                                  : apply(step, i, runtime::Decrease{bed, side, inset, to_shape});
        record.emptied += outcome.emptied.count();
        record.needles = bench.span(bench.seen(outcome.needles), bed);   // the outcome speaks of the bed as it is
        if (bed == runtime::Bed::main && *amounts[i] == 1 && (inset > 0 || !increase)) {   // the arrows of its chart
          const int inward = bench.seen(side) == runtime::Side::left ? 1 : -1;
          for (int needle : outcome.needles) moves.push_back({needle, increase ? needle - inward : needle + inward});
        }
        if (!outcome.clean()) return;
      }
    if (place.drawing && !record.idle) draw(bench, before, moves, record);
  });
}

void Knitter::fill(const syntax::Step& step, Place& place, std::vector<Step>& out) {
  clauses_fit(step, {}, {});
  if (!step.direction) return;
  const runtime::Empties from = *step.direction == syntax::Direction::left ? runtime::Empties::filled_from_left : runtime::Empties::filled_from_right;
  Operation operation;
  operation.act = Act::fill;
  operation.side = told(*step.direction == syntax::Direction::left ? runtime::Side::left : runtime::Side::right);
  operate(step, operation, place, out, [&](std::size_t i, Bench& bench, SizeRecord& record) {
    const NeedleSet empties = bench.in_work(runtime::Bed::main) - bench.carrying(runtime::Bed::main);
    record.amount = empties.count();
    record.needles = bench.span(empties);
    record.idle = empties.empty();
    if (!record.idle) apply(step, i, runtime::SayEmpties{runtime::Bed::main, empties, from});
  });
}

void Knitter::cross(const syntax::Step& step, Place& place, std::vector<Step>& out) {
  clauses_fit(step, {}, {});
  const Counts left = evaluator_.whole(*step.amount, values::dimensions::sts, *place.frame, place.active);
  const Counts right = evaluator_.whole(*step.second_amount, values::dimensions::sts, *place.frame, place.active);
  const auto chosen = needles(*step.needles, place, Among::working);
  if (!chosen) return;
  Operation operation;
  operation.act = Act::cross;
  operation.selections = {selections_[chosen->id].shape};
  operate(step, operation, place, out, [&](std::size_t i, Bench& bench, SizeRecord& record) {
    const NeedleSet& set = selections_[chosen->id].needles[i][0];
    if (!left[i] || !right[i] || set.empty()) {
      bench.lost = bench.lost || !left[i] || !right[i];
      record.idle = true;
      return;
    }
    record.amount = *left[i];
    record.second_amount = *right[i];
    record.needles = bench.span(set);
    const auto before = picture(bench);
    std::vector<DrawnMove> moves;
    const int l = static_cast<int>(std::min<std::int64_t>(*left[i], 100)), r = static_cast<int>(std::min<std::int64_t>(*right[i], 100));
    // One crossing for each run of needles as wide as it; a set of several runs crosses in each.
    const int width = l + r;
    const int many = set.count();
    if (width == 0 || many % width) {
      findings_.report<Code::C04>(step.needles->span, width).label("{} needles are meant here: {} crossings and {} over", many, width ? many / width : 0, width ? many % width : many)
          .at(edition_, size_bit(i));
      return;
    }
    int k = 0, start = -1;
    for (int needle : set) {
      if (k % width == 0) start = needle;
      if (++k % width == 0) {
        apply(step, i, runtime::Cross{runtime::Bed::main, start, l, r});
        for (int n = 0; n < l; ++n) moves.push_back({bench.seen(start + n), bench.seen(start + n + r)});
        for (int n = 0; n < r; ++n) moves.push_back({bench.seen(start + l + n), bench.seen(start + n)});
      }
    }
    if (place.drawing) draw(bench, before, moves, record);
  });
}

void Knitter::tuck_or_slip(const syntax::Step& step, Place& place, std::vector<Step>& out) {
  clauses_fit(step, {}, {});
  const bool tuck = step.kind == syntax::StepKind::tuck;
  const auto chosen = needles(*step.needles, place, Among::working);
  const Counts rows = evaluator_.whole(*step.amount, values::dimensions::rows, *place.frame, place.active);
  if (!chosen) return;
  Operation operation;
  operation.act = tuck ? Act::tuck : Act::slip;
  operation.selections = {selections_[chosen->id].shape};
  operate(step, operation, place, out, [&](std::size_t i, Bench& bench, SizeRecord& record) {
    if (!rows[i] || *rows[i] > 1000) {
      bench.lost = true;
      return;
    }
    const NeedleSet& set = selections_[chosen->id].needles[i][0];
    record.amount = *rows[i];
    record.second_amount = set.count();
    record.needles = bench.span(set);
    record.idle = *rows[i] == 0;
    const auto before = picture(bench);
    if (!record.idle)
      apply(step, i, runtime::KnitPattern{tuck ? runtime::PatternKind::tuck : runtime::PatternKind::slip,
                                          std::vector<NeedleSet>(static_cast<std::size_t>(*rows[i]), set)});
    if (!place.drawing || record.idle) return;
    std::vector<DrawnNeedle> pattern = before;   // what each needle does in these rows
    for (const int needle : bench.seen(set))
      pattern[static_cast<std::size_t>(needle)] = {tuck ? DrawnNeedle::Position::tuck : DrawnNeedle::Position::slip, 1, false};
    draw(bench, before, pattern, {}, record);
  });
}

void Knitter::pitch(const syntax::Step& step, Place& place, std::vector<Step>& out) {
  Operation operation;
  operation.act = Act::pitch;
  operation.method = step.word == "half" ? Method::half : Method::full;
  operate(step, operation, place, out, [&](std::size_t i, Bench&, SizeRecord&) {
    apply(step, i, runtime::SetPitch{step.word == "half" ? runtime::Pitch::half : runtime::Pitch::full});
  });
}

void Knitter::carriage_knits(const syntax::Step& step, Place& place, std::vector<Step>& out) {
  Operation operation;
  operation.act = Act::carriage_knits;
  const runtime::CarriageKnits knits = step.word == "to_left" ? runtime::CarriageKnits::to_left : step.word == "to_right" ? runtime::CarriageKnits::to_right : runtime::CarriageKnits::both_ways;
  operation.method = step.word == "to_left" ? Method::to_left : step.word == "to_right" ? Method::to_right : Method::both_ways;
  operate(step, operation, place, out, [&](std::size_t i, Bench&, SizeRecord&) { apply(step, i, runtime::SetCarriage{knits}); });
}

}  // namespace stk::knit
