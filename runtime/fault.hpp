// A fault: one need of an operation that was not met, with the plain facts a finding is made from; and the outcome of
// an operation: its faults and what was done.
#pragma once

#include <cstdint>
#include <string_view>
#include <vector>

#include "runtime/needle_set.hpp"
#include "runtime/units.hpp"

namespace stk::runtime {

enum class FaultKind : std::uint8_t {
#define FAULT(name) name,
#include "runtime/faults.def"
};
std::string_view fault_name(FaultKind kind);
bool is_note(FaultKind kind);  // correct practice may do it: never more than a note
int fault_kinds();             // how many there are

struct Fault {
  FaultKind kind;
  Tag tag = no_tag;              // the operation at which it was noticed
  Tag cause = no_tag;            // the operation that brought it about, where that is another
  Bed bed = Bed::main;           // of `needles`
  int needle = -1;               // the needle first concerned (faults.def says where it is not the first of `needles`)
  NeedleSet needles;             // all of them
  std::int64_t counter = 0;      // row counter before the pass, or at the operation
  std::int64_t pass = 0;         // passes of this machine before it
  std::int64_t a = 0, b = 0, c = 0, d = 0;  // as faults.def says beside the kind
  YarnId yarn;
  EdgeId edge, other_edge;
  SlotId slot;
  SectionId section;

  friend bool operator==(const Fault&, const Fault&) = default;
};

struct Outcome {
  std::vector<Fault> faults;           // in the order noticed
  NeedleSet needles;  // the needles it worked on: cast on, moved from, held, knitted in the last pass ...
  NeedleSet emptied;                   // needles a move, transfer or shaping left empty (whatever became of them)
  NeedleSet set_aside;                 // put in hold for the length of the operation, and back (scrap off)
  std::vector<EdgeId> edges;           // edges made: cast on 1, scrap off one a part, take off, bind off, gather,
                                       // divide 1
  SlotId slot;                         // knit by hand with waste
  SectionId section;                   // begin section
  std::int64_t passes = 0;             // of the carriage
  std::int64_t loops = 0;              // made by the operation: knitted, cast on, picked up, wrapped, tucked
  int waste_rows_before_comb = 0;      // open on waste: 3, then the others, then
  int waste_rows_after_comb = 0;
  int cord_rows = 0;                   // the ravel cord's
  int waste_rows = 0;                  // scrap off
  Side wrapped_from = Side::left;      // e-wrap: it runs from here to the carriage
  int first_needle = -1, last_needle = -1;   // of the last pass, in the order knitted
  Bed last_bed = Bed::main;
  bool comb_moved = false;             // the comb went from the edge hung to the fold
  bool waste_drawn = false;            // waste and cord came away
  bool yarn_cut = false;               // a yarn still threaded was cut (end of piece)
  bool bed_rested = false;             // the hold set a whole bed to slip
  bool tube = false;                   // hung as a tube

  bool clean() const { return faults.empty(); }
};

}  // namespace stk::runtime
