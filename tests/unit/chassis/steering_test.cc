#include "engine/chassis/steering.h"

#include <gtest/gtest.h>

#include "tests/support/default_sprint_kart.h"

namespace kartwright {
namespace {

TEST(Steering, StraightAheadPushesNothing) {
  const FrontPush push = front_push(default_sprint_kart(), 0.0);
  EXPECT_EQ(push.left, 0.0);
  EXPECT_EQ(push.right, 0.0);
}

TEST(Steering, ALeftTurnPushesTheInsideFrontDownAndLiftsTheOutside) {
  const FrontPush push = front_push(default_sprint_kart(), 5.0 * kDegree);
  EXPECT_GT(push.left, 0.0);
  EXPECT_LT(push.right, 0.0);
}

TEST(Steering, ARightTurnIsTheMirrorOfALeftOne) {
  const FrontPush left = front_push(default_sprint_kart(), 12.0 * kDegree);
  const FrontPush right = front_push(default_sprint_kart(), -12.0 * kDegree);
  EXPECT_EQ(left.left, right.right);
  EXPECT_EQ(left.right, right.left);
}

TEST(Steering, MoreCasterPushesMore) {
  SprintKart kart = default_sprint_kart();
  const FrontPush before = front_push(kart, 5.0 * kDegree);
  kart.caster += 2.0 * kDegree;
  const FrontPush after = front_push(kart, 5.0 * kDegree);
  EXPECT_GT(after.left - after.right, before.left - before.right);
}

TEST(Steering, AWiderFrontPushesMoreByItsLongerLever) {
  SprintKart kart = default_sprint_kart();
  const FrontPush before = front_push(kart, 5.0 * kDegree);
  kart.front_track += 0.040;
  const FrontPush after = front_push(kart, 5.0 * kDegree);
  EXPECT_GT(after.left - after.right, before.left - before.right);
}

TEST(Steering, UprightKingpinsPushNothing) {
  SprintKart kart = default_sprint_kart();
  kart.caster = 0.0;
  kart.kingpin_inclination = 0.0;
  const FrontPush push = front_push(kart, 20.0 * kDegree);
  EXPECT_EQ(push.left, 0.0);
  EXPECT_EQ(push.right, 0.0);
}

TEST(Steering, InclinedKingpinsAlonePushBothWheelsDown) {
  SprintKart kart = default_sprint_kart();
  kart.caster = 0.0;
  kart.ackermann = 0.0;
  const FrontPush push = front_push(kart, 20.0 * kDegree);
  EXPECT_GT(push.left, 0.0);
  EXPECT_DOUBLE_EQ(push.left, push.right);
}

TEST(Steering, ToeOutPushesBothWheelsDownStraightAhead) {
  SprintKart kart = default_sprint_kart();
  kart.toe_out = 1.0 * kDegree;
  const FrontPush push = front_push(kart, 0.0);
  EXPECT_GT(push.left, 0.0);
  EXPECT_EQ(push.left, push.right);
}

TEST(Steering, AckermannTurnsTheInsideWheelMore) {
  SprintKart kart = default_sprint_kart();
  const double plain = front_push(kart, 10.0 * kDegree).left;
  kart.ackermann = 1.8;
  EXPECT_GT(front_push(kart, 10.0 * kDegree).left, plain);
  kart.ackermann = 0.0;
  EXPECT_LT(front_push(kart, 10.0 * kDegree).left, plain);
}

/// Ackermann and toe are angles of a wheel each: a kart without both, turned as much more, is it.
TEST(Steering, EachWheelTurnsByTheSteerItsShareOfAckermannAndItsToe) {
  SprintKart kart = default_sprint_kart();
  kart.ackermann = 0.5;
  kart.toe_out = 0.4 * kDegree;
  SprintKart plain = kart;
  plain.ackermann = 0.0;
  plain.toe_out = 0.0;
  const double steer = 0.2;
  // Half of where both axes would meet on the rear axle's line, to second order.
  const double inside = 0.5 * 0.04 * 1.10 / (2.0 * 1.04) + 0.4 * kDegree;
  const FrontPush push = front_push(kart, steer);
  EXPECT_NEAR(push.left, front_push(plain, steer + inside).left, 1e-15);
  EXPECT_NEAR(push.right, front_push(plain, steer - inside).right, 1e-15);
}

}  // namespace
}  // namespace kartwright
