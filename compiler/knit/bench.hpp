// The work of one size: its fabric, the pieces knitted so far with the names of their parts, and the machine of the piece
// at hand.
//
// A Bench speaks as the first sock is written: when the piece is the mirrored second one, needles, sides and edges are
// changed about on their way to the machine and back, so that whatever stands above needs to know nothing of it, and the
// mirrored piece is really run on the bed as it is.
#pragma once

#include <array>
#include <cstdint>
#include <memory>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "compiler/knit/facts.hpp"
#include "compiler/knit/yarn_use.hpp"
#include "runtime/fabric.hpp"
#include "runtime/machine.hpp"

namespace stk::knit {

// What a name of an edge came to: some edges in order, a slot, or the eyelets of some sections.
struct Part {
  std::vector<runtime::EdgeId> edges;
  runtime::SlotId slot;
  std::vector<runtime::SectionId> sections;   // eyelets
  bool found() const { return !edges.empty() || slot.given() || !sections.empty(); }
};

// Edges that were sewn, grafted or joined to one another. Whether two pieces lie with their purl sides together shows only
// when all that joins them is known: see twists.hpp.
struct Met {
  text::Span where;                // what the designer would mend
  std::string words, words_to;     // as written: "sole.left", "instep.leg.left + instep.foot.left"
  std::vector<runtime::EdgeId> edges, edges_to;
  bool one_to_one = false;         // each edge meets the one in the same place of the other list
  bool while_knitting = false;     // row for row, from the first row of both
};

class Bench {
 public:
  explicit Bench(runtime::MachineSpec spec) : spec_(spec) {}

  const runtime::MachineSpec& spec() const { return spec_; }
  runtime::Fabric& fabric() { return fabric_; }
  const runtime::Fabric& fabric() const { return fabric_; }

  // Pieces and the names of their parts.
  void begin_piece(const std::string& name, bool mirrored);
  void begin_section(const std::string& name, runtime::SectionId id);
  void name_edge(const std::string& name, runtime::EdgeId edge);
  void name_slot(const std::string& name, runtime::SlotId slot);
  // `sole_end`, `turn.left`, `sock.cuff.cast_on`, `sock.heel_slot.lower`, `sole.top.eyelets`: from inside a piece, its own
  // name may be left out.
  Part find(const std::vector<std::string>& path) const;
  std::vector<std::string> known_parts() const;   // for suggestions
  std::optional<runtime::PieceId> piece_called(std::string_view name) const;
  bool piece_is_mirrored(runtime::PieceId piece) const;
  std::string section_name(runtime::SectionId section) const;   // empty: before any section, or one without a name
  std::string selvedge_name(runtime::EdgeId selvedge) const;    // "sock.heel.left", as the finishing calls it
  // The small selvedges of the piece that was hung from a slot: they close with its corners.
  std::vector<runtime::EdgeId> selvedges_hung_from(runtime::SlotId slot) const;

  // The machine of the piece at hand.
  bool knitting() const { return machine_ != nullptr; }
  void end_knitting() { machine_.reset(); }
  runtime::Outcome apply(runtime::Operation operation);
  runtime::Outcome finish(runtime::FinishingOperation operation) { return fabric_.apply(operation); }
  bool mirrored() const { return mirrored_; }

  // A bed at rest slips both ways: to the designer its needles are held.
  runtime::NeedleSet in_work(runtime::Bed bed) const { return machine_->rests(bed) ? runtime::NeedleSet() : seen(machine_->in_work(bed)); }
  runtime::NeedleSet held(runtime::Bed bed) const { return seen(machine_->rests(bed) ? machine_->held(bed) | machine_->in_work(bed) : machine_->held(bed)); }
  bool rests(runtime::Bed bed) const { return machine_->rests(bed); }
  runtime::NeedleSet carrying(runtime::Bed bed) const { return seen(machine_->carrying(bed)); }
  runtime::NeedleSet eyelets(runtime::Bed bed) const { return seen(machine_->eyelets(bed)); }
  std::optional<runtime::Side> carriage() const;
  const runtime::Machine& machine() const { return *machine_; }

  // Between the two ways of seeing: the same function there and back.
  runtime::NeedleSet seen(const runtime::NeedleSet& set) const { return mirrored_ ? set.mirrored(spec_.needles) : set; }
  int seen(int needle) const { return mirrored_ && needle >= 0 ? spec_.needles - 1 - needle : needle; }
  runtime::Side seen(runtime::Side side) const { return mirrored_ ? runtime::opposite(side) : side; }

  // The record of the machine as it stands, in real names (the second sock's own, when mirrored).
  MachineState state() const;
  Needle needle(int real_index, runtime::Bed bed = runtime::Bed::main) const;
  NeedleSpan span(const runtime::NeedleSet& logical, runtime::Bed bed = runtime::Bed::main) const;

  // This size is out: an earlier finding left nothing to go on from. Doubtful: a count or side has been reported already,
  // so that what only follows from it stays quiet.
  bool lost = false;
  bool lost_before = false;      // in an earlier piece: what it lacks is not looked for again
  bool doubtful_counts = false, doubtful_side = false;
  bool no_yarn = false;          // a row was knitted without any: what it would have made is missing further on
  std::array<runtime::NeedleSet, 2> held_at_end;   // when the piece ended, by bed: `all` had left them out
  std::set<runtime::EdgeId> divided;   // edges of which a part was taken: their names are what is left of them
  std::vector<Met> met;
  bool hung_in_part = false;     // loops and needles did not agree: that some needles stayed empty is known
  std::int64_t steps = 0;
  std::int32_t most_needles = 0;

  // What the edition's yarns are called here, by their order.
  std::vector<runtime::YarnId> yarns;
  runtime::YarnId cord;
  // The second yarn in the feeder, and the loops it had when it came there.
  struct SecondYarn {
    std::size_t yarn = 0;
    text::Span threaded;
    std::int64_t loops = 0;
  };
  std::optional<SecondYarn> second;
  YarnUse used;
  // The tension to reckon a loop with, 0 while both beds are at work.
  std::int32_t loop_tension_hundredths() const;
  std::uint32_t piece_at_hand() const { return pieces_.empty() ? 0 : pieces_.back().id.value; }

 private:
  struct NamedSection {
    std::string name;
    runtime::SectionId id;
  };
  struct NamedEdge {
    std::string name, section;
    runtime::EdgeId id;
  };
  struct NamedSlot {
    std::string name;
    runtime::SlotId id;
  };
  struct Piece {
    std::string name;
    bool mirrored = false;
    runtime::PieceId id;
    std::vector<NamedSection> sections;
    std::vector<NamedEdge> edges;
    std::vector<NamedSlot> slots;
  };
  Part find_in(const Piece& piece, const std::string* path, std::size_t length) const;

  runtime::MachineSpec spec_;
  runtime::Fabric fabric_;
  std::unique_ptr<runtime::Machine> machine_;
  bool mirrored_ = false;
  std::vector<Piece> pieces_;
};

}  // namespace stk::knit
