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

/// A bar of no stiffness to speak of but its own: by the beam's formulas, number by number.
TEST(Axle, GivesByTheFormulasOfABeamBeyondItsBearings) {
  SprintKart kart = default_sprint_kart();
  kart.rear_track = 1.20;
  kart.bearing_half_distance = 0.40;  // an overhang of 0.2 m
  kart.hub_length = 0.13;
  kart.hub_outboard = 0.03;  // of which the hub holds 0.1 m straight
  kart.rear_tyre_radius = 0.10;
  kart.axle_modulus = 1000.0 / tube_second_moment(kart.axle_diameter, kart.axle_wall);
  kart.rear_tyre = 4.0;
  kart.carrier = 2.0;                                // in series with the tyre 0.75 m for a newton
  const double bends = (0.008 - 0.001) / 3000.0;     // under a force at its end
  const double turned = (0.04 - 0.01) / 2000.0;      // by a moment there
  const double own = 7.0 / 24.0 * 0.40 / 1000.0;     // slope at a bearing, for a moment at it
  const double across = 1.0 / 24.0 * 0.40 / 1000.0;  // and at the other, the other way
  const AxleCompliance give = axle_compliance(kart, 0.5);  // an arm of 0.05 m
  EXPECT_NEAR(give.left_left, 0.75 + 0.2 * own * 0.25 + bends + 0.05 * turned, 1e-12);
  EXPECT_NEAR(give.right_right, 0.75 + 0.2 * own * 0.15 + bends - 0.05 * turned, 1e-12);
  EXPECT_NEAR(give.left_right, -0.2 * across * 0.15, 1e-15);
  EXPECT_NEAR(give.right_left, -0.2 * across * 0.25, 1e-15);

  kart.middle_bearing = false;
  const AxleCompliance two = axle_compliance(kart, 0.5);
  EXPECT_NEAR(two.left_left - give.left_left, 0.2 * (2.0 / 3.0 - 7.0 / 24.0) * 0.4e-3 * 0.25,
              1e-12);
  EXPECT_NEAR(two.left_right, 0.2 * 0.4e-3 / 3.0 * 0.15, 1e-15);
}

}  // namespace
}  // namespace kartwright
