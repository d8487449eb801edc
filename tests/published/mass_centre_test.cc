// Where the mass is along the wheelbase, what braking moves, and the cross weight: scales and
// corner() against worked examples of mechanics courses.

#include <gtest/gtest.h>

#include "engine/chassis/corner.h"
#include "engine/chassis/scales.h"
#include "tests/support/default_sprint_kart.h"

namespace kartwright {
namespace {

constexpr double kCourseGravity = 9.81;  // what the examples reckon with

/// Metres from the front axle.
double behind_the_front(const CornerLoads& on, double wheelbase) {
  return (1.0 - shares_of(on, 0.0).front.value) * wheelbase;
}

CornerLoads of_axles(double front, double rear) {
  return {front / 2.0, front / 2.0, rear / 2.0, rear / 2.0};
}

/// A car at rest or braked; how it springs does not matter.
Cornering car(double mass, double wheelbase, double behind_front, double height, double braked) {
  SprintKart kart = default_sprint_kart();
  kart.mass = mass * kCourseGravity / kGravity;
  kart.wheelbase = wheelbase;
  kart.front_share = 1.0 - behind_front / wheelbase;
  kart.mass_height = height;
  return corner(kart, {.longitudinal = -braked * kGravity});
}

// Jazar, Vehicle Dynamics, Example 40 (verified, fliphtml5.com/wmjai/xhga/Vehicle_Dynamics/3): a
// front wheel 2000 N, a rear wheel 1800 N, wheelbase 2.34 m; 1.1084 m behind the front axle and
// 1.2316 m before the rear, printed to 1e-4.
TEST(PublishedMassCentre, OfACarWeighedWheelByWheel) {
  const CornerLoads on{2000.0, 2000.0, 1800.0, 1800.0};
  EXPECT_NEAR(behind_the_front(on, 2.34), 1.1084, 5e-5);
  EXPECT_NEAR(2.34 - behind_the_front(on, 2.34), 1.2316, 5e-5);
}

// asklearnings.org/asktema/6436263 (verified): 4500 N on the front axle, 3500 N on the rear,
// wheelbase 2.4 m: 1.05 m behind the front. Exact.
TEST(PublishedMassCentre, OfACarWeighedByAxles) {
  EXPECT_NEAR(behind_the_front(of_axles(4500.0, 3500.0), 2.4), 1.05, 1e-9);
}

// Jazar, lecture slides, Example 1 (verified, de.scribd.com/presentation/383729447): 890 kg, 0.78 m
// behind the front, wheelbase 2.35 m: 2916.5 N and 1449 N a wheel, the second printed whole.
TEST(PublishedMassCentre, GivesTheLoadOfAWheel) {
  const CornerLoads on = car(890.0, 2.35, 0.78, 0.5, 0.0).loads;
  EXPECT_NEAR((on.left_front + on.right_front) / 2.0, 2916.5, 0.05);
  EXPECT_NEAR((on.left_rear + on.right_rear) / 2.0, 1449.0, 0.5);
}

// A textbook exercise worked on documen.tv (verified): 961 kg, wheelbase 3.27 m, 0.615 m behind the
// front: 7654.365 N and 1773.045 N an axle, printed to 1e-3.
TEST(PublishedMassCentre, GivesTheLoadsOfTheAxles) {
  const Cornering at = car(961.0, 3.27, 0.615, 0.5, 0.0);
  EXPECT_NEAR(at.front_axle, 7654.365, 1e-3);
  EXPECT_NEAR(at.rear_axle, 1773.045, 1e-3);
}

// An exercise of swiftacademicpapers.com (its statement verified, the answer ours, by moments):
// 1500 kg, wheelbase 1.5 m, 0.8 m behind the front, 0.5 m high, braked at 0.3 of gravity: 8338.5 N
// on the front axle, 6376.5 N on the rear. Exact but for our doubles.
TEST(PublishedBraking, MovesLoadToTheFront) {
  const Cornering at = car(1500.0, 1.5, 0.8, 0.5, 0.3);
  EXPECT_NEAR(at.front_axle, 8338.5, 1e-9);
  EXPECT_NEAR(at.rear_axle, 6376.5, 1e-9);
}

// calculator.academy, cross weight calculator, Example 1 (verified, a weak source): left rear 500
// and right front 600 of 2000: 55 %. The other two are not given; they only have to make the sum.
TEST(PublishedCrossWeight, IsTheShareOfRightFrontAndLeftRear) {
  EXPECT_NEAR(shares_of({480.0, 600.0, 500.0, 420.0}, 0.0).cross.value, 0.55, 1e-12);
}

}  // namespace
}  // namespace kartwright
