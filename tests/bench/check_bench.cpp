// The largest example in memory: checked in all sizes and editions, and written in all formats.
#include <benchmark/benchmark.h>

#include <string>
#include <variant>
#include <vector>

#include "compiler/service/session.hpp"
#include "compiler/text/disk_files.hpp"
#include "stdlib/library.hpp"
#include "tests/bench/sources.hpp"

namespace {

using namespace stk;

std::size_t steps_in(const std::vector<knit::Step>& steps) {
  std::size_t count = 0;
  for (const knit::Step& step : steps) {
    if (step.kind == knit::Step::Kind::operation) count += step.records.size();
    count += steps_in(step.steps);
    for (const auto& turn : step.turns) count += steps_in(turn);
  }
  return count;
}

// Loops formed and steps taken over all sizes and editions.
struct Work {
  double loops = 0, steps = 0, runs = 0;
};
Work work_of(const knit::Facts& facts) {
  Work work;
  for (const knit::EditionFacts& edition : facts.editions) {
    work.runs += static_cast<double>(facts.sizes.size());
    for (const knit::YarnFacts& yarn : edition.yarns) {
      for (const std::int64_t loops : yarn.loops) work.loops += static_cast<double>(loops);
    }
    for (const knit::PieceFacts& piece : edition.pieces) {
      work.steps += static_cast<double>(steps_in(piece.first) + steps_in(piece.mirrored));
    }
    work.steps += static_cast<double>(steps_in(edition.finish));
  }
  return work;
}

benchmark::Counter rate(double each) {
  return {each, benchmark::Counter::kIsIterationInvariantRate};
}

void check(benchmark::State& state) {
  text::DiskFiles files(bench::largest_example_path(), stdlib::files());   // it uses the house's sizes beside it
  const service::Session session(files);
  const service::Checked once = session.check(bench::largest_example_path(), bench::largest_example(), {});
  if (!once.usable() || !once.facts) {
    state.SkipWithError("the example is not clean");
    return;
  }
  for (auto _ : state) benchmark::DoNotOptimize(session.check(bench::largest_example_path(), bench::largest_example(), {}));
  const Work work = work_of(*once.facts);
  state.SetBytesProcessed(state.iterations() * static_cast<std::int64_t>(bench::largest_example().size()));
  state.counters["loops/s"] = rate(work.loops);
  state.counters["steps/s"] = rate(work.steps);
  state.counters["sizes/s"] = rate(work.runs);
}
BENCHMARK(check)->Unit(benchmark::kMillisecond);

void write(benchmark::State& state) {
  text::DiskFiles files(bench::largest_example_path(), stdlib::files());   // it uses the house's sizes beside it
  const service::Session session(files);
  const service::Checked checked = session.check(bench::largest_example_path(), bench::largest_example(), {});
  if (!checked.usable() || !checked.facts) {
    state.SkipWithError("the example is not clean");
    return;
  }
  std::vector<std::string> formats;
  for (const outputs::Backend* backend : outputs::backends()) formats.emplace_back(backend->name());
  std::int64_t bytes = 0;
  for (auto _ : state) {
    const service::Built built = session.build(checked, formats, {});
    for (const auto& output : std::get<std::vector<outputs::Output>>(built)) {
      bytes += static_cast<std::int64_t>(output.bytes.size());
    }
  }
  state.SetBytesProcessed(bytes);
}
BENCHMARK(write)->Unit(benchmark::kMillisecond);

}  // namespace
