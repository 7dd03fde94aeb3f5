// What the designer believes at a place: `expect`, and what techniques need and leave. Checked in every size; what holds is
// recorded, for there the trade prints its counts.
#include <algorithm>

#include "compiler/knit/knitter.hpp"
#include "compiler/values/format.hpp"

namespace stk::knit {

using findings::Code;
using grade::has_size;
using grade::size_bit;
using runtime::NeedleSet;

namespace {
const char* side_word(runtime::Side side) { return side == runtime::Side::left ? "left" : "right"; }
}  // namespace

Knitter::Failing Knitter::check(const syntax::Fact& fact, Place& place) {
  using Kind = syntax::Fact::Kind;
  Failing failing;
  // Only the first size's words are shown; the sizes are united.
  const auto fail = [&](std::size_t i, std::string label) {
    if (!failing.sizes) failing.label = std::move(label);
    failing.sizes |= size_bit(i);
  };
  switch (fact.kind) {
    case Kind::carriage_side:
      failing.side = true;
      for (std::size_t i = 0; i < sizes_; ++i) {
        if (!has_size(place.active, i)) continue;
        const auto is = benches_[i].carriage();
        const runtime::Side wanted = fact.side == syntax::Side::left ? runtime::Side::left : runtime::Side::right;
        if (is && *is != wanted) fail(i, std::string("it is on the ") + side_word(benches_[i].seen(*is)) + " after RC " + std::to_string(benches_[i].machine().counter()));
      }
      return failing;
    case Kind::carriage_beside: {
      failing.side = true;
      Place at = place;
      const auto chosen = fact.needles ? needles(*fact.needles, at, Among::working) : std::nullopt;
      if (!chosen) return failing;
      for (std::size_t i = 0; i < sizes_; ++i) {
        if (!has_size(at.active, i)) continue;
        const auto& pair = selections_[chosen->id].needles[i];
        const runtime::Bed bed = pair[0].empty() ? runtime::Bed::second : runtime::Bed::main;
        const NeedleSet& part = pair[static_cast<std::size_t>(bed)];
        const NeedleSet others = (benches_[i].carrying(bed)) - part;
        const auto is = benches_[i].carriage();
        if (!is || part.empty()) continue;
        // Beside a set: nothing else that carries lies between its outer end and the carriage.
        const bool beside = *is == runtime::Side::left ? others.empty() || others.first() > part.first() : others.empty() || others.last() < part.last();
        if (!beside) {
          const int outer = *is == runtime::Side::left ? benches_[i].carrying(bed).first() : benches_[i].carrying(bed).last();
          fail(i, std::string("carriage ") + side_word(benches_[i].seen(*is)) + ": the yarn hangs at " + runtime::needle_name(benches_[i].spec(), benches_[i].seen(outer)) +
                      ", the needles begin at " + runtime::needle_name(benches_[i].spec(), benches_[i].seen(*is == runtime::Side::left ? part.first() : part.last())));
        }
      }
      return failing;
    }
    case Kind::nothing_held:
      for (std::size_t i = 0; i < sizes_; ++i) {
        if (!has_size(place.active, i)) continue;
        const int held = benches_[i].held(runtime::Bed::main).count() + benches_[i].held(runtime::Bed::second).count();
        if (held) fail(i, std::to_string(held) + (held == 1 ? " needle is held" : " needles are held"));
      }
      return failing;
    case Kind::row: {
      if (!fact.amount) return failing;
      const Counts wanted = evaluator_.whole(*fact.amount, values::dimensions::rows, *place.frame, place.active);
      for (std::size_t i = 0; i < sizes_; ++i)
        if (has_size(place.active, i) && wanted[i] && *wanted[i] != benches_[i].machine().counter())
          fail(i, "RC " + std::to_string(benches_[i].machine().counter()) + " here, " + std::to_string(*wanted[i]) + " expected");
      return failing;
    }
    case Kind::in_work:
    case Kind::held:
    case Kind::empty:
    case Kind::side_by_side: {
      Place at = place;
      const auto chosen = fact.needles ? needles(*fact.needles, at, Among::working) : std::nullopt;
      if (!chosen) return failing;
      for (std::size_t i = 0; i < sizes_; ++i) {
        if (!has_size(at.active, i)) continue;
        for (const runtime::Bed bed : {runtime::Bed::main, runtime::Bed::second}) {
          const NeedleSet& set = selections_[chosen->id].needles[i][static_cast<std::size_t>(bed)];
          NeedleSet wrong;
          switch (fact.kind) {
            case Kind::in_work: wrong = set - benches_[i].in_work(bed); break;
            case Kind::held: wrong = set - benches_[i].held(bed); break;
            case Kind::empty: wrong = set & benches_[i].carrying(bed); break;
            default:
              if (!set.side_by_side()) wrong = NeedleSet::range(set.first(), set.last()) - set;
          }
          if (wrong.empty()) continue;
          const std::string first = runtime::needle_name(benches_[i].spec(), benches_[i].seen(wrong.first()));
          const char* what = fact.kind == Kind::in_work ? " not in work" : fact.kind == Kind::held ? " not held" : fact.kind == Kind::empty ? " with loops" : " lying between them";
          fail(i, std::to_string(wrong.count()) + (wrong.count() == 1 ? " needle" : " needles") + what + ", " + first + (wrong.count() == 1 ? "" : " the first"));
        }
      }
      return failing;
    }
    case Kind::count: {
      failing.counts = true;
      if (!fact.amount) return failing;
      const Counts wanted = evaluator_.whole(*fact.amount, values::dimensions::sts, *place.frame, place.active);
      for (std::size_t i = 0; i < sizes_; ++i) {
        if (!has_size(place.active, i) || !wanted[i]) continue;
        std::int64_t there = 0;
        for (const runtime::Bed bed : {runtime::Bed::main, runtime::Bed::second}) {
          if (fact.bed && *fact.bed != syntax::Bed::both && (*fact.bed == syntax::Bed::main) != (bed == runtime::Bed::main)) continue;
          const Bench& bench = benches_[i];
          there += (bench.carrying(bed) & (fact.counts_held ? bench.held(bed) : bench.in_work(bed))).count();
        }
        if (there != *wanted[i]) fail(i, std::to_string(there) + " here, " + std::to_string(*wanted[i]) + " expected");
      }
      return failing;
    }
    case Kind::rows_knitted: {
      if (!fact.amount || entry_passes_.empty()) return failing;
      const Counts wanted = evaluator_.whole(*fact.amount, values::dimensions::rows, *place.frame, place.active);
      for (std::size_t i = 0; i < sizes_; ++i) {
        if (!has_size(place.active, i) || !wanted[i]) continue;
        const std::int64_t knitted = benches_[i].machine().passes() - entry_passes_.back()[i];
        if (knitted != *wanted[i]) fail(i, std::to_string(knitted) + " rows knitted, " + std::to_string(*wanted[i]) + " expected");
      }
      return failing;
    }
    case Kind::edge_rows: {
      if (!fact.amount) return failing;
      const Counts wanted = evaluator_.whole(*fact.amount, values::dimensions::rows, *place.frame, place.active);
      for (std::size_t i = 0; i < sizes_; ++i) {
        if (!has_size(place.active, i) || !wanted[i]) continue;
        std::int64_t there = 0;
        const Part part = benches_[i].find({fact.side == syntax::Side::left ? "left" : "right"});
        for (const runtime::EdgeId edge : part.edges)
          there += benches_[i].fabric().edge(benches_[i].mirrored() ? benches_[i].fabric().mirrored_edge(edge) : edge).rows;
        if (there != *wanted[i]) fail(i, std::to_string(there) + " rows here, " + std::to_string(*wanted[i]) + " expected");
      }
      return failing;
    }
    case Kind::condition: {
      if (!fact.amount) return failing;
      const auto yes = evaluator_.condition(*fact.amount, *place.frame, place.active);
      for (std::size_t i = 0; i < sizes_; ++i)
        if (has_size(place.active, i) && yes[i] && !*yes[i]) {
          const std::vector<std::string> parts = evaluator_.parts(*fact.amount, *place.frame, i);
          std::string label;
          for (const std::string& part : parts) label += (label.empty() ? "" : ", ") + part;
          fail(i, label.empty() ? "it does not hold" : label);
        }
      return failing;
    }
  }
  return failing;
}

void Knitter::expect(const syntax::Expect& written, text::Span where, Place& place, std::vector<Step>& out) {
  Step step;
  step.kind = Step::Kind::expect;
  step.where = where;
  step.sizes = place.active;
  step.records.resize(sizes_);
  for (std::size_t i = 0; i < sizes_; ++i)
    if (has_size(place.active, i)) step.records[i].before = step.records[i].after = benches_[i].state();
  for (const syntax::Fact& fact : written.facts) {
    step.expects_stitches |= fact.kind == syntax::Fact::Kind::count;
    step.expects_carriage |= fact.kind == syntax::Fact::Kind::carriage_side || fact.kind == syntax::Fact::Kind::carriage_beside;
    step.expects_row |= fact.kind == syntax::Fact::Kind::row;
    Failing failing = check(fact, place);
    // What only follows from something reported stays quiet.
    for (std::size_t i = 0; i < sizes_; ++i)
      if ((failing.counts && benches_[i].doubtful_counts) || (failing.side && benches_[i].doubtful_side)) failing.sizes &= ~size_bit(i);
    if (!failing.sizes) continue;
    const auto first = static_cast<std::size_t>(std::countr_zero(failing.sizes));
    const runtime::Tag here = tag(fact.span);
    const text::Span mend = sites_[here].mend;
    const bool library = sites_.in_library(fact.span.file);
    const auto finish = [&](findings::Builder builder) {
      builder.label("{}", failing.label).at(edition_, failing.sizes).mirrored(benches_[first].mirrored());
      builder.row(static_cast<std::uint32_t>(benches_[first].machine().counter()));
      if (library && !(mend == fact.span)) builder.label(fact.span, "expected here in the library");
      if (fact.amount && fact.kind != syntax::Fact::Kind::condition)
        for (const std::string& part : evaluator_.parts(*fact.amount, *place.frame, first)) builder.note("{}", part);
      if (failing.side && fact.kind == syntax::Fact::Kind::carriage_side)
        builder.help("one row more or less before this brings it here: `rounded to even` where rows are worked out keeps the side in every size; "
                     "or the cast-on began it on the other side, `carriage {}`", fact.side == syntax::Side::left ? "left" : "right");
    };
    switch (fact.kind) {
      case syntax::Fact::Kind::count: finish(findings_.report<Code::C07>(mend)); break;
      case syntax::Fact::Kind::carriage_side:
      case syntax::Fact::Kind::carriage_beside: finish(findings_.report<Code::Y19>(mend)); break;
      case syntax::Fact::Kind::row: finish(findings_.report<Code::Y20>(mend)); break;
      default: finish(findings_.report<Code::C37>(mend)); break;
    }
    for (std::size_t i = 0; i < sizes_; ++i)
      if (has_size(failing.sizes, i)) {
        benches_[i].doubtful_counts |= failing.counts;
        benches_[i].doubtful_side |= failing.side;
      }
  }
  out.push_back(std::move(step));
}

void Knitter::contracts(const syntax::Technique& technique, bool leaves, text::Span call, Place& place) {
  for (const syntax::Contract& contract : technique.contracts) {
    if (contract.leaves != leaves) continue;
    for (const syntax::Fact& fact : contract.facts) {
      if (!place.active) return;
      Failing failing = check(fact, place);
      for (std::size_t i = 0; i < sizes_; ++i)
        if (benches_[i].doubtful_counts || benches_[i].doubtful_side) failing.sizes &= ~size_bit(i);
      if (!failing.sizes) continue;
      const auto first = static_cast<std::size_t>(std::countr_zero(failing.sizes));
      auto builder = findings_.report<Code::C38>(sites_.in_library(call.file) ? sites_[tag(call)].mend : call, technique.name.text);
      std::string message;
      if (contract.message) message = evaluator_.text(*contract.message, *place.frame, size_bit(first))[first];
      if (message.empty()) builder.label("{}", failing.label);
      else builder.label("{}", message).note("{}", failing.label);
      builder.label(fact.span, "{}", leaves ? "the technique leaves this behind it" : "the technique needs this").at(edition_, failing.sizes)
          .mirrored(benches_[first].mirrored()).row(static_cast<std::uint32_t>(benches_[first].machine().counter()));
      for (std::size_t i = 0; i < sizes_; ++i)
        if (has_size(failing.sizes, i)) benches_[i].lost = true;   // the technique would only fail in its own words
      place.active = living(place.active);
    }
  }
}

}  // namespace stk::knit
