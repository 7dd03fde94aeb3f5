// Work that was told before: a section, a technique or the turn of a repeat is told once, and named where it comes again.
//
//   SOLE  Toe    Thread MY. At MT, …       told in full, and kept here
//   TOP   Toe    Work as the toe of the sole. RC 008. COR. 8 sts.
//
// Whether it is the same is asked of the record (same_work.hpp).
#pragma once

#include <cstddef>
#include <cstdint>
#include <map>
#include <memory>
#include <string>
#include <utility>
#include <vector>

#include "compiler/document/telling.hpp"
#include "compiler/knit/facts.hpp"

namespace stk::document {

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

  // A caution of a technique that is worked again is not said again; whether it was said to all of these sizes. Notes stand
  // where they are needed.
  bool warned_before(const knit::Step& caution, knit::SizeSet scope);

  std::string sides_changed_for;   // "second sock": the mirrored piece for which it was told how to read the first

 private:
  bool can_be_named(const Part& known, const Part& from) const;
  struct Place {
    int sections = 0, stars = 0;
    bool corners = false;
  };
  std::map<std::pair<std::string, std::string>, Place> places_;
  std::vector<Part> parts_;
  struct Warning {
    text::Span where;                  // in the source: the same place is the same caution,
    std::vector<std::string> title;    // unless it was called with other numbers
    knit::SizeSet scope = 0;
  };
  std::vector<Warning> warnings_;
};

}  // namespace stk::document
