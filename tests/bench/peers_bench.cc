// What chaining and the search for bundles cost beside programs that do the same work: CLIPS 6.30
// for the rules, GLPK 5.0 for pairs and triples. Both sides must come to the same answer.
//
//   cmake -S . -B build-release -DCMAKE_BUILD_TYPE=Release -DKARTWRIGHT_BENCH=ON
//   cmake --build build-release --target peers && build-release/peers
//   build-release/peers rules     or bundles: one half of it

#include <array>
#include <cmath>
#include <cstdio>
#include <exception>
#include <stdexcept>
#include <string>
#include <string_view>

#include <fmt/format.h>

#include "tests/bench/peers_chain.h"
#include "tests/bench/peers_glpk.h"
#include "tests/bench/stopwatch.h"
#include "tests/support/clips.h"

namespace kartwright {
namespace {

constexpr std::array<ChainSize, 3> kSizes{
    ChainSize{200, 50, 20, 1000}, ChainSize{2'000, 500, 10, 400}, ChainSize{20'000, 2'000, 3, 200}};

/// "1.25 ms", "12.5 us".
std::string shown(double seconds) {
  if (seconds >= 1.0) return fmt::format("{:.3g} s", seconds);
  if (seconds >= 1e-3) return fmt::format("{:.3g} ms", 1e3 * seconds);
  return fmt::format("{:.3g} us", 1e6 * seconds);
}

std::string times(double theirs, double ours) { return fmt::format("{:.0f}x", theirs / ours); }

void show_chain(const ChainSize& size) {
  const ChainTimes theirs = time_clips(size);
  const ChainTimes ours = time_ours(size);
  if (theirs.concluded != ours.concluded) throw std::runtime_error("other conclusions than CLIPS");
  const double both = theirs.reset + theirs.run;
  fmt::print("{:>6} rules, {:>4} facts: {} hold\n", size.rules, size.facts, ours.concluded.size());
  fmt::print("    load         CLIPS {:>8}  ours {:>8}  {:>6}  (of {} loads)\n", shown(theirs.load),
             shown(ours.load), times(theirs.load, ours.load), size.loads);
  fmt::print("    run          CLIPS {:>8}  ours {:>8}  {:>6}  (of {} resets)\n", shown(theirs.run),
             shown(ours.run), times(theirs.run, ours.run), size.resets);
  fmt::print("    reset + run  CLIPS {:>8}  ours {:>8}  {:>6}\n", shown(both), shown(ours.run),
             times(both, ours.run));
  std::fflush(stdout);
}

void show_growth() {
  fmt::print("\nour run from 200 sets of facts in turn\n");
  for (const ChainSize& size : kSizes) {
    const double run = time_from_many_starts(size);
    fmt::print("{:>6} rules  {:>8}  {:.1f} ns a rule\n", size.rules, shown(run),
               1e9 * run / size.rules);
  }
  std::fflush(stdout);
}

void show_sets(std::size_t most) {
  fmt::print("\n{}: ten numbers in -4..4, seven squares\n", most == 2 ? "pairs" : "triples");
  for (const IntegerSquares& problem : integer_squares()) {
    const GlpkTime theirs = time_glpk(problem, static_cast<int>(most), 5);
    const BundleCase c = as_bundle_case(problem);
    BundleChoice found;
    const double ours = time_of(500, [&] { found = best_set(c, most); });
    if (std::abs(found.value - theirs.value) > 1e-6) throw std::runtime_error("other optimum");
    fmt::print("    optimum {:>3}  GLPK {:>8}  ours {:>8}  {:>6}  ({})\n", found.value,
               shown(theirs.seconds), shown(ours), times(theirs.seconds, ours), theirs.by);
    std::fflush(stdout);
  }
}

/// A kart's size and more: 25 adjustments, six places each, nine axes.
void show_triples_of_a_kart() {
  BundleCase c{.mean = Eigen::VectorXd::LinSpaced(9, -2.0, 2.0),
               .weights = Eigen::VectorXd::Ones(9)};
  for (int group = 0; group < 25; ++group) {
    Eigen::VectorXd effect(9);
    for (int axis = 0; axis < 9; ++axis) effect[axis] = ((group * 7 + axis * 5) % 11 - 5) / 10.0;
    c.steps.push_back({effect, 0.05});
    for (int place = 1; place <= 6; ++place) {
      c.items.push_back(
          {.group = group, .step = static_cast<std::size_t>(group), .amount = place - 3.5});
    }
  }
  for (const std::size_t most : {2U, 3U}) {
    const double seconds = time_of(200, [&] { best_set(c, most); });
    fmt::print("    best {} of {} moves: {}\n", most, c.items.size(), shown(seconds));
  }
}

void show_rules() {
  if (clips_program().empty()) fmt::print("CLIPS is not installed and is left out\n");
  for (const ChainSize& size : kSizes) {
    if (!clips_program().empty()) show_chain(size);
  }
  show_growth();
}

void show_bundles() {
  show_sets(2);
  show_sets(3);
  fmt::print("\nour search alone\n");
  show_triples_of_a_kart();
}

void show(std::string_view which) {
  fmt::print(
      "wall clock, the quickest of many goes; the same work and the same answer on both sides\n\n");
  if (which != "bundles") show_rules();
  if (which != "rules") show_bundles();
}

}  // namespace
}  // namespace kartwright

int main(int argc, char** argv) {
  try {
    kartwright::show(argc < 2 ? "" : argv[1]);
  } catch (const std::exception& error) {
    fmt::print(stderr, "peers: {}\n", error.what());
    return 1;
  }
  return 0;
}
