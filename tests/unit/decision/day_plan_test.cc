// A day planned over its stages: small ones, where a crew chief sees the answer.

#include "engine/decision/day_plan.h"

#include <gtest/gtest.h>

namespace kartwright {
namespace {

using Eigen::VectorXd;

VectorXd notches(double value) { return VectorXd::Constant(1, value); }

/// One axis, one lever of five places a notch apart, in the middle; a stage for each mean.
PlanCase day_of(const std::vector<double>& means) {
  PlanCase c{.weights = notches(1.0)};
  c.levers.push_back({.places = {-2.0, -1.0, 0.0, 1.0, 2.0}, .now = 2});
  for (const double mean : means)
    c.stages.push_back({.mean = notches(mean), .steps = {{notches(1.0), 0.0}}});
  return c;
}

std::vector<double> steps_of(const PlanCase& c, std::size_t lever = 0) {
  std::vector<double> out;
  for (const auto& places : best_plan(c).places)
    out.push_back(c.levers[lever].places[places[lever]]);
  return out;
}

using Steps = std::vector<double>;

TEST(DayPlan, FollowsTheTrackWhereMovingIsFree) {
  EXPECT_EQ(steps_of(day_of({1.0, 0.0, -2.0})), (Steps{-1.0, 0.0, 2.0}));
}

TEST(DayPlan, StandsBetweenTheStagesWhereMovingCostsMoreThanItBrings) {
  PlanCase c = day_of({1.0, 0.0, -2.0});
  for (PlanStage& stage : c.stages) stage.stop_cost = 4.0;
  c.stages.front().stop_cost = 0.0;
  EXPECT_EQ(steps_of(c), (Steps{0.0, 0.0, 0.0}));
}

// A move reaches one place only: to be two up at the end, the day starts half way there.
TEST(DayPlan, StartsWhereTheLastStageCanBeReached) {
  PlanCase c = day_of({2.0, -2.0});
  c.levers[0].reach = 1.0;
  c.stages[0].any_reach = true;
  EXPECT_EQ(steps_of(c), (Steps{-1.0, 0.0}));
  c.stages[1].weight = 4.0;
  EXPECT_EQ(steps_of(c), (Steps{0.0, 1.0}));
}

TEST(DayPlan, PrefersWhatItKnowsOverWhatItGuesses) {
  PlanCase c = day_of({-1.0});
  c.levers.push_back(c.levers[0]);
  c.stages[0].steps[0].spread = 0.9;
  c.stages[0].steps.push_back({notches(1.0), 0.1});
  EXPECT_EQ(steps_of(c, 0), (Steps{0.0}));
  EXPECT_EQ(steps_of(c, 1), (Steps{1.0}));
}

TEST(DayPlan, LandsOnAnEndOnlyWhereThatPaysForItself) {
  PlanCase c = day_of({-1.6});
  c.levers[0].ends_cost = true;
  EXPECT_EQ(steps_of(c), (Steps{2.0}));
  c.end_cost = 0.3;
  EXPECT_EQ(steps_of(c), (Steps{1.0}));
}

TEST(DayPlan, MovesNoMoreLeversThanItMay) {
  PlanCase c = day_of({-4.0});
  c.levers.push_back(c.levers[0]);
  c.stages[0].steps.push_back({notches(1.0), 0.0});
  EXPECT_NEAR(best_plan(c).value, 0.0, 1e-9);
  c.most_levers = 1;
  EXPECT_NEAR(best_plan(c).value, 4.0, 1e-9);
}

TEST(DayPlan, DoesNotFitAStopThatTakesLongerThanTheBreak) {
  PlanCase c = day_of({1.0, -1.0});
  c.levers[0].minutes = 16.0;
  c.stages[1].most_minutes = 15.0;
  EXPECT_EQ(steps_of(c), (Steps{0.0, 0.0}));
}

TEST(DayPlan, OfALeverThatMovesNothingLeavesItAlone) {
  PlanCase c = day_of({1.0});
  c.stages[0].steps[0].effect = notches(0.0);
  const DayPlan plan = best_plan(c);
  EXPECT_EQ(plan.value, 1.0);
  EXPECT_TRUE(plan.exact());
  EXPECT_EQ(plan.looked_at, 0U);
}

TEST(DayPlan, ThatMayNotLookSaysSo) {
  PlanCase c = day_of({1.0, 0.0, -2.0});
  c.levers.push_back(c.levers[0]);
  for (PlanStage& stage : c.stages) stage.steps.push_back({notches(0.7), 0.0});
  c.minute_cost = 0.1;
  c.levers[0].minutes = c.levers[1].minutes = 1.0;
  c.most_work = 0;
  const DayPlan plan = best_plan(c);
  EXPECT_FALSE(plan.exact());
  EXPECT_LT(plan.bound, plan.value);
}

}  // namespace
}  // namespace kartwright
