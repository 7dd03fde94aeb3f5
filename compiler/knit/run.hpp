// Every size of every edition, graded, knitted and checked: the whole of what lies between names and documents.
#pragma once

#include <map>
#include <string>

#include "compiler/findings/findings.hpp"
#include "compiler/knit/facts.hpp"
#include "compiler/names/program.hpp"

namespace stk::knit {

struct RunOptions {
  std::map<std::string, std::string> settings;   // `--set heel_part=40%`
};

// The facts are complete only when no error was reported.
Facts knit(const names::Program& program, const RunOptions& options, findings::Findings& findings);

}  // namespace stk::knit
