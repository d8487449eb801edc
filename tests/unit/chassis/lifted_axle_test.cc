#include "engine/chassis/lifted_axle.h"

#include <array>
#include <cmath>

#include <gtest/gtest.h>

namespace kartwright {
namespace {

/// The front lifted by 0.25 m, ballast in the seat.
LiftedAxle front_lifted() {
  return {.mass = 165.0,
          .wheelbase = 1.04,
          .level = 95.7,
          .lifted = 100.3,
          .lift = 0.25,
          .radius_down = 0.14,
          .radius_up = 0.14,
          .sigma_scale = 0.2,
          .sigma_lift = 0.002};
}

TEST(LiftedAxle, NothingMovedMeansTheMassIsAsHighAsTheAxles) {
  LiftedAxle test = front_lifted();
  test.lifted = test.level;
  EXPECT_DOUBLE_EQ(mass_height(test).value, 0.14);
}

TEST(LiftedAxle, MoreWeightGoneToTheRearMeansAHigherMass) {
  LiftedAxle test = front_lifted();
  const double low = mass_height(test).value;
  test.lifted += 1.0;
  // A kilogram is 1.04 / (165 tan th) of a metre.
  const double tangent = std::tan(std::asin(0.25 / 1.04));
  EXPECT_NEAR(mass_height(test).value - low, 1.04 / (165.0 * tangent), 1e-12);
}

TEST(LiftedAxle, SmallerFrontTyresCountByTheShareThatStandsOnThem) {
  LiftedAxle test = front_lifted();
  const double alike = mass_height(test).value;
  test.radius_up -= 0.010;
  EXPECT_NEAR(mass_height(test).value, alike - 0.010 * (1.0 - 95.7 / 165.0), 1e-12);
}

TEST(LiftedAxle, ALowLiftTellsLess) {
  const WithError high = mass_height(front_lifted());
  LiftedAxle test = front_lifted();
  test.lift = 0.10;
  test.lifted = test.level + 1.8;
  EXPECT_GT(mass_height(test).sd, 2.0 * high.sd);
}

TEST(LiftedAxle, PadsOfTwoHundredGramsTellTheHeightToACentimetre) {
  EXPECT_NEAR(mass_height(front_lifted()).sd, 0.0102, 0.0002);
}

TEST(LiftedAxle, AMisreadLiftCountsAsItMovesTheHeight) {
  LiftedAxle test = front_lifted();
  test.sigma_scale = 0.0;
  LiftedAxle more = test;
  LiftedAxle less = test;
  more.lift += 1e-5;
  less.lift -= 1e-5;
  const double slope = (mass_height(less).value - mass_height(more).value) / 2e-5;
  EXPECT_NEAR(mass_height(test).sd, slope * test.sigma_lift, 1e-9);
}

TEST(LiftedAxle, OneLiftOfSeveralIsTheLiftAlone) {
  const std::array lifts{front_lifted()};
  EXPECT_NEAR(mass_height(lifts), mass_height(front_lifted()).value, 1e-12);
}

}  // namespace
}  // namespace kartwright
