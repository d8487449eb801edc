// Debriefs by the line: how many of them one core answers in a second, through the program.
//
// Counted in the program's own processor time, so that a busy machine changes little; the start of
// the program is in it.

#include <array>
#include <cstdlib>
#include <fstream>
#include <random>
#include <string>

#include <benchmark/benchmark.h>
#include <unistd.h>

#include "tests/bench/program.h"

namespace kartwright {
namespace {

constexpr int kLines = 20'000;

template <typename Texts>
std::string one_of(const Texts& texts, std::mt19937& random) {
  return texts.at(random() % texts.size());
}

/// `"reports":["hop@mid=2","push@entry=1"]`, one to three of them.
std::string reports(std::mt19937& random) {
  static constexpr std::array kSymptoms{"push", "loose", "hop",     "slide",     "bog",
                                        "bind", "lazy",  "twitchy", "two-wheels"};
  static constexpr std::array kPhases{"entry", "mid", "exit"};
  std::string out = R"("reports":[)";
  const auto count = 1 + random() % 3;
  for (std::size_t i = 0; i < count; ++i) {
    out += std::string(i == 0 ? "" : ",") + '"' + one_of(kSymptoms, random) + '@' +
           one_of(kPhases, random) + '=' + std::to_string(1 + random() % 3) + '"';
  }
  return out + "]";
}

std::string words(std::mt19937& random) {
  static constexpr std::array kSaid{"pushes going in and hops in the middle",
                                    "loose on exit, bit of push mid",
                                    "the front just washes out on turn in",
                                    "it hops hard in the middle and bogs coming out",
                                    "rear steps out under braking, fine in the middle",
                                    "really tight in the middle, a little loose off",
                                    "slides everywhere since the second lap",
                                    "it's lazy on turn in but good on exit"};
  return R"("said":")" + one_of(kSaid, random) + '"';
}

/// A file of debriefs, gone with it.
class Debriefs {
 public:
  template <typename Heard>
  explicit Debriefs(const Heard& heard) {
    static constexpr std::array kTracks{"cold", "green", "rubbered-in", "greasy", "wet"};
    const int file = mkstemp(path_.data());
    if (file >= 0) close(file);
    std::mt19937 random(7);
    std::ofstream out(path_);
    for (int i = 0; i < kLines; ++i)
      out << R"({"track":")" << one_of(kTracks, random) << R"(",)" << heard(random) << "}\n";
  }
  ~Debriefs() { unlink(path_.c_str()); }
  Debriefs(const Debriefs&) = delete;
  Debriefs& operator=(const Debriefs&) = delete;

  const std::string& path() const { return path_; }

 private:
  std::string path_ = "/tmp/kartwright-bench-XXXXXX";
};

template <typename Heard>
void run_batch(benchmark::State& state, const Heard& heard, bool brief) {
  const Debriefs debriefs(heard);
  std::vector<std::string> arguments{"advise", "--batch", debriefs.path()};
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

void BatchBrief(benchmark::State& state) { run_batch(state, reports, true); }
BENCHMARK(BatchBrief)->UseManualTime()->Iterations(1)->Unit(benchmark::kMillisecond);

void BatchEverything(benchmark::State& state) { run_batch(state, reports, false); }
BENCHMARK(BatchEverything)->UseManualTime()->Iterations(1)->Unit(benchmark::kMillisecond);

void BatchInWords(benchmark::State& state) { run_batch(state, words, true); }
BENCHMARK(BatchInWords)->UseManualTime()->Iterations(1)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace kartwright
