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

// From 0.6 off a step leaves 0.4, which is 0.2 better.
TEST(DayPlan, StopsOnlyForMoreThanAStopMustBring) {
  PlanCase c = day_of({-0.6});
  c.stages[0].stop_cost = 0.5;
  EXPECT_EQ(steps_of(c), (Steps{0.0}));
  EXPECT_NEAR(best_plan(c).value, 0.36, 1e-12);
  c.stages[0].stop_cost = 0.1;
  EXPECT_EQ(steps_of(c), (Steps{1.0}));
  EXPECT_NEAR(best_plan(c).value, 0.26, 1e-12);
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

TEST(DayPlan, MovesALeverThatOnlyMendsWhatAnotherSpoils) {
  // The second takes the error of one axis out and puts it on the other; the first takes it there.
  PlanCase c{.weights = Eigen::Vector2d(1.0, 1.0)};
  const PlanLever lever{.places = {-2.0, -1.0, 0.0, 1.0, 2.0}, .now = 2};
  c.levers = {lever, lever};
  c.stages.push_back(
      {.mean = Eigen::Vector2d(0.0, 2.0),
       .steps = {{Eigen::Vector2d(1.0, 0.0), 0.0}, {Eigen::Vector2d(1.0, 1.0), 0.0}}});
  EXPECT_EQ(steps_of(c, 0), (Steps{2.0}));
  EXPECT_EQ(steps_of(c, 1), (Steps{-2.0}));
  EXPECT_NEAR(best_plan(c).value, 0.0, 1e-12);
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

// --- what a plan comes to ------------------------------------------------------------------------

/// Two levers on one stand and two axes; the plan moves both at first, then the second alone.
struct TwoStops {
  PlanCase day{.weights = Eigen::Vector2d(2.0, 1.0), .end_cost = 0.4};
  PlanPlaces plan{{2, 1}, {2, 2}};

  TwoStops() {
    day.levers = {
        {.places = {-1.0, 0.0, 2.0}, .now = 1, .minutes = 6.0, .stand = 0, .stand_minutes = 2.0},
        {.places = {0.0, 1.0, 3.0}, .now = 0, .minutes = 5.0, .stand = 0, .stand_minutes = 2.0}};
    const std::vector<BundleStep> steps{{.effect = Eigen::Vector2d(0.5, 0.0), .spread = 0.25},
                                        {.effect = Eigen::Vector2d(-1.0, 1.0), .spread = 0.5}};
    day.stages = {
        {.mean = Eigen::Vector2d(1.0, -1.0), .weight = 3.0, .steps = steps, .stop_cost = 0.5},
        {.mean = Eigen::Vector2d(0.0, 1.0), .weight = 0.5, .steps = steps, .stop_cost = 0.7}};
  }
  bool allowed() const { return value_of(day, plan).allowed; }
};

TEST(PlanValue, IsTheHandlingErrorOfEveryStageWithItsDoubt) {
  // Means (1, 0) and (-2, 4): 3 (2 + 0.25 * 4 + 0.5) + 0.5 (8 + 16 + 0.25 * 4 + 0.5 * 9).
  const TwoStops two;
  EXPECT_DOUBLE_EQ(value_of(two.day, two.plan).loss, 10.5 + 14.75);
}

TEST(PlanValue, CountsTheMinutesOfAStandOnceAStop) {
  const TwoStops two;
  EXPECT_DOUBLE_EQ(value_of(two.day, two.plan).minutes, (6.0 + 5.0 - 2.0) + 5.0);
}

TEST(PlanValue, ChargesForAStopOnlyWhereSomethingIsMovedAtIt) {
  TwoStops two;
  EXPECT_DOUBLE_EQ(value_of(two.day, two.plan).stops, 0.5 + 0.7);
  two.plan[1] = two.plan[0];
  EXPECT_DOUBLE_EQ(value_of(two.day, two.plan).stops, 0.5);
}

TEST(PlanValue, ChargesForLandingOnAnEndButNotForStandingThere) {
  TwoStops two;
  EXPECT_EQ(value_of(two.day, two.plan).ends, 0.0);
  two.day.levers[0].ends_cost = true;  // lands on its last place, and stays
  EXPECT_DOUBLE_EQ(value_of(two.day, two.plan).ends, 0.4);
  two.day.levers[1].ends_cost = true;  // lands on its last place at the second stop
  EXPECT_DOUBLE_EQ(value_of(two.day, two.plan).ends, 0.8);
  two.plan = {{0, 0}, {0, 0}};  // the first lever to its first place; the second stands on an end
  EXPECT_DOUBLE_EQ(value_of(two.day, two.plan).ends, 0.4);
}

TEST(PlanValue, IsOfNoPlanWhereAMoveIsTooFarForOneStop) {
  TwoStops two;
  two.day.levers[1].reach = 2.0;  // from 1 to 3 at the second stop
  EXPECT_TRUE(two.allowed());
  two.day.levers[1].reach = 1.5;
  EXPECT_FALSE(two.allowed());
  two.day.stages[1].any_reach = true;
  EXPECT_TRUE(two.allowed());
}

TEST(PlanValue, IsOfNoPlanWhereAStopIsTooLongOrHasTooManyChanges) {
  TwoStops two;
  two.day.stages[0].most_minutes = 9.0;
  two.day.stages[1].most_changes = 1;
  EXPECT_TRUE(two.allowed());
  two.day.stages[0].most_minutes = 8.9;
  EXPECT_FALSE(two.allowed()) << "though the second stop is short";
  two.day.stages[0].most_minutes = 9.0;
  two.day.stages[0].most_changes = 1;
  EXPECT_FALSE(two.allowed());
}

TEST(PlanValue, IsOfNoPlanWhereItMovesTwoNamesOfOneSettingOrTooManyLevers) {
  TwoStops two;
  two.day.most_levers = 2;
  two.day.levers[0].exclusion = 0;
  two.day.levers[1].exclusion = 1;
  EXPECT_TRUE(two.allowed());
  two.day.levers[1].exclusion = 0;
  EXPECT_FALSE(two.allowed());
  two.day.levers[1].exclusion = 1;
  two.day.most_levers = 1;
  EXPECT_FALSE(two.allowed());
  two.plan = {{2, 0}, {2, 0}};
  EXPECT_TRUE(two.allowed());
  two.day.levers[1].used = true;  // before the day
  EXPECT_FALSE(two.allowed());
  two.plan = {{1, 0}, {1, 0}};
  EXPECT_TRUE(two.allowed()) << "nothing is moved any more";
}

}  // namespace
}  // namespace kartwright
