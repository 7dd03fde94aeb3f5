// The whole process, as a designer starts it: beside an empty one, and beside a Python script that works out the same
// kind of numbers for as many sizes and does nothing else.
#include <benchmark/benchmark.h>
#include <fcntl.h>
#include <spawn.h>
#include <sys/wait.h>

#include <string>
#include <vector>

#include "tests/bench/sources.hpp"

extern char** environ;

namespace {

// The exit status, or -1.
int run(const std::vector<std::string>& command) {
  std::vector<char*> words;
  for (const std::string& word : command) words.push_back(const_cast<char*>(word.c_str()));
  words.push_back(nullptr);
  posix_spawn_file_actions_t actions;
  ::posix_spawn_file_actions_init(&actions);
  ::posix_spawn_file_actions_addopen(&actions, 1, "/dev/null", O_WRONLY, 0);
  pid_t child = 0;
  const int error = ::posix_spawnp(&child, words[0], &actions, nullptr, words.data(), environ);
  ::posix_spawn_file_actions_destroy(&actions);
  int status = 0;
  if (error != 0 || ::waitpid(child, &status, 0) != child || !WIFEXITED(status)) return -1;
  return WEXITSTATUS(status);
}

void process(benchmark::State& state, const std::vector<std::string>& command) {
  for (auto _ : state) {
    if (run(command) != 0) state.SkipWithError("the command failed");
  }
}

void whole_check(benchmark::State& state) {
  process(state, {STK_PROGRAM, "check", stk::bench::largest_example_path()});
}
void empty_process(benchmark::State& state) {
  process(state, {"true"});
}
void python_grading(benchmark::State& state) {
  process(state, {"python3", STK_SOURCE_DIR "/tests/bench/grading.py"});
}

BENCHMARK(whole_check)->Unit(benchmark::kMillisecond)->UseRealTime();
BENCHMARK(empty_process)->Unit(benchmark::kMillisecond)->UseRealTime();
BENCHMARK(python_grading)->Unit(benchmark::kMillisecond)->UseRealTime();

}  // namespace
