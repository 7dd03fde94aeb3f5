// Parsing, beside PEGTL's own JSON grammar over a text of the same length: the peer says what the library costs by
// itself.
#include <benchmark/benchmark.h>

#include <string>
#include <tao/pegtl.hpp>
#include <tao/pegtl/contrib/json.hpp>

#include "compiler/findings/findings.hpp"
#include "compiler/syntax/parse.hpp"
#include "compiler/text/source.hpp"
#include "tests/bench/sources.hpp"

namespace {

void parse(benchmark::State& state) {
  const std::string text = stk::bench::grown(static_cast<std::size_t>(state.range(0)));
  const stk::text::Source source(stk::text::FileId{}, "bench.stk", text);
  for (auto _ : state) {
    stk::findings::Findings findings;
    benchmark::DoNotOptimize(stk::syntax::parse(source, findings));
  }
  state.SetBytesProcessed(state.iterations() * static_cast<std::int64_t>(text.size()));
  state.counters["lines/s"] =
      benchmark::Counter(static_cast<double>(source.line_count()), benchmark::Counter::kIsIterationInvariantRate);
}
BENCHMARK(parse)->Arg(1)->Arg(40'000)->Arg(400'000)->Unit(benchmark::kMicrosecond);

std::string json_of(std::size_t bytes) {
  std::string text = "[";
  while (text.size() < bytes) {
    text += R"({"size": "women_m", "foot_length": 24.5, "counts": [48, 52, 56, 60], "note": "ease \u00bd in"}, )";
  }
  return text + "null]";
}

void pegtl_json(benchmark::State& state) {
  namespace pegtl = tao::pegtl;
  const std::string text = json_of(static_cast<std::size_t>(state.range(0)));
  bool good = true;
  for (auto _ : state) {
    pegtl::memory_input<pegtl::tracking_mode::lazy, pegtl::eol::lf_crlf, const char*> in(text.data(),
                                                                                         text.data() + text.size(), "");
    good = pegtl::parse<pegtl::seq<pegtl::json::text, pegtl::eof>>(in) && good;
  }
  if (!good) state.SkipWithError("the JSON was not read");
  state.SetBytesProcessed(state.iterations() * static_cast<std::int64_t>(text.size()));
}
BENCHMARK(pegtl_json)->Arg(4'000)->Arg(40'000)->Arg(400'000)->Unit(benchmark::kMicrosecond);

}  // namespace
