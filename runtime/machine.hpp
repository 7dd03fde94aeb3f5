// A flat-bed knitting machine: it takes operations, keeps state and raises faults. One Machine knits one piece; all the
// pieces of a sock share a Fabric, where their edges live.
//
//   Fabric fabric;
//   const YarnId main = fabric.add_yarn(YarnKind::lasting);
//   Machine machine(spec, fabric);
//   machine.apply({1, ThreadYarn{main}});
//   machine.apply({2, CastOn{CastOnMethod::e_wrap, Bed::main, NeedleSet::range(60, 89)}});
//   Outcome outcome = machine.apply({3, Knit{20}});     // outcome.faults is empty, machine.counter() is 20
//
// One mistake gives one fault: after a fault the state is as faults.def says, and what would follow from it alone stays
// quiet. Plain passes cost the same however many there are; nothing is allocated for a row.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <vector>

#include "runtime/fabric.hpp"
#include "runtime/fault.hpp"
#include "runtime/needle_set.hpp"
#include "runtime/operations.hpp"
#include "runtime/units.hpp"

namespace stk::runtime {

// Where a yarn last left the fabric.
struct YarnPlace {
  Bed bed = Bed::main;
  int needle = -1;
  std::int64_t pass = 0;
};

// Every loop that came on a hook and went from it, over the whole piece. At any time
//   cast_on + picked_up + increased + lifted + hung + wrapped + tucked = merged + secured + to_edges + dropped + on hooks
struct Ledger {
  std::int64_t cast_on = 0, picked_up = 0;
  std::int64_t increased = 0;   // filled, eyelets and empty needles the yarn was laid into
  std::int64_t lifted = 0;
  std::int64_t hung = 0;        // back from edges
  std::int64_t wrapped = 0, tucked = 0;
  std::int64_t merged = 0;      // knitted together with another on the same hook
  std::int64_t secured = 0;     // bound off, gathered
  std::int64_t to_edges = 0;    // taken or scrapped off
  std::int64_t dropped = 0;
  friend bool operator==(const Ledger&, const Ledger&) = default;
};

class Machine {
 public:
  Machine(const MachineSpec& spec, Fabric& fabric);

  Outcome apply(const Operation& operation);

  const MachineSpec& spec() const { return spec_; }
  const Fabric& fabric() const { return *fabric_; }
  PieceId piece() const { return piece_; }

  // Carriage. Its side is unknown until a cast-on, a hang or a pass settles it.
  std::optional<Side> carriage() const { return carriage_; }
  std::int64_t counter() const { return counter_; }            // the row counter, in passes
  std::int64_t passes() const { return passes_; }              // never reset
  int tension(Bed bed) const { return bed_of(bed).tension; }   // tenths from MT
  Pitch pitch() const { return pitch_; }
  CarriageKnits carriage_knits() const { return carriage_knits_; }
  bool carriage_holds() const { return !held(Bed::main).empty() || !held(Bed::second).empty(); }
  bool rests(Bed bed) const { return bed_of(bed).rests; }      // the whole bed slips both ways

  // Needles. in_work, held and out of work are apart; carrying goes across them.
  const NeedleSet& in_work(Bed bed) const { return bed_of(bed).in_work; }
  const NeedleSet& held(Bed bed) const { return bed_of(bed).held; }
  const NeedleSet& carrying(Bed bed) const { return bed_of(bed).carrying; }
  NeedleSet empties(Bed bed) const { return in_work(bed) - carrying(bed); }            // eyelets among them
  const NeedleSet& eyelets(Bed bed) const { return bed_of(bed).eyelets; }
  NeedleSet all_needles() const { return NeedleSet::range(0, spec_.needles - 1); }
  int loops_on(Bed bed, int needle) const;                     // on the hook, wraps and tucks included
  int wraps_on(Bed bed, int needle) const;
  int most_loops_on_a_hook() const;

  // Stitches: needles that carry, in work or held; a needle with three loops is one.
  int stitches(Bed bed) const { return carrying(bed).count(); }
  int stitches() const { return stitches(Bed::main) + stitches(Bed::second); }
  int stitches_in_work(Bed bed) const { return (carrying(bed) & in_work(bed)).count(); }
  int stitches_held(Bed bed) const { return (carrying(bed) & held(bed)).count(); }

  // Yarn.
  YarnId threaded() const { return first_yarn_; }
  YarnId second_threaded() const { return second_yarn_; }
  std::optional<YarnPlace> place(YarnId yarn) const;           // none: new, or cut
  bool tube() const { return tube_; }

  // Edges. The section being knitted; none before the first.
  SectionId section() const { return section_; }
  std::int64_t selvedge_rows(Side side) const;                 // of this section
  bool comb_hangs() const { return comb_; }
  EdgeId comb_edge() const { return comb_edge_; }              // the edge it hangs in, if it hangs in one

  const Ledger& ledger() const { return ledger_; }
  std::int64_t loops_on_hooks() const;

 private:
  struct BedState {
    NeedleSet in_work, held, carrying;
    NeedleSet several;         // more than one loop on the hook: counted in `loops`, others have exactly one
    NeedleSet eyelets;         // empty on purpose
    NeedleSet unsaid;          // empty, and nobody has said what for: `cause` tells who
    NeedleSet closed;          // held, and no hole at a turn beside it
    NeedleSet fresh;           // the loop has not been knitted since it came there
    NeedleSet fleeting;        // the loop is of waste or cord
    NeedleSet tucked;          // wraps or tucks among the loops
    NeedleSet quiet_hook;      // too full, and reported
    std::vector<std::uint8_t> loops, wraps;            // a needle
    std::vector<std::uint16_t> tucks, slips;           // in succession
    std::vector<Tag> cause;                            // what emptied, brought or held the needle
    std::vector<std::int64_t> held_since;              // pass
    int tension = 0;
    bool rests = false;
    Tag rested_by = no_tag;
    std::int64_t last_pass = -1;                       // that made loops here
  };

  const BedState& bed_of(Bed bed) const { return beds_[static_cast<std::size_t>(bed)]; }
  BedState& bed_of(Bed bed) { return beds_[static_cast<std::size_t>(bed)]; }

  MachineSpec spec_;
  Fabric* fabric_;
  PieceId piece_;
  std::array<BedState, 2> beds_;
  std::optional<Side> carriage_;
  std::int64_t counter_ = 0, passes_ = 0;
  Pitch pitch_ = Pitch::full;
  CarriageKnits carriage_knits_ = CarriageKnits::both_ways;
  YarnId first_yarn_, second_yarn_;
  std::vector<std::optional<YarnPlace>> places_;       // by yarn
  SectionId section_;
  bool tube_ = false;
  bool comb_ = false;
  EdgeId comb_edge_;
  Ledger ledger_;
};

}  // namespace stk::runtime
