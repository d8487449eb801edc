// What an advice costs: the whole program in a fresh process, and the engine's part of it in this
// one.
//
//   cmake -B build -DKARTWRIGHT_BENCH=ON && cmake --build build --target bench && build/bench

#include <algorithm>
#include <array>
#include <string>
#include <vector>

#include <benchmark/benchmark.h>
#include <fcntl.h>
#include <spawn.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include "engine/advice/advise.h"
#include "engine/debrief/debrief_file.h"
#include "engine/knowledge/built_in.h"

extern char** environ;

namespace kartwright {
namespace {

constexpr const char* kSaid = "pushes going in, hops hard in the middle";

/// Runs the program to its end with its output thrown away; returns its peak memory in KiB, or -1.
long run_program(std::vector<std::string> arguments) {
  std::vector<char*> argv;
  for (std::string& argument : arguments) argv.push_back(argument.data());
  argv.push_back(nullptr);
  posix_spawn_file_actions_t actions;
  posix_spawn_file_actions_init(&actions);
  posix_spawn_file_actions_addopen(&actions, STDOUT_FILENO, "/dev/null", O_WRONLY, 0);
  pid_t child = 0;
  const int failed = posix_spawn(&child, argv[0], &actions, nullptr, argv.data(), environ);
  posix_spawn_file_actions_destroy(&actions);
  if (failed != 0) return -1;
  int status = 0;
  rusage usage{};
  if (wait4(child, &status, 0, &usage) != child || !WIFEXITED(status) || WEXITSTATUS(status) != 0)
    return -1;
  return usage.ru_maxrss;
}

void run_cold(benchmark::State& state, const std::vector<std::string>& arguments) {
  long peak = 0;
  for (auto _ : state) {
    const long used = run_program(arguments);
    if (used < 0) {
      state.SkipWithError("the program did not end well");
      return;
    }
    peak = std::max(peak, used);
  }
  state.counters["peak_MiB"] = static_cast<double>(peak) / 1024.0;
}

void ColdAdviseOnTheDemo(benchmark::State& state) {
  run_cold(state, {KARTWRIGHT_BINARY, "advise", "--debrief",
                   KARTWRIGHT_SOURCE_DIR "/scenarios/harbour/heat-2.yaml"});
}
BENCHMARK(ColdAdviseOnTheDemo)->UseRealTime()->Unit(benchmark::kMillisecond);

void ColdVersionOnly(benchmark::State& state) { run_cold(state, {KARTWRIGHT_BINARY, "--version"}); }
BENCHMARK(ColdVersionOnly)->UseRealTime()->Unit(benchmark::kMillisecond);

void LoadTheRules(benchmark::State& state) {
  for (auto _ : state) benchmark::DoNotOptimize(built_in_pack());
}
BENCHMARK(LoadTheRules)->Unit(benchmark::kMillisecond);

void HearASentence(benchmark::State& state) {
  const Pack pack = built_in_pack();
  for (auto _ : state) {
    Debrief debrief;
    add_words(debrief, kSaid, pack);
    benchmark::DoNotOptimize(debrief);
  }
}
BENCHMARK(HearASentence)->Unit(benchmark::kMillisecond);

void AdviseInProcess(benchmark::State& state) {
  const Pack pack = built_in_pack();
  const Kart kart = typical_kart(pack);
  Debrief debrief;
  debrief.track = "rubbered-in";
  add_words(debrief, kSaid, pack);
  for (auto _ : state) benchmark::DoNotOptimize(advise(pack, kart, debrief, System::metric));
}
BENCHMARK(AdviseInProcess)->Unit(benchmark::kMicrosecond);

}  // namespace
}  // namespace kartwright
