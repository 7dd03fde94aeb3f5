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
};

struct EditionSetup {
  std::uint16_t index = 0;
  std::string name;
  MachineFacts machine;
  std::vector<runtime::MachineSpec> specs;   // per size: the float limit may be graded
  std::vector<SetupYarn> yarns;
  bool good = false;                         // false: what was wrong has been reported, and nothing can be knitted
};

EditionSetup set_up(const names::Program& program, grade::Evaluator& evaluator, findings::Findings& findings);

}  // namespace stk::knit
