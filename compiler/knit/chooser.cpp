// One selector worked out, from the outside in: `last of each 3 of (all except 2 on right)`.
#include "compiler/knit/chooser.hpp"

#include <algorithm>

#include "compiler/findings/suggest.hpp"
#include "compiler/values/format.hpp"

namespace stk::knit {

using findings::Code;
using grade::Frame;
using grade::has_size;
using grade::size_bit;
using grade::SizeSet;
using runtime::NeedleSet;
using Sets = std::vector<std::array<NeedleSet, 2>>;

// One selector being worked out: a domain per size, narrowed from the outside in.
class Chooser {
 public:
  Chooser(Selections& owner, const Frame& frame, Among among, SizeSet& active, bool if_any)
      : owner_(owner), frame_(frame), among_(among), active_(active), sizes_(owner.benches_.size()), optional_(if_any) {}

  // The needles the verb asks for, on both beds.
  Sets domain() const {
    Sets sets(sizes_);
    for (std::size_t i = 0; i < sizes_; ++i) {
      if (!has_size(active_, i)) continue;
      const Bench& bench = *owner_.benches_[i];
      if (!bench.knitting()) continue;
      for (const runtime::Bed bed : {runtime::Bed::main, runtime::Bed::second}) {
        NeedleSet& set = sets[i][static_cast<std::size_t>(bed)];
        switch (among_) {
          case Among::working: set = bench.in_work(bed); break;
          case Among::resting:   // a bed at rest has no turn, so nothing to wrap beside one
            if (!bench.rests(bed) || whole_beds_) set = bench.held(bed);
            break;
          case Among::waiting: set = bench.in_work(bed) - bench.carrying(bed); break;
          case Among::idle: {
            const NeedleSet work = bench.in_work(bed) | bench.held(bed);
            if (!work.empty()) set = NeedleSet::range(work.first(), work.last()) - work;
            break;
          }
        }
      }
    }
    return sets;
  }

  // The same where a whole bed, or all, is named by itself: then a bed at rest is among what is held.
  Sets widest(const Sets& within) {
    whole_beds_ = &within == widest_;
    Sets sets = domain();
    whole_beds_ = false;
    return sets;
  }

  // On the main bed only, unless the main bed carries nothing: "on the main bed unless a bed is named".
  static Sets main_bed(Sets sets) {
    for (auto& pair : sets)
      if (!pair[0].empty()) pair[1] = NeedleSet();
    return sets;
  }

  Chosen run_widest(const syntax::Expr& expr) {
    const Sets within = main_bed(domain());
    widest_ = &within;
    return run(expr, within);
  }

  Chosen run(const syntax::Expr& expr, const Sets& within) {
    Chosen chosen;
    chosen.needles.resize(sizes_);
    std::visit([&](const auto& node) { apply(expr, node, within, chosen); }, expr.node);
    for (std::size_t i = 0; i < sizes_; ++i) {
      const auto& pair = chosen.needles[i];
      chosen.shape.needles.push_back(pair[0].empty() ? owner_.benches_[i]->span(pair[1], runtime::Bed::second) : owner_.benches_[i]->span(pair[0]));
    }
    return chosen;
  }

 private:
  using Where = Selection::Where;

  std::vector<std::int64_t> count_of(const syntax::ExprPtr& expr) {
    std::vector<std::int64_t> result(sizes_, 1);
    if (!expr) return result;
    grade::Graded value = owner_.evaluator_->evaluate(*expr, frame_, active_);
    SizeSet wrong = 0;
    for (std::size_t i = 0; i < sizes_; ++i) {
      if (!has_size(active_, i)) continue;
      if (value.poisoned(i)) {
        active_ &= ~size_bit(i);
        continue;
      }
      const values::Quantity* q = value.quantity(i);
      const auto whole = q && (q->dimension.is_plain() || q->dimension == values::dimensions::sts) ? q->value.as_int64() : std::nullopt;
      if (whole && *whole >= 0) result[i] = *whole;
      else wrong |= size_bit(i);
    }
    if (wrong) {
      const auto first = static_cast<std::size_t>(std::countr_zero(wrong));
      owner_.findings_.report<Code::V05>(expr->span, "a whole number of needles").label("this comes to {}", grade::text_of(value[first]))
          .at(owner_.edition_, wrong);
      active_ &= ~wrong;
    }
    return result;
  }

  template <class Pick>
  void each(const Sets& within, Chosen& chosen, Pick pick) {
    for (std::size_t i = 0; i < sizes_; ++i) {
      if (!has_size(active_, i)) continue;
      for (std::size_t bed = 0; bed < 2; ++bed) chosen.needles[i][bed] = pick(within[i][bed], i);
    }
  }
  static std::vector<int> list(const NeedleSet& set) {
    std::vector<int> result;
    for (int needle : set) result.push_back(needle);
    return result;
  }

  // ------------------------------------------------------------------------------------------------ the forms
  void apply(const syntax::Expr&, const syntax::BedSelector& s, const Sets& within, Chosen& chosen) {
    chosen.shape.kind = Selection::Kind::bed;
    chosen.shape.bed = s.bed == syntax::Bed::second ? knit::Bed::second : knit::Bed::main;
    chosen.shape.both_beds = s.bed == syntax::Bed::both;
    const Sets both = widest(within);   // a named bed is asked in full, not the default bed alone
    for (std::size_t i = 0; i < sizes_; ++i) {
      if (s.bed != syntax::Bed::second) chosen.needles[i][0] = both[i][0];
      if (s.bed != syntax::Bed::main) chosen.needles[i][1] = both[i][1];
      // `move second bed to main bed`: one that rests is taken as it hangs.
      const runtime::Bed bed = s.bed == syntax::Bed::main ? runtime::Bed::main : runtime::Bed::second;
      const Bench& bench = *owner_.benches_[i];
      if (among_ == Among::working && s.bed != syntax::Bed::both && has_size(active_, i) && bench.knitting() && bench.rests(bed))
        chosen.needles[i][static_cast<std::size_t>(bed)] = bench.held(bed);
    }
  }
  void apply(const syntax::Expr& expr, const syntax::HalfSelector& s, const Sets& within, Chosen& chosen) {
    chosen.shape.kind = Selection::Kind::half;
    chosen.shape.where = s.side == syntax::Side::left ? Where::left : Where::right;
    SizeSet odd = 0;
    each(within, chosen, [&](const NeedleSet& set, std::size_t i) {
      const std::vector<int> needles = list(set);
      if (needles.size() % 2) odd |= size_bit(i);
      NeedleSet half;
      for (std::size_t n = 0; n < needles.size() / 2; ++n)
        half.insert(s.side == syntax::Side::left ? needles[n] : needles[needles.size() - 1 - n]);
      return half;
    });
    if (odd) {
      const auto first = static_cast<std::size_t>(std::countr_zero(odd));
      owner_.findings_.report<Code::C01>(expr.span).label("{} needles are in work here", within[first][0].count())
          .help("an even number of stitches halves: `rounded to even` where it is worked out").at(owner_.edition_, odd);
      active_ &= ~odd;
    }
  }
  void apply(const syntax::Expr& expr, const syntax::MiddleSelector& s, const Sets& within, Chosen& chosen) {
    chosen.shape.kind = Selection::Kind::middle;
    chosen.shape.count = count_of(s.count);
    SizeSet uneven = 0, few = 0;
    each(within, chosen, [&](const NeedleSet& set, std::size_t i) {
      const std::vector<int> needles = list(set);
      const auto n = static_cast<std::size_t>(chosen.shape.count[i]);
      NeedleSet middle;
      if (needles.empty()) return middle;
      if (n > needles.size()) few |= size_bit(i);
      else if ((needles.size() - n) % 2) uneven |= size_bit(i);
      else for (std::size_t k = 0; k < n; ++k) middle.insert(needles[(needles.size() - n) / 2 + k]);
      return middle;
    });
    if (uneven) {
      const auto first = static_cast<std::size_t>(std::countr_zero(uneven));
      owner_.findings_.report<Code::C02>(expr.span).label("{} of {} needles: one side would have one more", chosen.shape.count[first], within[first][0].count())
          .help("both even or both odd have a middle: `rounded to parity of …` where it is worked out").at(owner_.edition_, uneven);
    }
    too_few(expr, few, within, chosen);
    active_ &= ~(uneven | few);
  }
  void too_few(const syntax::Expr& expr, SizeSet few, const Sets& within, const Chosen& chosen) {
    if (!few) return;
    const auto first = static_cast<std::size_t>(std::countr_zero(few));
    const char* const where = among_ == Among::working ? "in work" : among_ == Among::resting ? "held" : among_ == Among::waiting ? "empty" : "out of work";
    const auto asked = chosen.shape.count[first];
    auto builder = owner_.findings_.report<Code::C03>(expr.span);
    // Of held ones only those beside the work count, so their number says little.
    if (among_ == Among::working) builder.label("{} asked, {} {} here", asked, within[first][0].count() + within[first][1].count(), where);
    else if (asked == 1) builder.label("none {} on this side", where);
    else builder.label("fewer than {} {} on this side", asked, where);
    builder.at(owner_.edition_, few);
    if (among_ == Among::resting) builder.help("`wrap …, if any` where there may be none; if there should be one, nothing was held there, or the carriage is on the other side than meant");
  }
  void apply(const syntax::Expr& expr, const syntax::OnSideSelector& s, const Sets& within, Chosen& chosen) {
    chosen.shape.kind = Selection::Kind::on_side;
    chosen.shape.count = count_of(s.count);
    switch (s.side) {
      case syntax::Side::left: chosen.shape.where = Where::left; break;
      case syntax::Side::right: chosen.shape.where = Where::right; break;
      case syntax::Side::each: chosen.shape.where = Where::each; break;
      case syntax::Side::carriage: chosen.shape.where = Where::carriage; break;
      case syntax::Side::far: chosen.shape.where = Where::far; break;
    }
    SizeSet few = 0, lost_side = 0;
    each(within, chosen, [&](const NeedleSet& set, std::size_t i) {
      NeedleSet result;
      // One bed has none of them: they are looked for on the other.
      if (set.empty() && !(within[i][0].empty() && within[i][1].empty())) return result;
      bool left = s.side == syntax::Side::left || s.side == syntax::Side::each;
      bool right = s.side == syntax::Side::right || s.side == syntax::Side::each;
      if (s.side == syntax::Side::carriage || s.side == syntax::Side::far) {
        const auto carriage = owner_.benches_[i]->carriage();
        if (!carriage) {
          lost_side |= size_bit(i);
          return result;
        }
        ((*carriage == runtime::Side::left) == (s.side == syntax::Side::carriage) ? left : right) = true;
      }
      const auto n = static_cast<std::size_t>(chosen.shape.count[i]);
      for (const bool from_left : {true, false}) {
        if (!(from_left ? left : right)) continue;
        std::vector<int> needles = on_that_side(set, i, from_left);
        if (needles.size() < n) {
          if (!optional_) few |= size_bit(i);
          continue;
        }
        for (std::size_t k = 0; k < n; ++k) result.insert(needles[k]);
      }
      return result;
    });
    too_few(expr, few, within, chosen);
    active_ &= ~(few | lost_side);
  }
  // Candidates on one side, in the order in which they are taken: from the edge inwards among needles in work; from the
  // work outwards among held ones and those out of work.
  std::vector<int> on_that_side(const NeedleSet& set, std::size_t i, bool left) const {
    std::vector<int> needles = list(set);
    if (among_ == Among::working || among_ == Among::waiting) {
      if (!left) std::reverse(needles.begin(), needles.end());
      return needles;
    }
    const Bench& bench = *owner_.benches_[i];
    NeedleSet work = bench.in_work(runtime::Bed::main) & bench.carrying(runtime::Bed::main);
    if (!set.empty() && work.empty()) work = bench.in_work(runtime::Bed::second);
    if (work.empty()) {
      if (!left) std::reverse(needles.begin(), needles.end());
      return needles;
    }
    std::vector<int> result;
    if (left) {
      for (auto n = needles.rbegin(); n != needles.rend(); ++n)
        if (*n < work.first()) result.push_back(*n);
    } else {
      for (int n : needles)
        if (n > work.last()) result.push_back(n);
    }
    return result;
  }
  void apply(const syntax::Expr& expr, const syntax::OfEachSelector& s, const Sets& within, Chosen& chosen) {
    using W = syntax::OfEachSelector::Which;
    chosen.shape.kind = Selection::Kind::of_each;
    chosen.shape.where = s.which == W::first ? Where::first : s.which == W::middle ? Where::middle : Where::last;
    chosen.shape.count = count_of(s.count);
    chosen.shape.group = count_of(s.group);
    SizeSet uneven = 0, too_many = 0, off_middle = 0;
    each(within, chosen, [&](const NeedleSet& set, std::size_t i) {
      NeedleSet result;
      const std::vector<int> needles = list(set);
      const std::int64_t group = chosen.shape.group[i], count = chosen.shape.count[i];
      if (group < 1 || count > group) {
        too_many |= size_bit(i);
        return result;
      }
      if (static_cast<std::int64_t>(needles.size()) % group) {
        uneven |= size_bit(i);
        return result;
      }
      if (s.which == W::middle && (group - count) % 2) {
        off_middle |= size_bit(i);
        // The middle of an even group lies between two needles: the left one of them is meant when one is asked of four.
        if (count != 1) return result;
        off_middle &= ~size_bit(i);
      }
      const std::int64_t skip = s.which == W::first ? 0 : s.which == W::last ? group - count : (group - count) / 2;
      for (std::size_t n = 0; n < needles.size(); ++n) {
        const std::int64_t place = static_cast<std::int64_t>(n) % group;
        if (place >= skip && place < skip + count) result.insert(needles[n]);
      }
      return result;
    });
    if (uneven) report_uneven(expr, uneven, within, chosen);
    if (off_middle) {
      const auto first = static_cast<std::size_t>(std::countr_zero(off_middle));
      owner_.findings_.report<Code::C02>(expr.span).label("the middle {} of {}: one side would have one more", chosen.shape.count[first], chosen.shape.group[first])
          .help("both even or both odd have a middle").at(owner_.edition_, off_middle);
    }
    if (too_many) {
      const auto first = static_cast<std::size_t>(std::countr_zero(too_many));
      owner_.findings_.report<Code::C03>(expr.span).label("{} asked of each {}", chosen.shape.count[first], chosen.shape.group[first])
          .at(owner_.edition_, too_many);
    }
    active_ &= ~(uneven | too_many | off_middle);
  }
  void report_uneven(const syntax::Expr& expr, SizeSet uneven, const Sets& within, const Chosen& chosen) {
    // A wrong count before this would be the cause, and was reported then.
    SizeSet fresh = 0;
    for (std::size_t i = 0; i < sizes_; ++i)
      if (has_size(uneven, i) && !owner_.benches_[i]->doubtful_counts) fresh |= size_bit(i);
    if (!fresh) return;
    const auto first = static_cast<std::size_t>(std::countr_zero(fresh));
    const std::int64_t n = within[first][0].count() + within[first][1].count(), group = chosen.shape.group[first];
    auto builder = owner_.findings_.report<Code::C04>(expr.span, group);
    builder.label("{} needles are in work here: {} groups and {} over", n, n / group, n % group).at(owner_.edition_, fresh)
        .row(static_cast<std::uint32_t>(owner_.benches_[first]->machine().counter()));
    std::string counts;
    for (std::size_t i = 0; i < sizes_; ++i)
      if (has_size(fresh, i)) counts += (counts.empty() ? "" : ", ") + std::to_string(within[i][0].count() + within[i][1].count());
    if (std::popcount(fresh) > 1) builder.note("needles in work in these sizes: {}", counts);
    const std::vector<std::int64_t> near = findings::nearest_counts(n, group);
    if (near.size() == 2) builder.help("{} and {} divide by {}: `rounded to multiple of {}` where the count is worked out, or `(all except {} on right)` leaves the rest out", near[0], near[1], group, group, n % group);
    else if (near.size() == 1) builder.help("{} divides by {}: `rounded to multiple of {}` where the count is worked out", near[0], group, group);
  }
  void apply(const syntax::Expr& expr, const syntax::EverySelector& s, const Sets& within, Chosen& chosen) {
    chosen.shape.kind = Selection::Kind::every;
    chosen.shape.group = s.ordinal ? count_of(s.ordinal) : std::vector<std::int64_t>(sizes_, 2);
    SizeSet wrong = 0;
    each(within, chosen, [&](const NeedleSet& set, std::size_t i) {
      NeedleSet result;
      if (chosen.shape.group[i] < 1) {
        wrong |= size_bit(i);
        return result;
      }
      std::int64_t place = 0;
      for (int needle : set)
        if (++place % chosen.shape.group[i] == 0) result.insert(needle);
      return result;
    });
    if (wrong)
      owner_.findings_.report<Code::C03>(expr.span).label("every 0th needle is none").at(owner_.edition_, wrong);
    active_ &= ~wrong;
  }
  void apply(const syntax::Expr& expr, const syntax::NeedleRange& s, const Sets&, Chosen& chosen) {
    chosen.shape.kind = Selection::Kind::range;
    for (std::size_t i = 0; i < sizes_; ++i) {
      if (!has_size(active_, i)) continue;
      const int from = needle_index(owner_.benches_[i]->spec(), s.from);
      const int to = s.to ? needle_index(owner_.benches_[i]->spec(), *s.to) : from;
      if (from < 0 || to < 0) {
        const auto& which = from < 0 ? s.from : *s.to;
        owner_.findings_.report<Code::C05>(which.span).label("the bed has needles L{} to R{}", owner_.benches_[i]->spec().needles / 2,
            (owner_.benches_[i]->spec().needles + 1) / 2).at(owner_.edition_, active_);
        active_ = 0;
        return;
      }
      chosen.needles[i][0] = NeedleSet::range(std::min(from, to), std::max(from, to));
    }
    (void)expr;
  }
  void apply(const syntax::Expr&, const syntax::OfSelector& s, const Sets& within, Chosen& chosen) {
    const Chosen outer = run(*s.within, within);
    Sets narrowed = outer.needles;
    // `1 on far side of sole`: of the set, those that the verb asks for.
    const Sets asked = domain();
    for (std::size_t i = 0; i < sizes_; ++i)
      for (std::size_t bed = 0; bed < 2; ++bed) narrowed[i][bed] &= asked[i][bed];
    Chosen inner = run(*s.selection, narrowed);
    chosen.needles = inner.needles;
    chosen.shape.kind = Selection::Kind::of;
    chosen.shape.parts = {inner.shape, outer.shape};
  }
  void apply(const syntax::Expr&, const syntax::ExceptSelector& s, const Sets& within, Chosen& chosen) {
    const Chosen from = run(*s.from, within);
    const bool before = optional_;
    optional_ = true;   // leaving out 0, or all, is quiet
    const Chosen without = run(*s.without, within);
    optional_ = before;
    for (std::size_t i = 0; i < sizes_; ++i)
      for (std::size_t bed = 0; bed < 2; ++bed) chosen.needles[i][bed] = from.needles[i][bed] - without.needles[i][bed];
    // All but one half, or one bed, has a name of its own.
    using K = Selection::Kind;
    if (from.shape.kind == K::all && without.shape.kind == K::half) {
      chosen.shape.kind = K::half;
      chosen.shape.where = without.shape.where == Where::left ? Where::right : Where::left;
      return;
    }
    if (from.shape.kind == K::all && without.shape.kind == K::bed) {
      chosen.shape.kind = K::bed;
      chosen.shape.bed = without.shape.bed == knit::Bed::main ? knit::Bed::second : knit::Bed::main;
      return;
    }
    chosen.shape.kind = K::except;
    chosen.shape.parts = {from.shape, without.shape};
  }
  void join(const syntax::Expr& left, const syntax::Expr& right, const Sets& within, Chosen& chosen) {
    const Chosen a = run(left, within), b = run(right, within);
    for (std::size_t i = 0; i < sizes_; ++i)
      for (std::size_t bed = 0; bed < 2; ++bed) chosen.needles[i][bed] = a.needles[i][bed] | b.needles[i][bed];
    chosen.shape.kind = Selection::Kind::both;
    chosen.shape.parts = {a.shape, b.shape};
  }
  void apply(const syntax::Expr&, const syntax::UnionSelector& s, const Sets& within, Chosen& chosen) { join(*s.left, *s.right, within, chosen); }
  void apply(const syntax::Expr& expr, const syntax::Binary& b, const Sets& within, Chosen& chosen) {
    if (b.op == syntax::Binary::Op::logical_and) join(*b.left, *b.right, within, chosen);
    else not_needles(expr);
  }
  void apply(const syntax::Expr& expr, const syntax::NameRef& ref, const Sets& within, Chosen& chosen) {
    const std::string name = ref.parts.size() == 1 ? ref.parts.front().text : std::string();
    if (const grade::Binding* binding = frame_.find(name)) {
      bool all_poison = true;
      for (std::size_t i = 0; i < sizes_; ++i) {
        if (binding->value.poisoned(i)) active_ &= ~size_bit(i);
        else all_poison = false;
      }
      if (all_poison) return;
      if (const auto id = binding->value.needles()) {
        const Chosen& known = owner_[*id];
        chosen.needles = known.needles;
        chosen.shape = known.shape;
        chosen.shape.needles.clear();
        return;
      }
      not_needles(expr);
      return;
    }
    if (name == "all") {
      // All of both beds, unless it stands inside something narrower.
      chosen.shape.kind = Selection::Kind::all;
      chosen.needles = &within == widest_ ? widest(within) : within;
      return;
    }
    if (name == "held" || name == "empties") {
      chosen.shape.kind = name == "held" ? Selection::Kind::held : Selection::Kind::empties;
      const Among before = among_;
      among_ = name == "held" ? Among::resting : before == Among::working ? Among::waiting : before;
      whole_beds_ = true;
      chosen.needles = domain();
      whole_beds_ = false;
      among_ = before;
      return;
    }
    not_needles(expr);
  }
  template <class Node>
  void apply(const syntax::Expr& expr, const Node&, const Sets&, Chosen&) {
    if constexpr (std::is_same_v<Node, syntax::Invalid>) active_ = 0;
    else not_needles(expr);
  }
  void not_needles(const syntax::Expr& expr) {
    const grade::Graded value = owner_.evaluator_->evaluate(expr, frame_, active_);
    for (std::size_t i = 0; i < sizes_; ++i)
      if (has_size(active_, i) && !value.poisoned(i)) {
        auto builder = owner_.findings_.report<Code::V06>(expr.span, "a choice of needles");
        builder.label("this is {}", grade::describe(value[i])).at(owner_.edition_, active_);
        if (value.quantity(i)) builder.help("`all`, `2 on right`, `last of each 3`, `L12 to R5` … name needles");
        break;
      }
    active_ = 0;
  }

  Selections& owner_;
  const Frame& frame_;
  Among among_;
  SizeSet& active_;
  std::size_t sizes_;
  const Sets* widest_ = nullptr;
  bool whole_beds_ = false;
  bool optional_;   // may come to fewer than asked, quietly
};

Chosen chosen_needles(Selections& owner, const syntax::Expr& selector, const Frame& frame, Among among, SizeSet& active,
                      bool if_any) {
  return Chooser(owner, frame, among, active, if_any).run_widest(selector);
}

}  // namespace stk::knit
