// For the tests of the library's formulas: what they come to, as a pattern would work them out.
#pragma once

#include <catch2/catch.hpp>
#include <map>
#include <string>
#include <vector>

#include "compiler/grade/evaluate.hpp"
#include "compiler/names/load.hpp"
#include "compiler/names/resolve.hpp"
#include "compiler/text/memory_files.hpp"
#include "compiler/values/rational.hpp"
#include "stdlib/library.hpp"

namespace stk::oracles {

// Expressions over the formulas of one library, each worked out as a `let` of one pattern: in base units.
inline std::vector<values::Rational> worked_out(const std::string& library,
                                                const std::vector<std::string>& expressions) {
  std::string text = "stockinger 1\npattern \"Shoes\" {\n by \"Tidewrack Hosiery\"\n}\nuse " + library +
                     "\nedition mid {\n"
                     " machine mid_gauge\n yarn main \"wool\", 200 tex\n gauge 24 sts, 34 rows to 10 cm\n}\n";
  for (std::size_t i = 0; i < expressions.size(); ++i)
    text += "let x" + std::to_string(i) + " = " + expressions[i] + "\n";
  text::MemoryFiles files(stdlib::files());
  text::Sources sources;
  findings::Findings findings;
  names::Program program = names::load(sources.add("shoes.stk", text).id(), files, sources, findings);
  names::resolve(program, findings);
  const std::map<std::string, std::string> settings;
  grade::Evaluator evaluator(program, 0, settings, findings);
  std::vector<values::Rational> results;
  for (std::size_t i = 0; i < expressions.size(); ++i) {
    const auto value = evaluator.pattern_value(program.main().id, "x" + std::to_string(i));
    INFO(expressions[i]);
    REQUIRE(value);
    REQUIRE(value->quantity(0));
    results.push_back(value->quantity(0)->value);
  }
  REQUIRE_FALSE(findings.has_errors());
  return results;
}

}  // namespace stk::oracles
