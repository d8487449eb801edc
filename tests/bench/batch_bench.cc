// Debriefs by the line: how many of them one core answers in a second, through the program.
//
// Counted in the program's own processor time, so that a busy machine changes little; the start of
// the program is in it.

#include <string>

#include <benchmark/benchmark.h>

#include "tests/bench/debriefs.h"
#include "tests/bench/program.h"
#include "tests/support/temp_folder.h"

namespace kartwright {
namespace {

constexpr int kLines = 20'000;

void run_batch(benchmark::State& state, SaidAs said_as, bool brief) {
  const TempFolder folder;
  const std::string path = folder.write("debriefs.jsonl", debrief_lines(kLines, said_as));
  std::vector<std::string> arguments{"advise", "--batch", path};
  if (brief) arguments.emplace_back("--brief");
  for (auto _ : state) {
    const std::optional<Taken> taken = run_program(arguments);
    if (!taken) {
      state.SkipWithError("the program did not end well");
      return;
    }
    state.SetIterationTime(taken->cpu_seconds);
    state.counters["peak_MiB"] = static_cast<double>(taken->peak_kib) / 1024.0;
  }
  state.SetItemsProcessed(state.iterations() * kLines);
}

void BatchBrief(benchmark::State& state) { run_batch(state, SaidAs::reports, true); }
BENCHMARK(BatchBrief)->UseManualTime()->Iterations(1)->Unit(benchmark::kMillisecond);

void BatchEverything(benchmark::State& state) { run_batch(state, SaidAs::reports, false); }
BENCHMARK(BatchEverything)->UseManualTime()->Iterations(1)->Unit(benchmark::kMillisecond);

void BatchInWords(benchmark::State& state) { run_batch(state, SaidAs::words, true); }
BENCHMARK(BatchInWords)->UseManualTime()->Iterations(1)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace kartwright
