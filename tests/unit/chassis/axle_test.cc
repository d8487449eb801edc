#include "engine/chassis/axle.h"

#include <numbers>

#include <gtest/gtest.h>

#include "tests/support/default_sprint_kart.h"

namespace kartwright {
namespace {

/// What a wheel gives under its own load beyond its tyre and its bearing's carrier.
double bending(const SprintKart& kart) {
  return axle_compliance(kart, 0.0).left_left - 1.0 / kart.rear_tyre - 1.0 / kart.carrier;
}

TEST(Axle, AWallOfHalfTheDiameterIsABar) {
  EXPECT_DOUBLE_EQ(tube_second_moment(0.050, 0.025),
                   std::numbers::pi / 64.0 * 0.050 * 0.050 * 0.050 * 0.050);
}

TEST(Axle, BothWheelsAreAlikeWithoutSideForce) {
  const AxleCompliance give = axle_compliance(default_sprint_kart(), 0.0);
  EXPECT_EQ(give.left_left, give.right_right);
  EXPECT_EQ(give.left_right, give.right_left);
}

TEST(Axle, SideForceLiftsTheInsideOfTheAxleAndLowersTheOutside) {
  const AxleCompliance straight = axle_compliance(default_sprint_kart(), 0.0);
  const AxleCompliance left_turn = axle_compliance(default_sprint_kart(), 1.0);
  EXPECT_GT(left_turn.left_left, straight.left_left);
  EXPECT_LT(left_turn.right_right, straight.right_right);
}

TEST(Axle, AThickerWallALongerHubAndWiderBearingsStiffenIt) {
  const SprintKart kart = default_sprint_kart();
  SprintKart thick = kart;
  thick.axle_wall = 0.003;
  EXPECT_LT(bending(thick), bending(kart));
  SprintKart long_hub = kart;
  long_hub.hub_length = 0.11;
  EXPECT_LT(bending(long_hub), bending(kart));
  SprintKart wide = kart;
  wide.bearing_half_distance = 0.34;
  EXPECT_LT(bending(wide), bending(kart));
}

TEST(Axle, TheMiddleBearingTurnsTheOtherWheelTheOtherWay) {
  SprintKart kart = default_sprint_kart();
  EXPECT_LT(axle_compliance(kart, 0.0).left_right, 0.0);
  kart.middle_bearing = false;
  EXPECT_GT(axle_compliance(kart, 0.0).left_right, 0.0);
}

TEST(Axle, IsAFewPerCentOfWhatTheTyreGives) {
  const SprintKart kart = default_sprint_kart();
  EXPECT_GT(bending(kart) * kart.rear_tyre, 0.04);
  EXPECT_LT(bending(kart) * kart.rear_tyre, 0.08);
}

TEST(Axle, AHubOverTheWholeOverhangLeavesOnlyTheBearingsToTurn) {
  SprintKart kart = default_sprint_kart();
  kart.hub_length = 0.5;
  const double whole = bending(kart);
  EXPECT_GT(whole, 0.0);
  kart.hub_length = 0.6;
  EXPECT_EQ(bending(kart), whole);
}

TEST(Axle, BearingsBeyondTheWheelsLeaveNothingToBend) {
  SprintKart kart = default_sprint_kart();
  kart.bearing_half_distance = 0.7;
  EXPECT_NEAR(bending(kart), 0.0, 1e-18);
}

}  // namespace
}  // namespace kartwright
