// What the physics of a kart costs.

#include <benchmark/benchmark.h>

#include "engine/chassis/figures.h"
#include "tests/support/default_sprint_kart.h"

namespace kartwright {
namespace {

constexpr CornerClass kSlippery{0.6801 * kGravity, 1.0 * kGravity, 15.0};
constexpr CornerClass kGrippy{1.3082 * kGravity, 1.6 * kGravity, 15.0};

void OneCorner(benchmark::State& state) {
  SprintKart kart = default_sprint_kart();
  const Manoeuvre turn = manoeuvre_of(kart, kGrippy, CornerPhase::exit);
  for (auto _ : state) {
    benchmark::DoNotOptimize(kart);
    benchmark::DoNotOptimize(corner(kart, turn));
  }
}
BENCHMARK(OneCorner)->Unit(benchmark::kNanosecond);

/// Three phases, the figures and the turning point of the bar, with little grip and with much.
void AllPhasesAndFiguresOfAKart(benchmark::State& state) {
  SprintKart kart = default_sprint_kart();
  for (auto _ : state) {
    benchmark::DoNotOptimize(kart);
    for (const CornerClass& grip : {kSlippery, kGrippy}) {
      for (const CornerPhase phase : {CornerPhase::entry, CornerPhase::mid, CornerPhase::exit})
        benchmark::DoNotOptimize(corner(kart, manoeuvre_of(kart, grip, phase)));
      benchmark::DoNotOptimize(figures_of(kart, grip));
      benchmark::DoNotOptimize(bar_turns_at(kart, grip.radius));
    }
  }
}
BENCHMARK(AllPhasesAndFiguresOfAKart)->Unit(benchmark::kMicrosecond);

}  // namespace
}  // namespace kartwright
