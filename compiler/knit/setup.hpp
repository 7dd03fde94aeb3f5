// What an edition says before anything is knitted: which machine, which yarns, how far a yarn may float.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "compiler/findings/findings.hpp"
#include "compiler/grade/evaluate.hpp"
#include "compiler/knit/facts.hpp"
#include "compiler/names/program.hpp"
#include "runtime/units.hpp"

namespace stk::knit {

struct SetupYarn {
  std::string name, description;
  std::optional<values::Quantity> count;
  text::Span span;
  bool waste = false;
  text::Span count_span;                     // of the count, if there is one
  std::optional<values::Quantity> label_length, label_mass;
  std::optional<values::Quantity> ball;
  Amount balls;                              // stated, per size; empty: none are
  text::Span stock_span;
  values::Quantity margin{values::Rational::of(1, 10), {}};   // a tenth more than is worked out (common practice)
};

struct EditionSetup {
  std::uint16_t index = 0;
  std::string name;
  MachineFacts machine;
  std::optional<std::int64_t> repeat;        // how many needles the machine selects before it begins anew
  std::vector<runtime::MachineSpec> specs;   // per size: the float limit may be graded
  std::vector<SetupYarn> yarns;
  bool good = false;                         // false: what was wrong has been reported, and nothing can be knitted
};

EditionSetup set_up(const names::Program& program, grade::Evaluator& evaluator, findings::Findings& findings);

}  // namespace stk::knit
