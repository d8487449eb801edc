// The best set of moves against every set looked at one by one: on cases made up at random, and on
// random karts.

#include <algorithm>
#include <cmath>
#include <set>

#include <gtest/gtest.h>

#include "engine/decision/bundles.h"
#include "tests/support/pit.h"
#include "tests/support/small_bundles.h"
#include "tests/support/throws.h"

namespace kartwright {
namespace {

/// How often something was seen that makes the cases worth their time.
struct Seen {
  std::size_t sets = 0, largest = 0, nothing = 0;
};

void expect_same(const BundleCase& c, std::size_t most, Seen& seen) {
  const BundleChoice found = best_set(c, most);
  const naive::Enumerated all = naive::enumerate(c, most);
  EXPECT_EQ(found.items, all.first);
  EXPECT_NEAR(found.value, all.value, 1e-9);
  seen.sets += all.allowed;
  seen.largest += found.items.size() == most ? 1 : 0;
  seen.nothing += found.items.empty() ? 1 : 0;
}

void expect_worth_it(const Seen& seen) {
  EXPECT_GT(seen.sets, throws_of_the_dice(30'000U));
  EXPECT_GT(seen.largest, throws_of_the_dice(100U));
  EXPECT_GT(seen.nothing, 20U);
}

class AnyCase : public testing::TestWithParam<std::size_t> {};

TEST_P(AnyCase, GivesTheSetThatLookingAtAllOfThemGives) {
  Random random(61);
  Seen seen;
  for (int i = 0; i < throws_of_the_dice(1000) && !HasFailure(); ++i) {
    SCOPED_TRACE("case " + std::to_string(i));
    expect_same(any_bundle_case(random, false), GetParam(), seen);
  }
  expect_worth_it(seen);
}

// Here many sets are worth the same: the one with the fewest moves, lowest first, is to win.
TEST_P(AnyCase, OfWholeNumbersGivesTheFirstOfTheSetsThatAreEqual) {
  Random random(62);
  Seen seen;
  for (int i = 0; i < throws_of_the_dice(1000) && !HasFailure(); ++i) {
    SCOPED_TRACE("case " + std::to_string(i));
    expect_same(any_bundle_case(random, true), GetParam(), seen);
  }
  expect_worth_it(seen);
}

INSTANTIATE_TEST_SUITE_P(PairsAndTriples, AnyCase, testing::Values(2U, 3U));

// --- on karts -----------------------------------------------------------------------------------

/// A move as the trade sees it, with what it does.
struct Chance {
  const Option* option;
  const Effect* effect;
  const std::string& id() const { return option->setting->adjustment->id; }
};

bool on_the_stand(const std::string& id) {
  return id == "rear-width" || id == "rear-hubs" || id == "axle";
}
bool is_pressure(const std::string& id) { return id.ends_with("pressures"); }

double minutes_together(const Chance& a, const Chance& b) {
  const double sum = a.option->minutes + b.option->minutes;
  if (!on_the_stand(a.id()) || !on_the_stand(b.id())) return sum;
  return sum - std::min({2.0, a.option->minutes, b.option->minutes});
}

double points_together(const Stakes& stakes, const Chance& a, const Chance& b) {
  double loss = 0.0;
  double none = 0.0;
  for (Eigen::Index axis = 0; axis < stakes.mean.size(); ++axis) {
    const double weight = stakes.weights[axis];
    double left = stakes.mean[axis];
    for (const Chance* each : {&a, &b}) {
      const double u = each->option->steps;
      left += u * each->effect->per_step[axis];
      loss += weight * u * u * each->effect->covariance(axis, axis);
    }
    loss += weight * left * left;
    none += weight * stakes.mean[axis] * stakes.mean[axis];
  }
  const double rate = 0.5 * std::min(4.0, std::max(1.0, 15.0 / stakes.minutes_left));
  const int ends = (a.option->last_notch ? 1 : 0) + (b.option->last_notch ? 1 : 0);
  return 100.0 * (1.0 - loss / none) - rate * minutes_together(a, b) - 3.0 * ends;
}

/// The most points that two moves of different adjustments bring.
double most_points(const Stakes& stakes, const std::vector<Chance>& chances) {
  double most = 0.0;
  for (const Chance& a : chances) {
    for (const Chance& b : chances) {
      if (a.id() >= b.id() || (is_pressure(a.id()) && is_pressure(b.id()))) continue;
      if (minutes_together(a, b) > stakes.minutes_left) continue;
      most = std::max(most, points_together(stakes, a, b));
    }
  }
  return most;
}

std::vector<Chance> chances_of(const Advice& advice) {
  std::vector<Chance> out;
  for (std::size_t i = 0; i < advice.ways.size(); ++i) {
    for (const Option& option : advice.ways[i].options) {
      if (option.legal()) out.push_back({&option, &advice.effects[i / 2]});
    }
  }
  return out;
}

TEST(PairOfAnyKart, BringsTheMostPointsThatAnyPairBrings) {
  Random random(63);
  int pairs = 0;
  int on_one_stand = 0;
  for (int i = 0; i < 150 && !HasFailure(); ++i) {
    SCOPED_TRACE("case " + std::to_string(i));
    const Kart kart = any_kart(random, rules());
    Debrief debrief = any_debrief(random, rules());
    if (one_in(random, 3)) debrief.minutes = 60.0;
    const Advice advice = advise(rules(), kart, debrief, System::metric);
    const Stakes stakes{.mean = advice.belief.mean,
                        .weights = advice.weights,
                        .minutes_left = advice.debrief.minutes};
    const std::vector<Chance> chances = chances_of(advice);
    const Bundle best = best_bundle(stakes, advice.ways, advice.effects, 2);
    const double most = most_points(stakes, chances);
    if (best.moves.size() < 2) {
      EXPECT_LE(most, best.points + 1e-9);
      continue;
    }
    EXPECT_NEAR(best.points, most, 1e-9);
    EXPECT_LE(best.minutes, stakes.minutes_left + 1e-9);
    ++pairs;
    on_one_stand += on_the_stand(best.moves[0].setting->adjustment->id) &&
                            on_the_stand(best.moves[1].setting->adjustment->id)
                        ? 1
                        : 0;
  }
  EXPECT_GT(pairs, 40);
  EXPECT_GT(on_one_stand, 1);
}

}  // namespace
}  // namespace kartwright
