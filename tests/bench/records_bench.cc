// What a long log costs: the program in a fresh process on logs of one kart, up to 10,000 runs.

#include <algorithm>
#include <optional>
#include <string>
#include <vector>

#include <benchmark/benchmark.h>

#include "tests/bench/long_log.h"
#include "tests/bench/program.h"

namespace kartwright {
namespace {

void run_on_log(benchmark::State& state, std::vector<std::string> arguments) {
  arguments.insert(arguments.end(), {"--log", log_of(static_cast<int>(state.range(0)))});
  long peak = 0;
  for (auto _ : state) {
    const std::optional<Taken> taken = run_program(arguments);
    if (!taken) return state.SkipWithError("the program did not end well");
    peak = std::max(peak, taken->peak_kib);
  }
  state.counters["peak_MiB"] = static_cast<double>(peak) / 1024.0;
}

void AdviseWithALog(benchmark::State& state) {
  run_on_log(state, {"advise", "--kart", logged_kart()});
}
BENCHMARK(AdviseWithALog)->Arg(2'000)->Arg(10'000)->UseRealTime()->Unit(benchmark::kMillisecond);

void LearnedFromALog(benchmark::State& state) {
  run_on_log(state, {"learned", "--kart", logged_kart()});
}
BENCHMARK(LearnedFromALog)->Arg(2'000)->Arg(10'000)->UseRealTime()->Unit(benchmark::kMillisecond);

void CalibrationOfALog(benchmark::State& state) {
  run_on_log(state, {"learned", "--calibration", "--kart", logged_kart()});
}
BENCHMARK(CalibrationOfALog)->Arg(2'000)->Arg(10'000)->UseRealTime()->Unit(benchmark::kMillisecond);

void ListALog(benchmark::State& state) { run_on_log(state, {"log", "list"}); }
BENCHMARK(ListALog)->Arg(2'000)->Arg(10'000)->UseRealTime()->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace kartwright
