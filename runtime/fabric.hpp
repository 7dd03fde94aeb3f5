// The fabric of one sock: all its edges, slots, yarns and yarn ends, whichever piece they belong to. Machines make
// them, finishing uses them up, and `Finish` asks whether anything is left open.
//
// An edge is a row of loops in order from left to right, of three kinds: whole loops (stitches), loops between two
// stitches, and half loops at the two ends:
//
//      stitches   0   0   0   0        4 whole
//               (   u   u   u   )      3 between, 2 half
//
// A marked row is an edge inside the fabric: its loops are held by the rows above it.
//
// A selvedge is the chain of the outermost loops of a section on one side, whatever needle carries them: it grows by
// one with every pass of a lasting yarn that knits the outermost loop there.
#pragma once

#include <cstdint>
#include <vector>

#include "runtime/fault.hpp"
#include "runtime/needle_set.hpp"
#include "runtime/operations.hpp"
#include "runtime/units.hpp"

namespace stk::runtime {

enum class YarnKind : std::uint8_t { lasting, waste, cord };

struct Yarn {
  YarnKind kind = YarnKind::lasting;
  std::int64_t loops = 0;          // made of it so far, on all machines (what an estimate of yarn is made from)
};

enum class EdgeKind : std::uint8_t { cast_on, live, slot_lower, slot_upper, selvedge, bound_off, gathered, row };
enum class EdgeState : std::uint8_t {
  forming,   // cast on over waste, its first row not yet knitted; a slot not yet knitted over
  secure,    // may stay as it is: closed cast-on, bound off, gathered, selvedge; may still be hung or seamed
  on_waste,  // live, held by waste (and cord)
  on_holder, // live, on a holder or cord
  free,      // live, held by nothing
  used       // hung, grafted, seamed, picked up
};

struct Edge {
  EdgeKind kind = EdgeKind::cast_on;
  EdgeState state = EdgeState::secure;
  CastOnMethod method = CastOnMethod::e_wrap;  // of a cast-on edge
  bool live = false;          // unravels unless it is hung, grafted, bound
  bool waste_in = false;      // waste or cord is still in it
  int whole = 0, between = 0, half = 0;
  std::int64_t rows = 0;      // of a selvedge
  std::int64_t joined = 0;    // of these, or of a live edge's loops, joined while rows were knitted
  Side side = Side::left;     // of a selvedge
  Bed bed = Bed::main;
  NeedleSet needles;          // where its whole loops were
  std::int64_t passes = 0;    // of its piece when it was taken off: a yarn that hangs from it since then comes with it
  std::int64_t counter = 0, pass = 0;   // of a marked row: what was shown, and knitted, when it was marked
  PieceId piece;
  SectionId section;
  YarnId yarn;                // of its loops
  Tag made = no_tag, used = no_tag;
};

struct Section {
  PieceId piece;
  EdgeId left, right;         // selvedges
  EdgeId cast_on;             // the last one made in it, if any
  std::int64_t passes = 0;    // of lasting yarn
  Bed short_row_bed = Bed::main;
  NeedleSet short_row_needles;  // in work at the first closed turn of its first short rows; none: no short rows
  Tag short_rows_made = no_tag;
  bool layer_alone = false;   // rows on one layer of a tube: its sides are no one's to sew
  int short_row_series = 0;   // times needles were held while others were knitted
  int eyelets = 0;            // worked and not yet threaded
  Tag made = no_tag;
};

struct Slot {
  EdgeId lower, upper;
  bool knitted_over = false, opened = false, closed = false;
  Tag made = no_tag, opened_by = no_tag;
};

// One end of a yarn: where it leaves the fabric.
struct YarnEnd {
  YarnId yarn;
  PieceId piece;
  SectionId section;
  Bed bed = Bed::main;
  int needle = -1;            // beside this one; -1: it never entered the fabric
  std::int64_t pass = 0;      // of its piece
  std::int64_t tail_micrometres = 0;
  bool last = false;          // cut here (else: where the yarn began)
  bool used = false;          // sewn or drawn through
  bool woven = false;
  EdgeId edge;                // the edge taken off with it at one end, if any
  Tag made = no_tag;
};

class Fabric {
 public:
  YarnId add_yarn(YarnKind kind);

  // Finishing. Tags, faults and recovery as for Machine::apply.
  Outcome apply(const FinishingOperation& operation);

  // Ids given out by this fabric are always good here; others are not checked.
  const Yarn& yarn(YarnId id) const { return yarns_[id.value]; }
  const Edge& edge(EdgeId id) const { return edges_[id.value]; }
  const Slot& slot(SlotId id) const { return slots_[id.value]; }
  const Section& section(SectionId id) const { return sections_[id.value]; }
  const std::vector<Yarn>& yarns() const { return yarns_; }
  const std::vector<Edge>& edges() const { return edges_; }
  const std::vector<Slot>& slots() const { return slots_; }
  const std::vector<Section>& sections() const { return sections_; }
  const std::vector<YarnEnd>& ends() const { return ends_; }

  bool has(YarnId id) const { return id.value < yarns_.size(); }
  bool has(EdgeId id) const { return id.value < edges_.size(); }
  bool has(SlotId id) const { return id.value < slots_.size(); }
  bool has(SectionId id) const { return id.value < sections_.size(); }

  // The other selvedge of the same section; any other edge is its own mirror.
  EdgeId mirrored_edge(EdgeId id) const;
  std::int64_t selvedge_rows(SectionId id, Side side) const;

 private:
  friend class Machine;
  friend class Finishing;
  PieceId add_piece() { return PieceId{pieces_++}; }
  EdgeId add(Edge edge);
  SectionId add_section(PieceId piece, Tag tag);

  std::vector<Yarn> yarns_;
  std::vector<Edge> edges_;
  std::vector<Slot> slots_;
  std::vector<Section> sections_;
  std::vector<YarnEnd> ends_;
  std::uint32_t pieces_ = 0;
};

}  // namespace stk::runtime
