// What an advice costs: the whole program in a fresh process, and the engine's part of it in this
// one.
//
//   cmake -B build -DKARTWRIGHT_BENCH=ON && cmake --build build --target bench && build/bench

#include <algorithm>
#include <optional>
#include <string>
#include <vector>

#include <benchmark/benchmark.h>

#include "engine/advice/advise.h"
#include "engine/advice/stakes.h"
#include "engine/debrief/debrief_file.h"
#include "engine/knowledge/built_in.h"
#include "tests/bench/program.h"

namespace kartwright {
namespace {

constexpr const char* kSaid = "pushes going in, hops hard in the middle";

void run_cold(benchmark::State& state, const std::vector<std::string>& arguments) {
  long peak = 0;
  for (auto _ : state) {
    const std::optional<Taken> taken = run_program(arguments);
    if (!taken) {
      state.SkipWithError("the program did not end well");
      return;
    }
    peak = std::max(peak, taken->peak_kib);
  }
  state.counters["peak_MiB"] = static_cast<double>(peak) / 1024.0;
}

void ColdAdviseOnTheDemo(benchmark::State& state) {
  run_cold(state, {"advise", "--debrief", KARTWRIGHT_SOURCE_DIR "/scenarios/harbour/heat-2.yaml"});
}
BENCHMARK(ColdAdviseOnTheDemo)->UseRealTime()->Unit(benchmark::kMillisecond);

void ColdVersionOnly(benchmark::State& state) { run_cold(state, {"--version"}); }
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

/// What is most worth asking before a move is chosen.
void OneQuestionChoice(benchmark::State& state) {
  const Pack pack = built_in_pack();
  const Kart kart = typical_kart(pack);
  Debrief debrief;
  debrief.track = "rubbered-in";
  add_words(debrief, kSaid, pack);
  const Advice advice = advise(pack, kart, debrief, System::metric);
  const Situation situation = situation_behind(advice, pack, kart);
  for (auto _ : state) {
    benchmark::DoNotOptimize(questions({.situation = situation,
                                        .prior = advice.prior,
                                        .belief = advice.belief,
                                        .weights = advice.weights,
                                        .ways = advice.ways,
                                        .effects = advice.effects}));
  }
}
BENCHMARK(OneQuestionChoice)->Unit(benchmark::kMicrosecond);

}  // namespace
}  // namespace kartwright
