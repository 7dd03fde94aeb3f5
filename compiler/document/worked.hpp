// Work that was told before: a section, a technique or the turn of a repeat is told once, and named where it comes again.
//
//   SOLE  Toe    Thread MY. At MT, …       told in full, and kept here
//   TOP   Toe    Work as the toe of the sole. RC 008. COR. 8 sts.
//
// Whether it is the same is asked of the record, size by size: what was done, on which needles, from and to which state
// of the machine. Texts are never compared.
#pragma once

#include <cstddef>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "compiler/document/telling.hpp"
#include "compiler/knit/facts.hpp"

namespace stk::document {

// Whether two sequences of steps are the same work in every size of the scope. Row counters must agree from the first row
// knitted on, or from where the counter is set: those numbers are printed.
bool same_work(const std::vector<knit::Step>& a, const std::vector<knit::Step>& b, knit::SizeSet scope);

// The same for turns of repeats, whose row counters are not printed: only how far they go counts.
bool same_turn(const std::vector<knit::Step>& a, const std::vector<knit::Step>& b, knit::SizeSet scope);

// The same work on the other side of the bed: needles, sides and the carriage changed about. None where a chart or a tile of
// needles is worked, which reads from one end.
std::optional<std::vector<knit::Step>> with_sides_changed(const std::vector<knit::Step>& steps);

// Whether `b` is `a` with left and right changed: seams of two sides, loops picked up along two edges. Counts must agree.
bool same_on_other_side(const knit::Step& a, const knit::Step& b, knit::SizeSet scope);

class Worked {
 public:
  enum class Kind : std::uint8_t { section, technique, turn, cast_on };
  struct Part {
    Kind kind = Kind::section;
    std::string piece, section;   // where it was told, in printed words
    knit::SizeSet scope = 0;
    Memory memory;                // what the reader knew when it began: the same must be so when it comes again
    std::size_t length = 0;       // of its text
    std::size_t charts = 0;       // that were drawn before it
    const std::vector<knit::Step>* of_facts = nullptr;
    std::shared_ptr<const std::vector<knit::Step>> own;   // of a turn, which exists only while it is told
    const std::vector<knit::Step>& steps() const { return own ? *own : *of_facts; }
  };

  // The first that is the same; null if there is none, or if its place could not be named without doubt.
  const Part* find(const Part& part) const;
  const Part* find_other_side(const Part& part) const;   // the first that is the same with its sides changed
  void add(Part part);   // of the cast-ons of a piece only its first is kept: it is the piece's

  // A section begins; one of a title that the piece has already is never referred to. Turns are found again by their star:
  // only where a section has a single one.
  void begin_section(const std::string& piece, const std::string& section) { ++places_[{piece, section}].sections; }
  void close_corners(const std::string& piece, const std::string& section) { places_[{piece, section}].corners = true; }
  bool corners_were_closed(const Part& known) const;   // in its section, after the technique
  void star(const std::string& piece, const std::string& section) { ++places_[{piece, section}].stars; }

  std::string sides_changed_for;   // "second sock": the mirrored piece for which it was told how to read the first

 private:
  bool can_be_named(const Part& known, const Part& from) const;
  struct Place {
    int sections = 0, stars = 0;
    bool corners = false;
  };
  std::map<std::pair<std::string, std::string>, Place> places_;
  std::vector<Part> parts_;
};

}  // namespace stk::document
