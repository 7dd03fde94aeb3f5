#include "compiler/knit/selections.hpp"

#include <algorithm>

#include "compiler/knit/chooser.hpp"

namespace stk::knit {

using grade::Frame;
using grade::has_size;
using grade::NeedlesId;
using grade::SizeSet;
using runtime::NeedleSet;

int needle_index(const runtime::MachineSpec& spec, const syntax::NeedleRange::Needle& needle) {
  if (needle.digits.size() > 4) return -1;
  int number = 0;
  for (char c : needle.digits) number = number * 10 + (c - '0');
  return runtime::needle_index(spec, needle.side == 'L' ? runtime::Side::left : runtime::Side::right, number);
}

std::optional<NeedlesId> Selections::choose(const syntax::Expr& selector, const Frame& frame, Among among, SizeSet& active,
                                           bool if_any) {
  Chosen chosen = chosen_needles(*this, selector, frame, among, active, if_any);
  if (!active) return std::nullopt;
  return keep(std::move(chosen));
}

NeedlesId Selections::keep(Chosen chosen) {
  table_.push_back(std::move(chosen));
  return NeedlesId{static_cast<std::uint32_t>(table_.size() - 1)};
}

NeedlesId Selections::named(NeedlesId id, const std::string& name) {
  Chosen copy = table_[id.value];
  copy.shape.name = name;
  return keep(std::move(copy));
}

NeedlesId Selections::centred(const std::vector<std::optional<std::int64_t>>& counts, SizeSet active) {
  Chosen chosen;
  chosen.needles.resize(benches_.size());
  chosen.shape.kind = Selection::Kind::span;
  chosen.shape.count.resize(benches_.size());
  for (std::size_t i = 0; i < benches_.size(); ++i) {
    chosen.shape.needles.push_back({});
    if (!has_size(active, i) || !counts[i]) continue;
    chosen.shape.count[i] = *counts[i];
    const int centre = runtime::needles_left_of_centre(benches_[i]->spec());
    const int n = static_cast<int>(std::min<std::int64_t>(*counts[i], runtime::needle_limit));
    if (n > 0) chosen.needles[i][0] = NeedleSet::range(centre - n / 2, centre - n / 2 + n - 1);
    chosen.shape.needles.back() = benches_[i]->span(chosen.needles[i][0]);
  }
  return keep(std::move(chosen));
}

grade::Graded Selections::select(const syntax::Expr& selector, const Frame& frame, SizeSet active) {
  SizeSet good = active;
  const auto id = choose(selector, frame, Among::working, good);
  grade::Graded result(benches_.size());
  if (id)
    for (std::size_t i = 0; i < benches_.size(); ++i)
      if (has_size(good, i)) result[i] = *id;
  return result;
}

grade::Graded Selections::count(NeedlesId needles, SizeSet active) {
  grade::Graded result(benches_.size());
  for (std::size_t i = 0; i < benches_.size(); ++i)
    if (has_size(active, i))
      result[i] = values::Quantity{values::Rational(table_[needles.value].needles[i][0].count() + table_[needles.value].needles[i][1].count()), values::dimensions::sts};
  return result;
}

std::string Selections::phrase(NeedlesId needles, std::size_t size) {
  const Selection& s = table_[needles.value].shape;
  (void)size;
  switch (s.kind) {
    case Selection::Kind::half: return s.where == Selection::Where::left ? "the left half" : "the right half";
    case Selection::Kind::all: return "all needles";
    case Selection::Kind::bed: return s.bed == knit::Bed::main ? "the main bed" : "the second bed";
    default: return s.name.empty() ? "these needles" : "the " + s.name + " needles";
  }
}

}  // namespace stk::knit
