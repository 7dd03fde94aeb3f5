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
//   cast_on + picked_up + increased + lifted + hung + wrapped + tucked = merged + secured + to_edges + dropped + on
// hooks
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
  NeedleSet unsaid(Bed bed) const { return empties(bed) - eyelets(bed); }              // a fault if knitted so
  NeedleSet all_needles() const { return NeedleSet::range(0, spec_.needles - 1); }
  int loops_on(Bed bed, int needle) const;                     // on the hook, wraps and tucks included
  int wraps_on(Bed bed, int needle) const;
  int most_loops_on_a_hook() const;

  bool nothing_on_needles() const { return carrying(Bed::main).empty() && carrying(Bed::second).empty(); }

  // Stitches: needles that carry, in work or held; a needle with three loops is one.
  int stitches(Bed bed) const { return carrying(bed).count(); }
  int stitches() const { return stitches(Bed::main) + stitches(Bed::second); }

  // Yarn.
  YarnId threaded() const { return first_yarn_; }
  YarnId second_threaded() const { return second_yarn_; }
  std::optional<YarnPlace> place(YarnId yarn) const;           // none: new, or cut
  bool tube() const { return tube_; }

  // Edges. The section being knitted; none before the first.
  SectionId section() const { return section_; }
  std::int64_t selvedge_rows(Side side) const;                 // of this section
  bool comb_hangs() const { return comb_; }
  bool weights_hang() const { return weights_.hang; }  // a comb hung brings its own

  const Ledger& ledger() const { return ledger_; }
  std::int64_t loops_on_hooks() const;

 private:
  // A hook's loops, where there is more to say than "one plain stitch".
  struct Hook {
    std::uint32_t loops = 1, wraps = 0, tucks = 0;   // loops counts all of them
  };
  struct BedState {
    NeedleSet in_work, held, carrying;
    NeedleSet several;         // more than one loop, counted in `hooks`; every other needle that carries has just one
    NeedleSet eyelets;         // empty on purpose
    NeedleSet closed;          // held, and no hole at a turn beside it
    NeedleSet waiting;         // held together before any other: half the work, say
    NeedleSet fresh;           // the loop has no row below it yet
    NeedleSet fleeting;        // the loop is of waste or cord
    NeedleSet slipping;        // slipped in the last pattern row
    NeedleSet quiet_hook;      // too full, and said
    NeedleSet quiet_gap;       // held, and the float over it said
    NeedleSet quiet_long;      // held long, and said
    NeedleSet quiet_pattern;   // tucked or slipped too long, and said
    std::vector<Hook> hooks;
    std::vector<std::int64_t> slips;           // rows in succession
    std::vector<std::int64_t> held_since;      // pass
    std::vector<Tag> cause;                    // what emptied, brought or held the needle
    int tension = 0;
    bool rests = false;
    std::int64_t last_pass = -1;               // that made loops here; -1 none (cast on, hung)
    YarnId tension_yarn;                       // what was knitted last, and how: for the note on tension
    SectionId tension_section;
    int tension_knitted = 0;
  };
  struct FreeEnd {             // an end of yarn at a loop that is still on its needle
    std::size_t end;
    Bed bed;
    int needle;
  };
  struct Corner {              // a turn of the carriage at the end of one bed of a tube
    bool at_end = false;       // the last pass ended there
    bool turned = false;       // and the carriage went back over the same bed
    Tag tag = no_tag;
  };
  struct Weights {             // and whether they pull on what is knitted
    bool hang = false;
    int first = -1, last = -1; // of the needles whose fabric they hang from
    Tag tag = no_tag;          // where they were hung or taken down, or where the fabric began
    std::int64_t since = 0;    // passes when they were hung or taken down, or the bed was last bare
    std::int64_t outgrown = -1;   // the first pass that knitted loops they do not reach; -1: none did
    bool said = false;         // that they do not reach, or do not hang
  };
  struct Knitting;             // what the passes of one operation share (machine_passes.cpp)
  struct Join;                 // what is joined on one side meanwhile (machine_special_rows.cpp)

  const BedState& bed_of(Bed bed) const { return beds_[static_cast<std::size_t>(bed)]; }
  BedState& bed_of(Bed bed) { return beds_[static_cast<std::size_t>(bed)]; }

  // machine.cpp: what all operations use
  Fault& raise(Outcome& outcome, FaultKind kind, Bed bed = Bed::main, const NeedleSet& needles = {},
               Tag cause = no_tag);
  void raise_by_cause(Outcome& outcome, FaultKind kind, Bed bed, NeedleSet needles);
  NeedleSet on_bed(Outcome& outcome, Bed bed, const NeedleSet& needles);          // those there; faults for the others
  NeedleSet with_loops(Outcome& outcome, Bed bed, const NeedleSet& needles);      // those that carry; likewise
  Hook hook(Bed bed, int needle) const;
  void set_hook(Bed bed, int needle, Hook hook);
  std::int64_t loops_on(Bed bed, const NeedleSet& needles) const;
  void check_hooks(Outcome& outcome, Bed bed, const NeedleSet& needles);
  void move_loop(Bed from, int needle, Bed to, int target);
  void empty_out(Bed bed, const NeedleSet& needles);                              // loops gone, needles to NWP
  void clear_marks(Bed bed, const NeedleSet& needles);
  void ensure_section();
  void carriage_to(Outcome& outcome, Side side, bool free_to_go);
  bool in_use(YarnId yarn) const { return place(yarn).has_value(); }
  bool lasting(YarnId yarn) const;
  void set_place(YarnId yarn, std::optional<YarnPlace> place);
  void add_end(YarnId yarn, bool last, YarnPlace place, std::int64_t tail);
  void leave_feeder(YarnId yarn);
  bool free_feeder(Outcome& outcome, YarnId first, YarnId second);
  EdgeId take_to_edge(Bed bed, const NeedleSet& needles, EdgeKind kind, EdgeState state, bool live);
  const FreeEnd* end_among(Bed bed, const NeedleSet& needles) const;

  // machine_needles.cpp
  void run(const SetNeedles& set, Outcome& outcome);
  void run(const BringIntoWork& bring, Outcome& outcome);
  void run(const PutOutOfWork& put, Outcome& outcome);
  void run(const Hold& hold, Outcome& outcome);
  void run(const Release& release, Outcome& outcome);
  void run(const Wrap& wrap, Outcome& outcome);
  void run(const Lift& lift, Outcome& outcome);
  // machine_moves.cpp
  void run(const Move& move, Outcome& outcome);
  void run(const SayEmpties& say, Outcome& outcome);
  void run(const Cross& cross, Outcome& outcome);
  void run(const Transfer& transfer, Outcome& outcome);
  void run(const LatchUp& latch, Outcome& outcome);
  void shift_loops(Bed bed, const NeedleSet& needles, int distance, Outcome& outcome);
  void dispose(Outcome& outcome, Bed bed, const NeedleSet& emptied, Empties empties);
  // machine_shaping.cpp
  void run(const Decrease& decrease, Outcome& outcome);
  void run(const Increase& increase, Outcome& outcome);
  // machine_settings.cpp
  void run(const BeginSection& begin, Outcome& outcome);
  void run(const ResetCounter& reset, Outcome& outcome);
  void run(const SetTension& set, Outcome& outcome);
  void run(const SetPitch& set, Outcome& outcome);
  void run(const SetCarriage& set, Outcome& outcome);
  void run(const ThreadYarn& thread, Outcome& outcome);
  void run(const RestYarn& rest, Outcome& outcome);
  void run(const CutYarn& cut, Outcome& outcome);
  // machine_weights.cpp
  void run(const HangComb& hang, Outcome& outcome);
  void run(const HangWeights& hang, Outcome& outcome);
  void run(const RemoveComb& remove, Outcome& outcome);
  void hang_weights();
  void check_weights(Outcome& outcome, const std::array<NeedleSet, 2>& worked);
  void check_no_weights(Outcome& outcome);
  // machine_cast_on.cpp
  void run(const CastOn& cast_on, Outcome& outcome);
  bool just_wrapped() const;
  void check_way_to_cast_on(Outcome& outcome, Bed bed, const NeedleSet& needles, int needle);
  void cast_on_loops(const CastOn& cast_on, const NeedleSet& main, const NeedleSet& second, Outcome& outcome);
  void cast_on_waste(const CastOn& cast_on, const NeedleSet& needles, bool free_to_go, Outcome& outcome);
  EdgeId add_cast_on_edge(const CastOn& cast_on, const NeedleSet& needles, int whole, YarnId yarn);
  // machine_hang.cpp
  void run(const MarkRow& mark, Outcome& outcome);
  void run(const Hang& hang, Outcome& outcome);
  bool marked_row_fits(Outcome& outcome, const Hang& hang, const NeedleSet& here);
  void run(const PickUp& pick_up, Outcome& outcome);
  void check_order_hung(Outcome& outcome, const Hang& hang, const NeedleSet& here, bool in_gaps);
  void bring_yarn(const Edge& edge, const Hang& hang, const std::array<NeedleSet, 2>& needles);
  // machine_passes.cpp, machine_special_rows.cpp, machine_yarn_path.cpp, machine_two_beds.cpp
  struct Counts {              // what two passes in a steady state add to
    std::int64_t passes = 0, counter = 0, rows_since_cast_on = 0, loops = 0, yarn_loops = 0;
    std::int64_t section_passes = 0, left = 0, right = 0;
    std::int64_t picked_up = 0, hung = 0, merged = 0;
    std::array<std::int64_t, 2> last_pass{};
  };
  void run(const Knit& knit, Outcome& outcome);
  void run(const KnitPattern& knit, Outcome& outcome);
  void run(const KnitJoined& knit, Outcome& outcome);
  void run(const KnitByHand& knit, Outcome& outcome);
  Counts counts(const Outcome& outcome) const;
  void repeat_passes(Outcome& outcome, const Counts& before, std::int64_t times);
  void pass(Knitting& knitting);
  void end_pass(Knitting& knitting);
  void make_loops(Outcome& outcome, Bed bed, const NeedleSet& needles, YarnId yarn);
  void note_short_rows(Outcome& outcome, Bed bed);
  void grow_edges(const Knitting& knitting, const std::array<NeedleSet, 2>& knitted);
  bool lead_yarn(Knitting& knitting, int feeder, YarnId yarn, const std::array<NeedleSet, 2>& taking, Side from);
  int loops_between(const YarnPlace& place, Bed bed, int needle, bool both_beds, bool round) const;
  void check_turns(Outcome& outcome, const std::array<NeedleSet, 2>& worked, Side from, bool say);
  void check_empties(Knitting& knitting, const std::array<NeedleSet, 2>& worked);
  void check_long_holds(Outcome& outcome);
  void check_tension(Outcome& outcome, const std::array<NeedleSet, 2>& worked);
  void check_pattern(Knitting& knitting, const NeedleSet& tuck, const NeedleSet& slip);
  void begin_rounds(Knitting& knitting);
  void check_ends(Outcome& outcome);
  void check_zigzag(Outcome& outcome);
  void check_two_beds(Knitting& knitting, const std::array<NeedleSet, 2>& worked);
  void check_corners(Knitting& knitting, const std::array<NeedleSet, 2>& worked, Side from);
  bool can_join(Outcome& outcome, std::vector<Join>& joins);
  void hang_joined(Knitting& knitting, Join& join);
  void take_from_live(const Join& join, Outcome& outcome);
  void note_corner(Side side, const Outcome& outcome);
  // machine_taking_off.cpp
  void run(const ScrapOff& scrap, Outcome& outcome);
  void run(const TakeOff& take, Outcome& outcome);
  bool yarn_at_end(Bed bed, const NeedleSet& needles, Side side) const;
  void run(const BindOff& bind, Outcome& outcome);
  void run(const Gather& gather, Outcome& outcome);
  void run(const Drop& drop, Outcome& outcome);
  void run(const OpenSlot& open, Outcome& outcome);
  void run(const DrawWaste& draw, Outcome& outcome);
  void run(const DivideEdge& divide, Outcome& outcome);
  void take_comb_from(EdgeId edge, Outcome& outcome);
  void finish_here(const FinishingOperation& operation, Outcome& outcome);
  void run(const EndPiece& end, Outcome& outcome);

  MachineSpec spec_;
  Fabric* fabric_;
  PieceId piece_;
  Tag tag_ = no_tag;                                   // of the operation being done
  std::array<BedState, 2> beds_;
  std::optional<Side> carriage_;
  std::int64_t counter_ = 0, passes_ = 0;
  Pitch pitch_ = Pitch::full;
  CarriageKnits carriage_knits_ = CarriageKnits::both_ways;
  int tension_least_ = 0, tension_most_ = 0;
  YarnId first_yarn_, second_yarn_;
  std::vector<std::optional<YarnPlace>> places_;       // by yarn
  std::vector<FreeEnd> free_ends_;
  SectionId section_;
  bool short_rows_ = false;                            // needles are held while others are knitted
  bool short_rows_noted_ = false;                      // and a turn of them was closed
  bool tube_ = false, after_zigzag_ = false;
  std::int64_t zigzag_at_ = -1;                        // passes when only rounds have followed it; else -1
  std::optional<std::array<int, 2>> tensions_told_;    // of the beds, by a note
  Tag tensions_set_ = no_tag;                          // what set either of them last
  std::array<Corner, 2> corners_;                      // by side
  Bed corner_bed_ = Bed::main;
  // since the last cast-on, for the comb
  std::optional<CastOnMethod> cast_on_method_;
  EdgeId cast_on_edge_;
  Tag cast_on_tag_ = no_tag;
  std::int64_t rows_since_cast_on_ = 0;
  bool comb_seen_ = false;
  bool comb_ = false;
  EdgeId comb_edge_;
  Tag comb_tag_ = no_tag;
  Weights weights_;
  std::vector<std::size_t> forming_edges_;             // cast on over waste, not yet knitted over
  struct FormingSlot {
    std::uint32_t slot;
    Bed bed;
    NeedleSet waiting;                                 // not yet knitted over
  };
  std::vector<FormingSlot> forming_slots_;
  struct Mark {                                        // a row marked in the fabric that is on the needles
    EdgeId edge;
    Bed bed;
    NeedleSet waiting;                                 // its loops are on these still, if they carry
  };
  std::vector<Mark> marks_;
  // said once
  NeedleSet quiet_bare_;                               // bare needles the yarn crosses
  bool quiet_no_yarn_ = false, quiet_opposed_ = false, quiet_ends_ = false;
  std::array<bool, 2> quiet_nothing_{};                // by bed; both when no bed has anything in a plain row
  Ledger ledger_;
};

}  // namespace stk::runtime
