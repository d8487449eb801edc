#include "engine/chassis/corner.h"

#include <gtest/gtest.h>

#include "tests/support/default_sprint_kart.h"

namespace kartwright {
namespace {

constexpr double kInsideRearOff = 1.9 * kGravity;

Manoeuvre left_turn(double lateral) {
  return {.lateral = lateral, .steer = 5.5 * kDegree, .side_force = lateral / kGravity};
}

TEST(Corner, StandingStillEveryAxleStandsEvenly) {
  const CornerLoads on = corner(default_sprint_kart(), {}).loads;
  EXPECT_DOUBLE_EQ(on.left_front, on.right_front);
  EXPECT_DOUBLE_EQ(on.left_rear, on.right_rear);
  EXPECT_NEAR(on.left_front + on.right_front, 0.42 * 165.0 * kGravity, 1e-9);
}

TEST(Corner, TurningTheWheelAtAStandstillLiftsTheInsideRear) {
  const CornerLoads on = corner(default_sprint_kart(), {.steer = 20.0 * kDegree}).loads;
  EXPECT_GT(on.left_front, on.right_front);
  EXPECT_LT(on.left_rear, on.right_rear);
}

TEST(Corner, ALeftTurnLoadsTheRightWheels) {
  const Cornering at = corner(default_sprint_kart(), left_turn(0.7 * kGravity));
  EXPECT_EQ(at.contact, Contact::all_four);
  EXPECT_GT(at.loads.right_front, at.loads.left_front);
  EXPECT_GT(at.loads.right_rear, at.loads.left_rear);
}

TEST(Corner, BrakesLoadTheFrontAndThrottleTheRear) {
  const SprintKart kart = default_sprint_kart();
  const double coasting = corner(kart, {}).front_axle;
  // Mass times acceleration times height over wheelbase.
  const double moved = 165.0 * 3.0 * 0.26 / 1.04;
  EXPECT_NEAR(corner(kart, {.longitudinal = -3.0}).front_axle, coasting + moved, 1e-9);
  EXPECT_NEAR(corner(kart, {.longitudinal = 3.0}).front_axle, coasting - moved, 1e-9);
}

TEST(Corner, AMassOffTheCentreLineStandsOnItsOwnSide) {
  SprintKart kart = default_sprint_kart();
  kart.mass_left = 0.010;
  const CornerLoads on = corner(kart, {}).loads;
  EXPECT_GT(on.left_front, on.right_front);
  EXPECT_GT(on.left_rear, on.right_rear);
}

TEST(Corner, ATwistedFrameLoadsADiagonal) {
  SprintKart kart = default_sprint_kart();
  kart.twist = 0.3 * kDegree;
  const CornerLoads on = corner(kart, {}).loads;
  EXPECT_NEAR(on.total(), 165.0 * kGravity, 1e-9);
  // Its rear leans to the right of its front: the right rear and the left front carry more.
  EXPECT_LT(on.left_rear, on.right_rear);
  EXPECT_GT(on.left_front, on.right_front);
}

// Of 165 kg with 42 % on the front axle, three tenths belong to the front half: 0.3 * 165 * 5 N at
// 0.2 m, and what its tyres take beside that, 0.12 * 165 * 5 N, at the axis of twist.
TEST(Corner, RollsItsFrontHalfByWhatThatCarriesAndTheRestAtTheAxisOfTwist) {
  SprintKart kart = default_sprint_kart();
  kart.front_mass_share = 0.3;
  kart.front_mass_height = 0.2;
  kart.twist_axis_height = 0.1;
  const FrontAndRear halves = front_and_rear(kart, {.lateral = 5.0});
  EXPECT_NEAR(halves.front_moment, 49.5 + 9.9, 1e-9);
  EXPECT_NEAR(halves.rear_moment, 165.0 * 5.0 * kart.mass_height - 59.4, 1e-9);
}

TEST(Corner, HardEnoughTheInsideRearLeavesTheGround) {
  const Cornering at = corner(default_sprint_kart(), left_turn(kInsideRearOff));
  EXPECT_EQ(at.contact, Contact::inside_rear_off);
  EXPECT_EQ(at.loads.left_rear, 0.0);
  EXPECT_NEAR(at.loads.right_rear, at.rear_axle, 1e-9);
  EXPECT_GT(at.loads.left_front, 0.0);
  EXPECT_GT(at.inside_rear_lift, 0.0);
  EXPECT_LT(at.inside_rear_lift, 0.050);
}

/// A newton more or less of any spring, any caster or axle: nothing moves.
TEST(Corner, WithTheInsideRearOffNoStiffnessMovesLoad) {
  const Manoeuvre turn = left_turn(kInsideRearOff);
  const CornerLoads before = corner(default_sprint_kart(), turn).loads;
  SprintKart kart = default_sprint_kart();
  kart.front_bar = 0.35 * kart.front_frame;
  kart.rear_frame *= 0.8;
  kart.front_tyre *= 1.2;
  kart.caster += 1.0 * kDegree;
  kart.axle_wall = 0.003;
  kart.hub_length = 0.11;
  const Cornering after = corner(kart, turn);
  ASSERT_EQ(after.contact, Contact::inside_rear_off);
  EXPECT_NEAR(after.loads.left_front, before.left_front, 1e-9);
  EXPECT_NEAR(after.loads.right_front, before.right_front, 1e-9);
  EXPECT_EQ(after.loads.right_rear, before.right_rear);
}

TEST(Corner, WithTheInsideRearOffAWiderFrontStillMovesLoad) {
  const Manoeuvre turn = left_turn(kInsideRearOff);
  SprintKart kart = default_sprint_kart();
  const double before = corner(kart, turn).loads.right_front;
  kart.front_track += 0.040;
  EXPECT_LT(corner(kart, turn).loads.right_front, before - 1.0);
}

TEST(Corner, TheLiftGrowsFromNothing) {
  double last = 0.0;
  for (double lateral = 1.6 * kGravity; lateral < 2.1 * kGravity; lateral += 0.01) {
    const double lift = corner(default_sprint_kart(), left_turn(lateral)).inside_rear_lift;
    EXPECT_GE(lift, last);
    EXPECT_LT(lift, last + 0.0001);  // a tenth of a millimetre for a hundredth of a m/s^2
    last = lift;
  }
  EXPECT_GT(last, 0.0);
}

TEST(Corner, BeyondItsStaticStabilityItTips) {
  const Cornering at = corner(default_sprint_kart(), left_turn(2.3 * kGravity));
  EXPECT_EQ(at.contact, Contact::tipping);
  EXPECT_EQ(at.loads.left_front, 0.0);
  EXPECT_EQ(at.loads.left_rear, 0.0);
  EXPECT_NEAR(at.loads.total(), 165.0 * kGravity, 1e-9);
}

TEST(Corner, ASoftFrontLiftsItsInsideWheelFirst) {
  SprintKart kart = default_sprint_kart();
  kart.front_share = 0.30;
  kart.front_mass_height = 0.5;
  kart.front_mass_share = 0.3;
  const Cornering at = corner(kart, {.lateral = 1.6 * kGravity});
  EXPECT_EQ(at.contact, Contact::inside_front_off);
  EXPECT_EQ(at.loads.left_front, 0.0);
  EXPECT_GT(at.loads.left_rear, 0.0);
  EXPECT_EQ(at.inside_rear_lift, 0.0);
}

/// On its brakes with much lock, a bent frame would lift the inside rear and the outside front.
/// Only one of the two can go, and hardly cornering it does not tip.
TEST(Corner, LockAndBrakesLiftOneWheelOnly) {
  SprintKart kart = default_sprint_kart();
  kart.twist = 2.0 * kDegree;
  const Cornering at = corner(kart, {.lateral = 0.1 * kGravity,
                                     .longitudinal = -0.3 * kGravity,
                                     .steer = 25.0 * kDegree,
                                     .side_force = 0.1});
  EXPECT_GT(at.rear_transfer, at.rear_axle / 2.0);
  EXPECT_LT(at.front_transfer, -at.front_axle / 2.0);
  EXPECT_EQ(at.contact, Contact::inside_rear_off);
  EXPECT_EQ(at.loads.left_rear, 0.0);
  EXPECT_GT(at.loads.right_front, 0.0);
}

}  // namespace
}  // namespace kartwright
