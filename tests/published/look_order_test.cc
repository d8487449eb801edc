// The order of looking against every other order there is. With one fault to find, and each look
// finding its own, most worth per minute first costs least (Kadane and Simon 1977; that the rule is
// optimal is verified in the abstract of arXiv 1203.3502).

#include <algorithm>
#include <cmath>
#include <numeric>
#include <random>
#include <string>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "engine/inference/fault_odds.h"

namespace kartwright {
namespace {

using testing::ElementsAre;

/// One thing to look at.
struct Look {
  double probability, minutes, loss = 1.0;
};
using Order = std::vector<std::size_t>;

/// What an order costs: each fault is found when its own look is over.
double cost_of(const std::vector<Look>& looks, const Order& order) {
  double clock = 0.0;
  double cost = 0.0;
  for (const std::size_t i : order) {
    clock += looks[i].minutes;
    cost += looks[i].probability * looks[i].loss * clock;
  }
  return cost;
}

/// Least and most that any order costs.
std::pair<double, double> of_all_orders(const std::vector<Look>& looks) {
  Order order(looks.size());
  std::iota(order.begin(), order.end(), 0U);
  double least = HUGE_VAL;
  double most = 0.0;
  do {
    least = std::min(least, cost_of(looks, order));
    most = std::max(most, cost_of(looks, order));
  } while (std::next_permutation(order.begin(), order.end()));
  return {least, most};
}

/// The engine's order of the same faults. The prior carries the probability.
Order engine_order(const std::vector<Look>& looks) {
  Pack pack;
  for (std::size_t i = 0; i < looks.size(); ++i) {
    Fault fault;
    fault.id = std::string(1, static_cast<char>('a' + i));
    fault.prior = 10.0 * std::log10(looks[i].probability / (1.0 - looks[i].probability));
    fault.minutes = looks[i].minutes;
    fault.loss = looks[i].loss;
    pack.faults.push_back(fault);
  }
  const Kart kart;
  const std::vector<Report> reports;
  Order order;
  for (const FaultOdds& odds :
       weigh_faults({.pack = pack, .kart = kart, .reports = reports, .facts = {}})) {
    order.push_back(static_cast<std::size_t>(odds.fault - pack.faults.data()));
  }
  return order;
}

// Two cases worked out by trying every order (computed for this project, no outside source).
TEST(LookOrderByEnumeration, OfThreeFaults) {
  const std::vector<Look> looks{{.5, 10}, {.3, 2}, {.2, 4}};
  EXPECT_NEAR(cost_of(looks, engine_order(looks)), 9.8, 1e-12);
  EXPECT_NEAR(of_all_orders(looks).first, 9.8, 1e-12);
  EXPECT_NEAR(of_all_orders(looks).second, 12.6, 1e-12);
}

TEST(LookOrderByEnumeration, OfFourFaults) {
  const std::vector<Look> looks{{.45, 9}, {.25, 2}, {.20, 8}, {.10, 1}};
  EXPECT_THAT(engine_order(looks), ElementsAre(1U, 3U, 0U, 2U));
  EXPECT_NEAR(cost_of(looks, engine_order(looks)), 10.2, 1e-12);
  EXPECT_NEAR(of_all_orders(looks).first, 10.2, 1e-12);
  EXPECT_NEAR(of_all_orders(looks).second, 16.05, 1e-12);
}

// Kleinberg and Tardos, Algorithm Design, the photocopying exercise (verified at quesba.com
// 916290): jobs of time 1 and 3 and weights 10 and 2; the better order costs 18, the other 46.
// Even odds halve both.
TEST(PublishedJobOrder, OfTwoJobs) {
  const std::vector<Look> looks{{.5, 1, 10}, {.5, 3, 2}};
  EXPECT_THAT(engine_order(looks), ElementsAre(0U, 1U));
  EXPECT_NEAR(2.0 * cost_of(looks, engine_order(looks)), 18.0, 1e-12);
  EXPECT_NEAR(2.0 * of_all_orders(looks).second, 46.0, 1e-12);
}

// Jensen and Nielsen, Bayesian Networks and Decision Graphs, exercise on Example 9.2 (statement
// verified at quesba.com 1404697; its answer worked out here over all sequences): three causes,
// four actions that each mend some of them.
struct Action {
  double cost;
  double mends[3];
};
constexpr double kCauses[] = {.80, .15, .05};
constexpr Action kActions[] = {
    {1, {1, 0, 0}}, {2, {0, .95, 0}}, {25, {.99, .99, 0}}, {500, {1, 1, 1}}};

/// Expected cost until the trouble is gone, each action taken only while it is still there.
double expected_cost(const Order& order) {
  double cost = 0.0;
  double still_there[] = {kCauses[0], kCauses[1], kCauses[2]};
  for (const std::size_t i : order) {
    cost += kActions[i].cost * (still_there[0] + still_there[1] + still_there[2]);
    for (int cause = 0; cause < 3; ++cause) still_there[cause] *= 1.0 - kActions[i].mends[cause];
  }
  return cost;
}

TEST(PublishedTroubleshooting, OfFourActionsIsInTheOrderOfTheBestSequence) {
  Order best{0, 1, 2, 3};
  double least = HUGE_VAL;
  Order order{0, 1, 2, 3};
  do {
    if (expected_cost(order) >= least) continue;
    least = expected_cost(order);
    best = order;
  } while (std::next_permutation(order.begin(), order.end()));
  EXPECT_NEAR(least, 27.875, 1e-9);
  EXPECT_THAT(best, ElementsAre(0U, 1U, 2U, 3U));

  // To the engine an action is a look that ends the matter with its own probability.
  std::vector<Look> looks;
  for (const Action& action : kActions) {
    double mends = 0.0;
    for (int cause = 0; cause < 3; ++cause) mends += kCauses[cause] * action.mends[cause];
    looks.push_back({.probability = std::min(mends, 1.0 - 1e-12), .minutes = action.cost});
  }
  EXPECT_EQ(engine_order(looks), best);
}

TEST(LookOrderByEnumeration, IsNeverBeatenByAnyOrder) {
  std::mt19937_64 random(8);
  std::uniform_real_distribution<double> share(0.01, 1.0);
  for (int round = 0; round < 300; ++round) {
    std::vector<Look> looks(1 + random() % 6);
    double sum = 0.0;
    for (Look& look : looks) {
      look = {
          .probability = share(random), .minutes = 20 * share(random), .loss = 3 * share(random)};
      sum += look.probability;
    }
    for (Look& look : looks) look.probability *= 0.9 / sum;
    const double cost = cost_of(looks, engine_order(looks));
    ASSERT_LE(cost, of_all_orders(looks).first * (1.0 + 1e-12)) << "round " << round;
  }
}

}  // namespace
}  // namespace kartwright
