// What only two beds can do wrong: needles that meet, layers that join, sides left open, corners.
#include <algorithm>
#include <cstdlib>

#include "runtime/machine_knitting.hpp"

namespace stk::runtime {

// Rounds need two layers. Loops of both beds made by one pass are one layer, joined from bed to bed all along, unless
// it was the zigzag, which is the closed edge that the layers rise from.
void Machine::begin_rounds(Knitting& knitting) {
  for (const Bed bed : {Bed::main, Bed::second}) {
    if (rests(bed)) raise(knitting.outcome, FaultKind::bed_rests_in_round, bed);
  }
  if (carrying(Bed::main).empty() || carrying(Bed::second).empty()) return;
  const std::array<int, 2> tensions{bed_of(Bed::main).tension, bed_of(Bed::second).tension};
  if (tensions[0] != tensions[1] && tensions_told_ != tensions) {
    Fault& fault = raise(knitting.outcome, FaultKind::beds_at_two_tensions, Bed::main, {}, tensions_set_);
    fault.a = tensions[0];
    fault.b = tensions[1];
    tensions_told_ = tensions;
  }
  if (after_zigzag_) return;
  BedState& second = bed_of(Bed::second);
  if (second.last_pass >= 0 && second.last_pass == bed_of(Bed::main).last_pass) {
    raise(knitting.outcome, FaultKind::tube_shut_below);
    second.last_pass = -1;
    quiet_ends_ = true;   // what was set for a rib need not suit a tube
  }
  check_ends(knitting.outcome);
}

// At each end the yarn passes from bed to bed. Where one bed reaches farther out than the other it lies slack or tight
// there in every round, and the layers are a parallelogram. One needle is an odd stitch, or shaping half done.
void Machine::check_ends(Outcome& outcome) {
  if (zigzag_at_ >= 0) return;
  constexpr int needles_apart = 1;
  const NeedleSet &main = carrying(Bed::main), &second = carrying(Bed::second);
  const int left = std::abs(main.first() - second.first()), right = std::abs(main.last() - second.last());
  const bool apart = std::max(left, right) > needles_apart;
  if (apart && !quiet_ends_) {
    const bool on_left = left >= right;
    const int end = on_left ? main.first() : main.last();
    Fault& fault = raise(outcome, FaultKind::tube_ends_apart, Bed::main, NeedleSet::one(end));
    fault.a = on_left ? 0 : 1;
    fault.b = on_left ? second.first() : second.last();
  }
  quiet_ends_ = apart;
}

// The zigzag holds the layers together below. A rib's edge wants a round or two above it and then rows; a tube that goes
// on in rounds is a pouch: a toe, perhaps, and never a cuff.
void Machine::check_zigzag(Outcome& outcome) {
  constexpr std::int64_t passes_of_an_edge = 6;
  if (zigzag_at_ < 0 || passes_ - zigzag_at_ <= passes_of_an_edge) return;
  raise(outcome, FaultKind::tube_shut_by_zigzag, Bed::main, {}, cast_on_tag_);
  zigzag_at_ = -1;
  tube_ = true;
}

void Machine::check_two_beds(Knitting& knitting, const std::array<NeedleSet, 2>& worked) {
  if (spec_.beds < 2) return;
  Outcome& outcome = knitting.outcome;
  const bool meet = pitch_ == Pitch::full && !rests(Bed::main) && !rests(Bed::second);
  const NeedleSet facing = meet ? in_work(Bed::main) & in_work(Bed::second) : NeedleSet{};
  if (!facing.empty() && !quiet_opposed_) raise(outcome, FaultKind::opposed_at_full_pitch, Bed::main, facing);
  quiet_opposed_ = !facing.empty();
  if (knitting.mode == KnitMode::rows) {
    if (!tube_ || worked[0].empty() || worked[1].empty()) return;
    raise(outcome, FaultKind::layers_joined);
    tube_ = false;
    corners_ = {};
    return;
  }
  for (const Bed bed : {Bed::main, Bed::second}) {
    const NeedleSet& needles = worked[static_cast<std::size_t>(bed)];
    if (needles.empty() || carrying(bed).empty() || knitting.side_open[static_cast<std::size_t>(bed)]) continue;
    NeedleSet ends = NeedleSet::one(carrying(bed).first());
    ends.insert(carrying(bed).last());
    if ((ends - needles).empty()) continue;
    knitting.side_open[static_cast<std::size_t>(bed)] = true;
    raise_by_cause(outcome, FaultKind::tube_side_open, bed, ends - needles);
  }
}

// A turn at the end of one bed of a tube does not pass to the other bed: a gap, unless a loop is lifted over it before
// the rounds go on.
void Machine::check_corners(Knitting& knitting, const std::array<NeedleSet, 2>& worked, Side from) {
  if (!tube_) return;
  const Bed bed = worked[0].empty() ? Bed::second : Bed::main;
  Corner& corner = corners_[static_cast<std::size_t>(from)];
  if (corner.at_end && corner_bed_ == bed) corner.turned = true;
  for (Corner& at : corners_) at.at_end = false;
  auto& [left, right] = corners_;
  if (knitting.mode != KnitMode::rounds || (!left.turned && !right.turned)) return;
  raise(knitting.outcome, FaultKind::corner_gap, corner_bed_, {}, left.turned ? left.tag : right.tag).a =
      !right.turned ? 0 : !left.turned ? 1 : 2;
  for (Corner& at : corners_) {
    if (at.turned) at = {};
  }
}

void Machine::note_corner(Side side, const Outcome& outcome) {
  if (!tube_) return;
  const NeedleSet& layer = carrying(outcome.last_bed);
  if (outcome.last_needle != (side == Side::left ? layer.first() : layer.last())) return;
  Corner& corner = corners_[static_cast<std::size_t>(side)];
  corner.at_end = true;
  corner.tag = tag_;
  if (corner_bed_ != outcome.last_bed) corners_[static_cast<std::size_t>(opposite(side))] = {};
  corner_bed_ = outcome.last_bed;
}

}  // namespace stk::runtime
