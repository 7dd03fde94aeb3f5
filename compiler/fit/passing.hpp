// What must pass through what: heel and instep through the leg, and how the top sits on ankle or calf.
#pragma once

#include <optional>
#include <string>

#include "compiler/fit/shape.hpp"
#include "compiler/fit/usual.hpp"

namespace stk::fit {

// The part of the leg that is hardest to pass, in one size: fabric against its limit, or an edge that hardly yields.
struct Passage {
  Stretch stretch;
  Rational width;    // mm
  Rational heel;     // mm: the row heel_around of the sizes table
  Rational opening;  // heel / width
  Rational limit;
  std::int64_t stitches_missing = 0;  // to come to the limit; 0 where it passes
  bool passes() const { return opening <= limit; }
};
// None without a row `heel_around`, or where no width is known.
std::optional<Passage> passage_of_fabric(const knit::Facts& facts, const Leg& leg, std::size_t size);
std::optional<Passage> passage_of_edge(const knit::Facts& facts, const Leg& leg, std::size_t size);

// The top: the stretch with the most rows of the section that begins (or, toe-up, ends) the sock.
struct Top {
  Stretch stretch;
  Rational width;       // mm
  std::string against;  // "ankle" or "calf"
  Maybe body, ease;     // none: the sizes table has no row for it
  Range usual;
  bool drawn_in = false;          // a cord goes through it: it may be as loose as it likes
  std::int64_t stitches_off = 0;  // how many stitches would bring it inside: more (above 0) or fewer (below)
  bool tight() const { return ease && *ease < usual.from; }
  bool loose() const { return ease && !drawn_in && *ease > usual.to; }
};
std::optional<Top> top_of(const knit::Facts& facts, const Leg& leg, std::size_t size);

// Around or in length against the ease declared, or where none is, against what is usual. None for other measures and
// without a body measure.
struct FootOff {
  Rational sock, foot, ease;
  Range asked;
  std::int64_t missing = 0;  // stitches or rows that would bring it inside: more (above 0) or fewer (below); 0 inside
  const char* one;           // "st", "row"
  const char* many;
  bool off() const { return !asked.holds(ease); }
};
std::optional<FootOff> foot_off(const knit::EditionFacts& edition, const knit::MeasureFacts& measure,
                                const std::optional<Leg>& leg, std::size_t size);

}  // namespace stk::fit
