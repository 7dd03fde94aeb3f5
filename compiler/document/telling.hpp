// One operation in words: what a function of narrate_*.cpp is given, and what it gives back.
//
// Such a function says what is to be done, in one or a few sentences. It never says where the work stands afterwards
// (row counter, carriage side, stitches): that comes from the record, in one place (narrator.cpp), at the end of the
// step.
#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "compiler/document/graded.hpp"
#include "compiler/document/layers.hpp"
#include "compiler/document/selections.hpp"
#include "compiler/document/words.hpp"
#include "compiler/knit/facts.hpp"

namespace stk::document {

// What a knitter knows from the sentences before.
struct Memory {
  bool comb_hung = false;                     // or weights alone
  bool only_weights = false;
  knit::Method cast_on = knit::Method::none;  // of the piece, for its rehanging
  bool yarn_cut = false;                      // a tail hangs, and no yarn was threaded since
  bool in_fold = false;                       // the step is told for every turn of a repeat
  bool rounds = false;                        // the carriage is set to knit rounds on two beds
  bool one_bed = false;                       // it is set to knit one of two beds alone
  std::string threaded;                       // the yarn in the feeder, as the pattern calls it
  bool needles_set = false;                   // a step before arranged the bed
  std::set<std::string> mirrored;             // the pieces of which the second is made with its sides changed
  bool joined = false;                        // how a piece is joined while it is knitted has been told
  std::map<std::size_t, std::int64_t> rows_since_cast_on;   // by size, as long as all were knitted on all needles
  std::set<std::string> taken_in;             // open edges whose sts were joined so
  bool on_other_side = false;                 // the step before was this one with left and right changed
  std::vector<std::string> size_names;        // as printed
  const knit::EditionFacts* edition = nullptr;   // what the finish looks back on: pieces, the headings of their sections
};

struct Told {
  std::vector<std::string> sentences;  // each begins in small letters and has no full stop
  // The facts that must stand after them whether or not they were said before.
  bool row = false, side = false, stitches = false;
  bool soft_side = false;      // if a step follows for which the side matters
  std::string stitches_intro;  // "left on the needles": before the number of stitches
  bool says_stitches = false;  // the sentences give the number of stitches themselves
  bool says_row = false;       // or the row counter
  bool makes_fabric = false;   // "At MT−2," goes before the sentence `tension_at`
  std::size_t tension_at = 0;
  bool new_paragraph = false;  // begins one
  bool breaks = false;         // the next one begins one
  bool joins = false;          // may follow plain rows in one sentence: "… and hang the comb"
  std::string chart;           // its title, when a picture helps
  std::optional<std::size_t> chart_at;   // it is named after this many sentences; else at their end
  bool both_beds = false;      // a picture of a setting on both beds helps
};

class Telling {
 public:
  Telling(const knit::Step& step, knit::SizeSet printed, knit::SizeSet scope,
          const std::map<std::string, YarnWord>& yarns, const Memory& memory, const std::string& piece)
      : step_(step), printed_(printed), scope_(scope), yarns_(yarns), memory_(memory), piece_(piece) {}

  const knit::Step& step() const { return step_; }
  const knit::Operation& operation() const { return step_.operation; }
  const Memory& memory() const { return memory_; }
  knit::SizeSet scope() const { return scope_; }
  knit::SizeSet printed() const { return printed_; }

  // A field of the records for the sizes of the scope.
  template <class Field>
  PerSize each(Field field) const {
    PerSize values(step_.records.size());
    for (std::size_t i = 0; i < values.size(); ++i) {
      if (takes(i)) values[i] = field(step_.records[i]);
    }
    return values;
  }
  // Whether it is so in every size of the scope that takes the step.
  template <class Test>
  bool always(Test test) const {
    for (std::size_t i = 0; i < step_.records.size(); ++i) {
      if (takes(i) && !test(step_.records[i])) return false;
    }
    return true;
  }

  std::string run(const PerSize& values) const { return graded(values, printed_, scope_); }
  PerSize amounts() const;
  std::string amount(std::string_view noun) const;  // "36 (42, 48) sts"
  std::string amount() const;
  bool amount_is(std::int64_t n) const;
  std::string needles() const;                    // "L18–R18 (L21–R21)"
  bool side_by_side() const;                      // they are all of these, without a gap
  std::string carriage_after() const;             // "right"; graded where sizes differ
  Noun noun(std::string_view what) const;         // of the first selection
  std::string yarn(std::size_t index = 0) const;  // "MY"
  std::string waste() const;                      // "WY"
  std::string edge_called(const std::string& name) const;
  Headings headings_of(const std::string& edge) const;
  std::string edge(std::size_t index = 0) const;  // "the sole end"; of operation().edges
  std::string edge_to(std::size_t index = 0) const;
  bool in_part() const;                           // a part of an edge is taken, and the rest of it goes on as it was
  bool sides_turn() const;                        // of the second, mirrored piece an edge's left and right change about
  const std::string& piece() const { return piece_; }               // the only one; empty when there are several
  std::string edges(const std::vector<std::string>& names) const;  // joined
  std::string parts(const std::vector<std::string>& names) const;  // sections and slots as a whole
  std::string code_of(std::string_view yarn) const;

 private:
  bool takes(std::size_t size) const {
    return knit::has(scope_, size) && knit::has(step_.sizes, size) && !step_.records[size].idle;
  }

  const knit::Step& step_;
  knit::SizeSet printed_, scope_;
  const std::map<std::string, YarnWord>& yarns_;
  const Memory& memory_;
  const std::string& piece_;  // the only one of the pattern, or empty
};

// Whether a knit step counts rounds: two passes of the carriage, one on each bed.
bool knits_rounds(const knit::Step& step);

// By what is done. An act that has no words of its own here does not exist: the switch in telling.cpp is complete.
Told tell(const Telling& telling);

// narrate_knitting.cpp
Told tell_cast_on(const Telling&);
Told tell_knit(const Telling&);
Told tell_knit_to_row(const Telling&);
Told tell_knit_by_hand(const Telling&);
Told tell_knit_chart(const Telling&);
Told tell_thread(const Telling&);
Told tell_cut(const Telling&);
Told tell_rest_yarn(const Telling&);
Told tell_counter(const Telling&);
Told tell_hang_comb(const Telling&);
Told tell_hang_weights(const Telling&);
Told tell_remove_comb(const Telling&);
// narrate_needles.cpp
Told tell_hold(const Telling&);
Told tell_release(const Telling&);
Told tell_wrap(const Telling&);
Told tell_bring(const Telling&);
Told tell_put(const Telling&);
Told tell_set_needles(const Telling&);
Told tell_pitch(const Telling&);
Told tell_carriage_knits(const Telling&);
// narrate_moves.cpp
Told tell_move(const Telling&);
Told tell_transfer(const Telling&);
Told tell_lift(const Telling&);
Told tell_increase(const Telling&);
Told tell_decrease(const Telling&);
Told tell_fill(const Telling&);
Told tell_cross(const Telling&);
Told tell_tuck(const Telling&);
Told tell_slip(const Telling&);
Told tell_latch_up(const Telling&);
// narrate_edges.cpp
Told tell_mark_row(const Telling&);
Told tell_hang_edge(const Telling&);
Told tell_pick_up(const Telling&);
Told tell_open(const Telling&);
Told tell_scrap_off(const Telling&);
Told tell_take_off(const Telling&);
Told tell_bind_off(const Telling&);
Told tell_gather(const Telling&);
// narrate_finishing.cpp
Told tell_graft(const Telling&);
Told tell_seam(const Telling&);
Told tell_thread_through(const Telling&);
Told tell_close_corners(const Telling&);
Told tell_weave_in_ends(const Telling&);

}  // namespace stk::document
