// The search for pairs and triples of moves beside GLPK.

#include <cmath>

#include <fmt/format.h>

#include "tests/bench/peers_glpk.h"
#include "tests/bench/stopwatch.h"
#include "tests/bench/table_rows.h"

namespace kartwright {
namespace {

/// Adjustments with six places each on nine axes: a kart has about twenty-five.
BundleCase moves_of_a_kart(int adjustments) {
  BundleCase c{.mean = Eigen::VectorXd::LinSpaced(9, -2.0, 2.0),
               .weights = Eigen::VectorXd::Ones(9)};
  for (int group = 0; group < adjustments; ++group) {
    Eigen::VectorXd effect(9);
    for (int axis = 0; axis < 9; ++axis) effect[axis] = ((group * 7 + axis * 5) % 11 - 5) / 10.0;
    c.steps.push_back({effect, 0.05});
    for (int place = 1; place <= 6; ++place) {
      c.items.push_back(
          {.group = group, .step = static_cast<std::size_t>(group), .amount = place - 3.5});
    }
  }
  return c;
}

/// GLPK is asked in each of its eight ways at each go, and the quickest counts.
PairedGoes beside_glpk(const IntegerSquares& problem, std::size_t most, int goes) {
  constexpr int kOurTimes = 200;
  const BundleCase c = as_bundle_case(problem);
  PairedGoes pairs;
  for (int go = 0; go < goes; ++go) {
    const GlpkTime theirs = time_glpk(problem, static_cast<int>(most), 1);
    BundleChoice found;
    pairs.ours.push_back(time_of(kOurTimes, [&] { found = best_set(c, most); }));
    pairs.theirs.push_back(theirs.seconds);
    agree(std::abs(found.value - theirs.value) <= 1e-6, "the best set of moves");
  }
  return pairs;
}

void time_set(Effort effort, std::size_t most, const std::string& called) {
  Group group("best " + called + " of moves", "GLPK, its quickest way");
  int number = 0;
  for (const IntegerSquares& problem : integer_squares()) {
    group.add(fmt::format("case {}", ++number), 0.0,
              beside_glpk(problem, most, effort.quick ? 1 : 5));
    if (effort.quick) break;
  }
  group.print();
}

void time_growth(Effort effort, std::size_t most, const std::string& called) {
  Group group("best " + called + ", a kart's moves");
  for (const int adjustments : {6, 12, 25, 50}) {
    const BundleCase c = moves_of_a_kart(adjustments);
    double kept = 0.0;
    group.add(fmt::format("{} moves", c.items.size()), static_cast<double>(c.items.size()),
              alone(effort.goes(), [&] { kept += best_set(c, most).value; }));
    agree(kept >= 0.0, "a loss below nothing");
  }
  group.print();
}

}  // namespace

void time_choice(Effort effort) {
  time_set(effort, 2, "pair");
  time_set(effort, 3, "triple");
  time_growth(effort, 2, "pair");
  time_growth(effort, 3, "triple");
}

}  // namespace kartwright
