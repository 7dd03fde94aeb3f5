// How wide the knitted record is, and which of its parts the heel must pass.
//
// A piece is read as stretches: rows of one width in one fabric. How stretches close to a round is read from the
// finish: a piece whose left edge is sewn to its right edge is as wide as its stitches, two pieces sewn to one another
// (or joined at the machine) add up, and rounds on two beds are round already. Widths are washed ones, by the gauge of
// the tension at which the stretch was knitted, or else by the main gauge. Seams take nothing off.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "compiler/fit/exact.hpp"
#include "compiler/knit/facts.hpp"
#include "compiler/text/span.hpp"

namespace stk::fit {

enum class Fabric : std::uint8_t { plain, rib, stranded };
std::string fabric_word(Fabric fabric);  // "plain", "rib", "stranded"

struct Stretch {
  std::string section;  // as printed: "Rib cuff"
  text::Span where;     // the step, or the technique that it is part of
  Fabric fabric = Fabric::plain;
  std::int64_t stitches = 0;  // across; a needle that was left out at the cast-on makes a ladder and counts as one
  std::int64_t rows = 0;      // rounds, of a tube
  bool tube = false;
  bool thinned = false;           // loops have been doubled up across it, as for a toe that is drawn together
  Maybe sts_per_mm, rows_per_mm;  // none: a rib without a gauge of its own, which is never worked out

  Maybe width() const { return over(Rational(stitches), sts_per_mm); }
  Maybe height() const { return over(Rational(rows), rows_per_mm); }
};

// The edge through which the foot goes first.
struct TopEdge {
  std::string words;  // "the bind-off by latch"
  text::Span where;
  bool yields = true;
  bool cast_on = true;  // or a bind-off
};

// From the top down to the heel, in one size.
struct Leg {
  std::vector<Stretch> stretches;
  TopEdge edge;
  bool drawn_in = false;  // the finish threads a cord through eyelets
  bool has_heel = false;  // short rows, or a line of waste, or stitches set aside, ended it
  Maybe height() const;
};

// None where the finish does not tell what closes to a round, or where nothing does.
std::optional<Leg> leg_of(const knit::EditionFacts& edition, std::size_t size);

// One section of a piece, for the report.
struct SectionMeasure {
  std::string piece, section;         // section: the printed title
  std::int64_t fewest = 0, most = 0;  // stitches across
  std::int64_t rows = 0;              // over all stitches
  std::int64_t short_rows = 0;        // with needles in hold; they are not in `height`
  bool tube = false;
  Maybe narrowest, widest, height;  // mm
};
// In the order in which they are knitted; a section that a size does not have is left out.
std::vector<SectionMeasure> sections_of(const knit::EditionFacts& edition, std::size_t size);

}  // namespace stk::fit
