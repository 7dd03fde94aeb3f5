// The fast machine and the slow one agree on thousands of random programs, fault for fault and needle for needle; and
// the programs are good enough to say so: they reach every fault and do every operation well and badly.
#include <catch2/catch.hpp>

#include <cstdlib>
#include <map>
#include <set>
#include <string>

#include "tests/model/program.hpp"

using namespace stk::model;

namespace {

// STK_MODEL_PROGRAMS asks for more (a night's run), STK_MODEL_SEED for another beginning.
std::uint32_t from_environment(const char* name, std::uint32_t otherwise) {
  const char* value = std::getenv(name);
  return value ? static_cast<std::uint32_t>(std::strtoul(value, nullptr, 10)) : otherwise;
}

}  // namespace

TEST_CASE("both machines agree on random programs") {
  const std::uint32_t programs = from_environment("STK_MODEL_PROGRAMS", 4000),
                      seed = from_environment("STK_MODEL_SEED", 1);
  std::map<FaultKind, int> reached;
  std::size_t steps = 0;
  int clean = 0;
  for (std::uint32_t index = 0; index < programs; ++index) {
    const Program program = random_program(seed + index, index % 3 == 0);
    const Report report = run_both(program);
    steps += program.steps.size();
    clean += report.faults.empty();
    for (const Fault& fault : report.faults) ++reached[fault.kind];
    if (report.difference.empty()) continue;
    const Program small = shrunk(program);
    FAIL("seed " << seed + index << ", shrunk to " << small.steps.size() << " steps:\n"
                 << printed(small) << run_both(small).difference);
  }
  for (int kind = 0; kind < fault_kinds(); ++kind) {
    INFO(fault_name(static_cast<FaultKind>(kind)));
    CHECK(reached[static_cast<FaultKind>(kind)] > 0);
  }
  CHECK(steps > std::size_t{programs} * 20);
  CHECK(clean > static_cast<int>(programs / 200));
}
