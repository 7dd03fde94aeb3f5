// The slow machine: a struct for every needle, a struct for every loop, one pass at a time, no sets of bits, no
// shortcuts.
//
// It takes the operations of runtime/operations.hpp, was written from that page and faults.def alone, and must agree
// with the fast machine fault for fault. Where the two differ one of them is wrong: read the comments of the operation.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <map>
#include <set>
#include <string>
#include <vector>

#include "runtime/fabric.hpp"
#include "runtime/machine.hpp"
#include "runtime/operations.hpp"

namespace stk::model {

using namespace stk::runtime;
using Needles = std::set<int>;

struct Loop {
  enum class Kind { stitch, wrap, tuck, lifted } kind = Kind::stitch;
  bool fresh = false;   // no row below it
  bool waste = false;   // of waste or cord
};

struct Needle {
  enum class Position { out, work, held } position = Position::out;
  std::vector<Loop> loops;
  bool eyelet = false;
  bool closed = false;
  bool waiting = false;            // held with others before any needle of the bed was held
  Tag cause = no_tag;              // what emptied, brought or held it
  std::int64_t held_since = 0;
  std::int64_t slipped = 0;        // rows running
  bool told_full = false, told_gap = false, told_long = false, told_pattern = false;

  bool carries() const { return !loops.empty(); }
  bool in_work() const { return position == Position::work; }
  bool held() const { return position == Position::held; }
};

// What all pieces share.
struct Sock {
  std::vector<YarnKind> yarns;
  std::vector<std::int64_t> yarn_loops;
  std::vector<Edge> edges;
  std::vector<Slot> slots;
  std::vector<Section> sections;
  std::vector<YarnEnd> ends;
  std::uint32_t pieces = 0;

  YarnId add_yarn(YarnKind kind);
  bool lasting(YarnId yarn) const { return yarn.value < yarns.size() && yarns[yarn.value] == YarnKind::lasting; }
  bool has(YarnId id) const { return id.value < yarns.size(); }
  bool has(EdgeId id) const { return id.value < edges.size(); }
  bool has(SlotId id) const { return id.value < slots.size(); }
  std::vector<Fault> finish(const FinishingOperation& operation);
};

class SlowMachine {
 public:
  SlowMachine(const MachineSpec& spec, Sock& sock);
  std::vector<Fault> apply(const Operation& operation);

  const std::vector<Needle>& needles(Bed bed) const { return beds_[static_cast<std::size_t>(bed)].needles; }
  std::optional<Side> carriage() const { return carriage_; }
  std::int64_t counter() const { return counter_; }
  std::int64_t passes() const { return passes_; }
  bool rests(Bed bed) const { return beds_[static_cast<std::size_t>(bed)].rests; }
  bool tube() const { return tube_; }
  bool comb_hangs() const { return comb_; }
  bool weights_hang() const { return !weighed_.empty(); }
  std::optional<YarnPlace> place(YarnId yarn) const;
  const Ledger& ledger() const { return ledger_; }
  YarnId threaded() const { return feeder_.empty() ? YarnId{} : feeder_[0]; }

 private:
  struct BedOfNeedles {
    std::vector<Needle> needles;
    int tension = 0;
    bool rests = false;
    std::int64_t last_pass = -1;
    // what was knitted last on it
    std::optional<std::pair<YarnId, SectionId>> fabric;
    int fabric_tension = 0;
  };
  struct HangingEnd {   // a cut end whose loop is still on a needle
    std::size_t end;
    Bed bed;
    int needle;
  };

  void run(const BeginSection&);
  void run(const ResetCounter& op) { counter_ = op.to; }
  void run(const SetTension& op);
  void run(const SetPitch& op) { pitch_ = op.pitch; }
  void run(const SetCarriage& op) { knits_ = op.knits; }
  void run(const ThreadYarn& op);
  void run(const RestYarn& op);
  void run(const CutYarn& op);
  void run(const SetNeedles& op);
  void run(const BringIntoWork& op);
  void run(const PutOutOfWork& op);
  void run(const Hold& op);
  void run(const Release& op);
  void run(const Wrap& op);
  void run(const Lift& op);
  void run(const Move& op);
  void run(const SayEmpties& op);
  void run(const Decrease& op);
  void run(const Increase& op);
  void run(const Cross& op);
  void run(const Transfer& op);
  void run(const LatchUp& op);
  void run(const CastOn& op);
  void run(const MarkRow& op);
  void run(const Hang& op);
  bool row_hung_wrongly(const Hang& op, const Needles& needles);
  void run(const PickUp& op);
  void run(const HangComb& op);
  void run(const HangWeights&);
  void run(const RemoveComb&);
  void run(const Knit& op);
  void run(const KnitPattern& op);
  void run(const KnitJoined& op);
  void settle_joins(const std::map<Side, std::vector<EdgeId>>& joins, const std::map<Side, std::int64_t>& there,
                    const std::map<Side, std::int64_t>& rows_before, std::int64_t passes);
  void refused(const std::map<Side, std::vector<EdgeId>>& joins);
  void take_loop(Side side, const std::vector<EdgeId>& along);
  void run(const KnitByHand& op);
  void run(const ScrapOff& op);
  void run(const TakeOff& op);
  void run(const BindOff& op);
  void run(const Gather& op);
  void run(const Drop& op);
  void run(const OpenSlot& op);
  void run(const DrawWaste& op);
  void run(const DivideEdge& op);
  template <class Op>
  void on_the_fabric(const Op& op);
  void run(const EndPiece&);

  // words
  Needle& at(Bed bed, int needle) {
    return beds_[static_cast<std::size_t>(bed)].needles[static_cast<std::size_t>(needle)];
  }
  BedOfNeedles& bed_of(Bed bed) { return beds_[static_cast<std::size_t>(bed)]; }
  int bed_size(Bed bed) { return static_cast<int>(bed_of(bed).needles.size()); }
  Needles carrying(Bed bed);
  Needles working(Bed bed);
  Fault& say(FaultKind kind, Bed bed = Bed::main, const Needles& needles = {}, Tag cause = no_tag);
  void say_by_cause(FaultKind kind, Bed bed, const Needles& needles);
  bool bed_there(Bed bed, const NeedleSet& needles);
  Needles there(Bed bed, const NeedleSet& needles);
  Needles loaded(Bed bed, const Needles& needles);
  void say_full(Bed bed, const Needles& needles);
  void move_one(Bed from, int needle, Bed to, int target);
  void emptied(Bed bed, const Needles& needles, Empties empties);
  void clear_needle(Bed bed, int needle);
  void after_taking_off();
  void section_begun();
  void place_yarn(YarnId yarn, std::optional<YarnPlace> place);
  void make_end(YarnId yarn, bool last, YarnPlace place, std::int64_t tail);
  void free_feeder(YarnId keep, YarnId keep_too);
  void carriage_at(Side side, bool granted);
  EdgeId take_off_as(Bed bed, const Needles& needles, EdgeKind kind, EdgeState state, bool live);
  bool nothing_on_needles();

  // knitting
  struct Row {
    KnitMode mode = KnitMode::rows;
    Side main_to = Side::left;
    const KnitPattern* pattern = nullptr;
    std::size_t index = 0;
    std::set<std::string> told;   // what this operation has said already
  };
  void one_pass(Row& row);
  void carriage_arrives();
  bool thread_along(Row& row, int feeder, YarnId yarn, const std::array<Needles, 2>& taking, Side from);
  void new_loop(Bed bed, int needle, YarnId yarn);
  void knitted_over_waste(Bed bed, const Needles& over, YarnId yarn);
  void long_holds();
  bool fresh(Bed bed, int needle);
  bool yarn_beside(Bed bed, int end, int outwards);
  void order_hung(const Hang& op, const Needles& needles, bool gaps_only);
  void weights_on();
  void weights_off();
  void too_far_from_weights(const std::array<Needles, 2>& worked);
  void too_long_without_weights();
  void turn_closed(Bed bed);

  MachineSpec spec_;
  Sock& sock_;
  PieceId piece_;
  Tag tag_ = no_tag;
  std::vector<Fault> faults_;
  std::array<BedOfNeedles, 2> beds_;
  std::optional<Side> carriage_;
  std::int64_t counter_ = 0, passes_ = 0;
  Pitch pitch_ = Pitch::full;
  CarriageKnits knits_ = CarriageKnits::both_ways;
  std::vector<int> tensions_{0};   // every one that fitted
  std::vector<YarnId> feeder_;
  std::vector<std::optional<YarnPlace>> places_;
  std::vector<HangingEnd> hanging_;
  SectionId section_;
  bool short_rows_ = false, short_rows_seen_ = false;
  bool tube_ = false, zigzag_just_made_ = false;
  std::optional<std::int64_t> rounds_since_zigzag_;   // passes, of rounds alone
  std::optional<std::pair<int, int>> told_tensions_;
  Tag tensions_by_ = no_tag;
  Needles told_bare_;
  struct Turn {
    bool at_end = false, turned = false;
    Tag tag = no_tag;
  };
  std::array<Turn, 2> turns_;
  Bed turn_bed_ = Bed::main;
  std::optional<CastOnMethod> began_with_;
  EdgeId began_edge_;
  Tag began_tag_ = no_tag;
  std::int64_t rows_since_ = 0;
  bool comb_was_hung_ = false, comb_ = false;
  EdgeId comb_in_;
  Tag comb_tag_ = no_tag;
  Needles weighed_;                          // needles whose fabric the weights hang from; none: none hang
  Tag weighed_by_ = no_tag;
  std::int64_t without_weights_since_ = 0;
  bool told_weights_ = false;
  std::optional<std::int64_t> outgrew_weights_;   // the pass
  std::vector<std::size_t> waiting_edges_;   // cast on over waste that is not knitted over yet
  std::vector<std::pair<std::size_t, Needles>> open_slots_;
  bool told_no_yarn_ = false, told_facing_ = false, told_ends_ = false;
  std::map<std::uint32_t, Needles> marked_rows_;   // by edge: needles not knitted since
  std::set<Bed> told_nothing_;
  Ledger ledger_;
};

}  // namespace stk::model
