// Programs of operations: made at random, run on both machines, shrunk, and printed.
#pragma once

#include <cstdint>
#include <random>
#include <string>
#include <variant>
#include <vector>

#include "runtime/machine.hpp"

namespace stk::model {

using namespace stk::runtime;

struct Step {
  int piece = 0;   // which machine; a finishing step has none
  std::variant<Operation, FinishingOperation> what;
};
struct Program {
  MachineSpec spec;
  std::vector<Step> steps;
};

// Four yarns stand ready in every program, in this order: two lasting, waste, cord.
inline constexpr YarnKind program_yarns[] = {YarnKind::lasting, YarnKind::lasting, YarnKind::waste, YarnKind::cord};

inline constexpr int pieces = 2;

// A random program from a seed; the same seed makes the same program. It looks at the machine as it goes, so that most
// steps make sense and some do not; `orderly` keeps to steps that make sense.
Program random_program(std::uint32_t seed, bool orderly);

// Runs a program on both machines; "" when they agree after every step, otherwise what they differ in.
struct Report {
  std::string difference;
  std::vector<Fault> faults;
  bool clean_throughout = true;
};
Report run_both(const Program& program);

// The shortest program found that still differs.
Program shrunk(Program program);
std::string printed(const Program& program);
std::string printed(const Fault& fault);

}  // namespace stk::model
