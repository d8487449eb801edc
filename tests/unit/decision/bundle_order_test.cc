// Moves made together, in the order to make and to test them in.

#include <algorithm>

#include <gtest/gtest.h>

#include "engine/decision/bundles.h"
#include "tests/support/pit.h"

namespace kartwright {
namespace {

/// The pair that a kart of the built-in rules is offered, with what it was chosen from.
struct OfferedPair {
  Pit pit{.track = "rubbered-in", .reports = {"hop@mid=3", "bind@mid=2"}, .minutes = 60.0};
  Advice advice = pit.answer();
  Stakes stakes{.mean = advice.belief.mean, .weights = advice.weights, .minutes_left = 60.0};
  Bundle pair = best_bundle(stakes, advice.ways, advice.effects, 2);
};

TEST(BundleOrder, MakesEveryMoveOnceInTheMinutesOfTheStop) {
  const OfferedPair offered;
  const Bundle& pair = offered.pair;
  ASSERT_EQ(pair.moves.size(), 2U);
  ASSERT_EQ(pair.order.size(), 2U);
  EXPECT_EQ(pair.order[0].job + pair.order[1].job, 1U);
  EXPECT_DOUBLE_EQ(pair.order[0].until, pair.moves[pair.order[0].job].minutes);
  EXPECT_DOUBLE_EQ(pair.order[1].until, pair.minutes);
  EXPECT_DOUBLE_EQ(pair.order[0].until + pair.order[1].minutes, pair.minutes);
}

TEST(BundleOrder, SaysWhatIsLeftAfterEachMove) {
  const OfferedPair offered;
  const Bundle& pair = offered.pair;
  ASSERT_EQ(pair.order.size(), 2U);
  const Option& first = pair.moves[pair.order[0].job];
  const auto way =
      std::find_if(offered.advice.ways.begin(), offered.advice.ways.end(),
                   [&](const Way& each) { return each.adjustment == first.setting->adjustment; });
  const auto at = static_cast<std::size_t>(way - offered.advice.ways.begin()) / 2;
  EXPECT_NEAR(pair.order[0].loss, loss_of(offered.stakes, offered.advice.effects[at], first.steps),
              1e-9);
  EXPECT_NEAR(pair.order[1].loss, (1.0 - pair.relief) * loss_of_nothing(offered.stakes), 1e-9);
}

TEST(SharedMinutes, CountTheFirstOfAllStandsAsAny) {
  BundleCase c;
  c.items = {{.minutes = 6.0, .stand = 0, .stand_minutes = 2.0},
             {.minutes = 10.0, .stand = 0, .stand_minutes = 3.0},
             {.minutes = 4.0, .stand = 1, .stand_minutes = 3.0}};
  EXPECT_EQ(shared_minutes(c, {0, 1, 2}), 6.0 + 10.0 - 2.0 + 4.0);
}

TEST(BestSet, PrefersJobsThatShareTheFirstOfAllStands) {
  BundleCase c{.mean = Eigen::Vector2d(-1.0, -1.0), .weights = Eigen::Vector2d(1.0, 1.0)};
  c.steps = {{Eigen::Vector2d(1.0, 0.0)}, {Eigen::Vector2d(0.0, 1.0)}, {Eigen::Vector2d(1.0, 0.0)}};
  c.minute_cost = 0.05;
  c.items = {
      {.group = 0, .step = 0, .amount = 1.0, .minutes = 3.0},
      {.group = 1, .step = 1, .amount = 1.0, .minutes = 4.0, .stand = 0, .stand_minutes = 2.0},
      {.group = 2, .step = 2, .amount = 1.0, .minutes = 4.0, .stand = 0, .stand_minutes = 2.0}};
  EXPECT_EQ(best_set(c, 2).items, (std::vector<std::size_t>{1, 2})) << "six minutes against seven";
}

}  // namespace
}  // namespace kartwright
