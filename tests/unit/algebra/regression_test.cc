// Least squares at its ends; what it makes of whole data sets stands in tests/published.

#include "engine/algebra/regression.h"

#include <gtest/gtest.h>

namespace kartwright {
namespace {

TEST(LeastSquares, OfOneColumnOfOnesIsTheMeanAndExplainsNothing) {
  const Eigen::MatrixXd ones = Eigen::MatrixXd::Ones(4, 1);
  const Eigen::VectorXd laps = Eigen::Vector4d(31.0, 32.0, 34.0, 35.0);
  const Regression found = least_squares(ones, laps).value();
  EXPECT_DOUBLE_EQ(found.coefficients[0], 33.0);
  EXPECT_EQ(found.degrees_of_freedom, 3);
  EXPECT_NEAR(found.r_squared, 0.0, 1e-12);
  EXPECT_EQ(found.f, 0.0) << "there is nothing to divide what it explains by";
}

TEST(LeastSquares, OfOneSlopeWithoutAMeanHasNoRatioEither) {
  const Eigen::MatrixXd runs = Eigen::Vector3d(1.0, 2.0, 3.0);
  const Eigen::VectorXd laps = Eigen::Vector3d(2.0, 4.0, 7.0);
  const Regression found = least_squares(runs, laps).value();
  EXPECT_DOUBLE_EQ(found.coefficients[0], 31.0 / 14.0);
  EXPECT_EQ(found.f, 0.0);
}

TEST(LeastSquares, NeedsARunMoreThanColumnsAndColumnsOfTheirOwn) {
  const Eigen::VectorXd laps = Eigen::Vector3d(2.0, 4.0, 7.0);
  EXPECT_FALSE(least_squares(Eigen::MatrixXd::Identity(3, 3), laps));
  EXPECT_FALSE(least_squares(Eigen::MatrixXd::Ones(3, 2), laps)) << "the same column twice";
  EXPECT_FALSE(least_squares(Eigen::MatrixXd(3, 0), laps));
  EXPECT_FALSE(least_squares(Eigen::MatrixXd::Ones(4, 1), laps)) << "a lap is missing";
  EXPECT_TRUE(least_squares(Eigen::MatrixXd::Ones(3, 1), laps));
}

}  // namespace
}  // namespace kartwright
