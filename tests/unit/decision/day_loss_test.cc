// The loss of a stage as a polynomial, held against the sum it stands for.

#include "engine/decision/day_loss.h"

#include <algorithm>

#include <gtest/gtest.h>

namespace kartwright {
namespace {

BundleStep step(double first, double second, double spread) {
  return {.effect = Eigen::Vector2d(first, second), .spread = spread};
}

/// Two levers, one of which stands two steps from where the means hold.
struct TwoLevers {
  PlanCase day{.weights = Eigen::Vector2d(2.0, 1.0),
               .levers = {{.places = {-1.0, 0.5, 2.0, 3.0}, .now = 2},
                          {.places = {-2.0, 0.0, 1.0}, .now = 1}}};
  PlanStage stage{.mean = Eigen::Vector2d(1.0, -1.0),
                  .weight = 3.0,
                  .steps = {step(0.5, 0.0, 0.25), step(-1.0, 1.0, 0.5)}};

  /// With the levers moved so far from where they stand, worked out in the open.
  double worked_out(double u, double v) const {
    const double first = 1.0 + 0.5 * (2.0 + u) - v;
    const double second = -1.0 + v;
    return 3.0 *
           (2.0 * first * first + second * second + 0.25 * (2.0 + u) * (2.0 + u) + 0.5 * v * v);
  }
};

double polynomial(const StageLoss& loss, double u, double v) {
  return loss.constant + (loss.slope[0] + loss.square[0] * u) * u +
         (loss.slope[1] + loss.square[1] * v) * v + loss.between(0, 1) * u * v;
}

TEST(StageLoss, IsTheHandlingErrorAndDoubtOfEveryStepFromWhereTheLeversStand) {
  const TwoLevers two;
  const StageLoss loss = stage_loss(two.day, two.stage);
  EXPECT_DOUBLE_EQ(loss.between(0, 1), loss.between(1, 0));
  for (const double u : {-3.0, -1.5, 0.0, 1.0}) {
    for (const double v : {-2.0, 0.0, 1.0})
      EXPECT_NEAR(polynomial(loss, u, v), two.worked_out(u, v), 1e-12) << u << ' ' << v;
  }
}

TEST(PlacesOfALever, AreCountedFromWhereItStands) {
  const TwoLevers two;
  const std::vector<PlanLever> levers = from_where_they_stand(two.day.levers);
  EXPECT_EQ(levers[0].places, (std::vector<double>{-3.0, -1.5, 0.0, 1.0}));
  EXPECT_EQ(levers[0].now, 2U);
  EXPECT_EQ(levers[1].places, (std::vector<double>{-2.0, 0.0, 1.0}));
}

TEST(LossOnPlaces, RunsOverTheFirstLeverFastest) {
  TwoLevers two;
  const StageLoss loss = stage_loss(two.day, two.stage);
  two.day.levers = from_where_they_stand(two.day.levers);
  const std::vector<double> all = loss_on_places(loss, two.day, {0, 1}, {});
  ASSERT_EQ(all.size(), 12U);
  std::size_t at = 0;
  for (const double v : two.day.levers[1].places) {
    for (const double u : two.day.levers[0].places)
      EXPECT_NEAR(all[at++], two.worked_out(u, v), 1e-12) << u << ' ' << v;
  }
}

TEST(LossOnPlaces, WithALeverAnywhereIsTheLeastBetweenItsEnds) {
  TwoLevers two;
  const StageLoss loss = stage_loss(two.day, two.stage);
  two.day.levers = from_where_they_stand(two.day.levers);
  const std::vector<double> all = loss_on_places(loss, two.day, {0}, 1);
  ASSERT_EQ(all.size(), 4U);
  for (std::size_t i = 0; i < all.size(); ++i) {
    double least = two.worked_out(two.day.levers[0].places[i], -2.0);
    for (int v = -2000; v <= 1000; ++v)
      least = std::min(least, two.worked_out(two.day.levers[0].places[i], v / 1000.0));
    EXPECT_NEAR(all[i], least, 1e-4) << i;
  }
}

/// Lever 0 alone, between -1 and 2 steps: 7 + slope u + square u^2.
double least_of(double slope, double square) {
  PlanCase day;
  day.levers = {{.places = {-1.0, 0.0, 2.0}, .now = 1}};
  const StageLoss loss{
      .constant = 7.0, .slope = {slope}, .square = {square}, .cross = Eigen::MatrixXd::Zero(1, 1)};
  return least_between_ends(loss, day, {0});
}

TEST(LeastBetweenEnds, OfOneLeverIsAtItsBestOrAtAnEnd) {
  EXPECT_NEAR(least_of(-2.0, 1.0), 6.0, 1e-9);   // at one step
  EXPECT_NEAR(least_of(1.0, 1.0), 6.75, 1e-9);   // at half a step back
  EXPECT_NEAR(least_of(-8.0, 1.0), -5.0, 1e-9);  // beyond its last place
  EXPECT_NEAR(least_of(8.0, 1.0), 0.0, 1e-9);    // beyond its first
  EXPECT_NEAR(least_of(3.0, 0.0), 4.0, 1e-9);    // a straight line falls to an end
  EXPECT_NEAR(least_of(-3.0, 0.0), 1.0, 1e-9);
}

TEST(LeastBetweenEnds, OfTwoThatPullOnEachOtherIsNeverAboveTheLeastAndHardlyBelow) {
  TwoLevers two;
  for (const double lean : {-3.0, -1.0, 0.0, 2.0, 6.0}) {
    two.stage.mean = Eigen::Vector2d(lean, -lean);
    const StageLoss loss = stage_loss(two.day, two.stage);
    PlanCase day = two.day;
    day.levers = from_where_they_stand(day.levers);
    double least = polynomial(loss, 0.0, 0.0);
    for (int u = -300; u <= 100; ++u) {  // hundredths of a step, both ends with them
      for (int v = -200; v <= 100; ++v)
        least = std::min(least, polynomial(loss, u / 100.0, v / 100.0));
    }
    const double bound = least_between_ends(loss, day, {0, 1});
    EXPECT_LE(bound, least + 1e-9) << lean;
    EXPECT_GE(bound, least - 0.01) << lean;
  }
}

}  // namespace
}  // namespace kartwright
