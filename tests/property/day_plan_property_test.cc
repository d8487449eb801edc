// The plan of a day against every plan there is, and the order of a stop against every order.

#include <algorithm>
#include <cmath>
#include <numeric>

#include <gtest/gtest.h>

#include "engine/decision/day_plan.h"
#include "engine/decision/stop_order.h"
#include "tests/support/small_plans.h"
#include "tests/support/throws.h"

namespace kartwright {
namespace {

double whole_value(const PlanCase& c, const PlanValue& value) {
  return value.loss + c.minute_cost * value.minutes + value.ends + value.stops;
}

TEST(DayPlan, IsTheBestOfEveryPlanThereIs) {
  Random random(71);
  std::size_t plans = 0, moving = 0;
  for (int i = 0; i < throws_of_the_dice(500) && !testing::Test::HasFailure(); ++i) {
    SCOPED_TRACE("case " + std::to_string(i));
    const PlanCase c = any_plan_case(random);
    const naive::EveryPlan every = naive::every_plan(c);
    const DayPlan plan = best_plan(c);
    EXPECT_NEAR(plan.value, every.value, 1e-9 * std::max(1.0, every.value));
    EXPECT_TRUE(plan.exact());
    const PlanValue value = value_of(c, plan.places);
    EXPECT_TRUE(value.allowed);
    EXPECT_NEAR(whole_value(c, value), plan.value, 1e-7 * std::max(1.0, plan.value));
    plans += every.allowed;
    moving += value.minutes > 0.0 ? 1 : 0;
  }
  EXPECT_GT(plans, throws_of_the_dice(15'000U));
  EXPECT_GT(moving, throws_of_the_dice(150U));
}

// Where the work runs out, the bound lies under the best there is and the plan over it.
TEST(DayPlan, SaysHowFarItCouldBeFromTheBestWhereTheWorkRunsOut) {
  Random random(72);
  std::size_t given_up = 0;
  for (int i = 0; i < throws_of_the_dice(500) && !testing::Test::HasFailure(); ++i) {
    SCOPED_TRACE("case " + std::to_string(i));
    PlanCase c = any_plan_case(random);
    const double best = best_plan(c).value;
    c.most_work = any_below(random, 60);
    const DayPlan plan = best_plan(c);
    const double slack = 1e-7 * std::max(1.0, best);
    EXPECT_LE(plan.bound, best + slack);
    EXPECT_GE(plan.value, best - slack);
    EXPECT_TRUE(value_of(c, plan.places).allowed);
    EXPECT_TRUE(!plan.exact() || plan.value <= best + slack);
    given_up += plan.exact() ? 0 : 1;
  }
  EXPECT_GT(given_up, throws_of_the_dice(50U));
}

TEST(MinutesOfAStop, AreThoseOfTheJobsWithEachStandOnce) {
  Random random(73);
  std::size_t shared = 0;
  for (int i = 0; i < throws_of_the_dice(500); ++i) {
    PlanCase c = any_plan_case(random);
    PlanPlaces places(1);
    std::vector<std::size_t> moved;
    c.stages.resize(1);
    c.stages[0].most_minutes.reset();
    double alone = 0.0;
    for (std::size_t k = 0; k < c.levers.size(); ++k) {
      const PlanLever& lever = c.levers[k];
      const bool moves = !one_in(random, 3);
      places[0].push_back(moves ? (lever.now + 1) % lever.places.size() : lever.now);
      if (!moves) continue;
      moved.push_back(k);
      alone += lever.minutes;
    }
    const double minutes = value_of(c, places).minutes;
    EXPECT_NEAR(minutes, naive::minutes_of(c, moved), 1e-9);
    shared += minutes < alone - 1e-9 ? 1 : 0;
  }
  EXPECT_GE(shared, throws_of_the_dice(51U));
}

// --- the order of a stop ------------------------------------------------------------------------

struct AnyStop {
  std::vector<StopJob> jobs;
  std::vector<double> losses;  ///< by the jobs done, as bits

  double loss(const std::vector<std::size_t>& done) const {
    std::size_t which = 0;
    for (const std::size_t job : done) which |= std::size_t{1} << job;
    return losses[which];
  }
};

AnyStop any_stop(Random& random) {
  AnyStop stop;
  const int jobs = whole(random, 0, 5);
  for (int i = 0; i < jobs; ++i) {
    StopJob job{.minutes = any_between(random, 0.5, 10.0), .stand = whole(random, -1, 1)};
    job.stand_minutes = any_between(random, 0.0, job.minutes);
    stop.jobs.push_back(job);
  }
  for (std::size_t i = 0; i < std::size_t{1} << stop.jobs.size(); ++i)
    stop.losses.push_back(any_between(random, 0.0, 10.0));
  return stop;
}

/// The loss over the minutes of a stop in one order; above all where a stand is left and come back
/// to.
double over_the_minutes(const AnyStop& stop, const std::vector<std::size_t>& order) {
  double area = 0.0;
  std::vector<std::size_t> done;
  std::vector<int> left;
  for (std::size_t i = 0; i < order.size(); ++i) {
    const StopJob& job = stop.jobs[order[i]];
    double minutes = job.minutes, spent = 0.0;
    for (const std::size_t other : done) {
      if (job.stand >= 0 && stop.jobs[other].stand == job.stand)
        spent = std::max(spent, stop.jobs[other].stand_minutes);
    }
    minutes -= std::min(spent, job.stand_minutes);
    const int before = i == 0 ? -1 : stop.jobs[order[i - 1]].stand;
    if (before >= 0 && before != job.stand) left.push_back(before);
    if (job.stand >= 0 && std::find(left.begin(), left.end(), job.stand) != left.end())
      return 1e300;
    area += minutes * stop.loss(done);
    done.push_back(order[i]);
  }
  return area;
}

TEST(OrderOfAStop, IsTheBestOfEveryOrderThereIs) {
  Random random(74);
  std::size_t not_as_given = 0;
  for (int i = 0; i < throws_of_the_dice(500); ++i) {
    SCOPED_TRACE("stop " + std::to_string(i));
    const AnyStop stop = any_stop(random);
    const auto steps = stop_order(stop.jobs, [&](const auto& done) { return stop.loss(done); });
    ASSERT_EQ(steps.size(), stop.jobs.size());
    std::vector<std::size_t> found, order(stop.jobs.size());
    for (const StopStep& step : steps) found.push_back(step.job);
    std::iota(order.begin(), order.end(), std::size_t{0});
    not_as_given += found == order ? 0 : 1;
    double best = 1e300;
    do {
      best = std::min(best, over_the_minutes(stop, order));
    } while (std::next_permutation(order.begin(), order.end()));
    EXPECT_NEAR(over_the_minutes(stop, found), best, 1e-9 * std::max(1.0, best));
  }
  EXPECT_GT(not_as_given, throws_of_the_dice(150U));
}

}  // namespace
}  // namespace kartwright
