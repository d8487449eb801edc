// What a long log costs: the program in a fresh process on logs of one kart, up to 10,000 runs.

#include <algorithm>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include <benchmark/benchmark.h>

#include "engine/knowledge/built_in.h"
#include "engine/records/logbook.h"
#include "tests/bench/program.h"
#include "tests/support/season.h"
#include "tests/support/temp_folder.h"

namespace kartwright {
namespace {

const std::string kKartFile = KARTWRIGHT_SOURCE_DIR "/scenarios/harbour/harbour-27.yaml";

/// A log of so many runs of the kart of that file; made once for each size.
std::string log_of(int runs) {
  static const TempFolder folder;
  static std::map<int, std::string> made;
  std::string& path = made[runs];
  if (!path.empty()) return path;
  path = folder.path() + "/" + std::to_string(runs) + ".db";
  const Pack pack = built_in_pack();
  Findings findings;
  const Kart kart = read_kart(read_document(kKartFile), pack, findings);
  constexpr int kRunsADay = 8;
  Season season(pack, kart,
                {.days = runs / kRunsADay,
                 .runs_a_day = kRunsADay,
                 .first_day = "1996-01-06",
                 .most_said = 5});
  Logbook log(path, Logbook::For::keeping);
  Logbook::Writing all(log);
  for (Run& run : season.drive(tries_everything(pack, 7))) log.put(run);
  all.commit();
  return path;
}

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

void AdviseWithALog(benchmark::State& state) { run_on_log(state, {"advise", "--kart", kKartFile}); }
BENCHMARK(AdviseWithALog)->Arg(2'000)->Arg(10'000)->UseRealTime()->Unit(benchmark::kMillisecond);

void LearnedFromALog(benchmark::State& state) {
  run_on_log(state, {"learned", "--kart", kKartFile});
}
BENCHMARK(LearnedFromALog)->Arg(2'000)->Arg(10'000)->UseRealTime()->Unit(benchmark::kMillisecond);

void CalibrationOfALog(benchmark::State& state) {
  run_on_log(state, {"learned", "--calibration", "--kart", kKartFile});
}
BENCHMARK(CalibrationOfALog)->Arg(2'000)->Arg(10'000)->UseRealTime()->Unit(benchmark::kMillisecond);

void ListALog(benchmark::State& state) { run_on_log(state, {"log", "list"}); }
BENCHMARK(ListALog)->Arg(2'000)->Arg(10'000)->UseRealTime()->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace kartwright
