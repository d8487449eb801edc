// What a day's plan takes: five stages on the typical kart and on one at its class limit.

#include <benchmark/benchmark.h>

#include "engine/advice/advise.h"
#include "engine/advice/day.h"
#include "engine/advice/next_steps.h"
#include "engine/knowledge/built_in.h"
#include "tests/bench/program.h"

namespace kartwright {
namespace {

Kart harbour_41(const Pack& pack) {
  Findings findings;
  return read_kart(read_document(KARTWRIGHT_SOURCE_DIR "/scenarios/harbour/harbour-41.yaml"), pack,
                   findings);
}

void plan_a_day(benchmark::State& state, const Kart& kart, const Pack& pack) {
  const Debrief debrief{.heard = {}, .track = "cold"};
  const DayAsked asked{.stages = stages_from(pack, "cold")};
  std::size_t looked_at = 0;
  for (auto _ : state) {
    const Day day = plan_day(pack, kart, debrief, System::metric, asked);
    if (day.short_of_best > 0.0) return state.SkipWithError("not the best plan");
    looked_at = day.looked_at;
  }
  state.counters["stages"] = static_cast<double>(asked.stages.size());
  state.counters["looked_at"] = static_cast<double>(looked_at);
}

/// With both other days and the start that looks no further: seven searches.
void PlanInProcess(benchmark::State& state) {
  const Pack pack = built_in_pack();
  plan_a_day(state, typical_kart(pack), pack);
}
BENCHMARK(PlanInProcess)->Unit(benchmark::kMillisecond);

void PlanAtTheClassLimitInProcess(benchmark::State& state) {
  const Pack pack = built_in_pack();
  plan_a_day(state, harbour_41(pack), pack);
}
BENCHMARK(PlanAtTheClassLimitInProcess)->Unit(benchmark::kMillisecond);

void ColdPlan(benchmark::State& state) {
  for (auto _ : state) {
    if (!run_program(
            {"plan", "--kart", KARTWRIGHT_SOURCE_DIR "/scenarios/harbour/harbour-41.yaml"}))
      return state.SkipWithError("the program did not end well");
  }
}
BENCHMARK(ColdPlan)->UseRealTime()->Unit(benchmark::kMillisecond);

/// The tree behind the first change, two steps deep, with its advice made already.
void NextStepsInProcess(benchmark::State& state) {
  const Pack pack = built_in_pack();
  const Kart kart = typical_kart(pack);
  Debrief debrief{.heard = {}, .track = "rubbered-in"};
  debrief.heard.reports = {{.symptom = "hop", .phase = Phase::mid},
                           {.symptom = "push", .phase = Phase::entry}};
  const Advice advice = advise(pack, kart, debrief, System::metric);
  for (auto _ : state) {
    if (!next_steps(advice, pack, kart)) return state.SkipWithError("no change leads");
  }
}
BENCHMARK(NextStepsInProcess)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace kartwright
