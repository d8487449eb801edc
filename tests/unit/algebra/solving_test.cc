// Systems of equations whose answers can be seen, and those that have none.

#include "engine/algebra/solving.h"

#include <cmath>

#include <gtest/gtest.h>

#include "engine/algebra/crossing.h"

namespace kartwright {
namespace {

using Eigen::Matrix2d;
using Eigen::MatrixXd;
using Eigen::Vector2d;
using Eigen::VectorXd;

MatrixXd square_of(double a, double b, double c, double d) {
  return (Matrix2d() << a, b, c, d).finished();
}

const MatrixXd kSymmetric = square_of(4.0, 2.0, 2.0, 3.0);
const MatrixXd kItsInverse = square_of(0.375, -0.25, -0.25, 0.5);

TEST(Definite, SolvesAndKnowsItsFactor) {
  const Definite a(kSymmetric);
  ASSERT_TRUE(a.holds());
  EXPECT_TRUE(a.solve(VectorXd(Vector2d(8.0, 8.0))).isApprox(Vector2d(1.0, 2.0)));
  EXPECT_TRUE(a.solve(kSymmetric).isApprox(MatrixXd::Identity(2, 2)));
  EXPECT_TRUE(a.inverse().isApprox(kItsInverse));
  EXPECT_TRUE(inverse_of(kSymmetric).isApprox(kItsInverse));
  EXPECT_TRUE(a.upper().isApprox(square_of(2.0, 1.0, 0.0, std::sqrt(2.0)))) << a.upper();
}

TEST(Definite, DoesNotHoldWhereACombinationHasNoSpread) {
  EXPECT_FALSE(Definite(square_of(1.0, 2.0, 2.0, 1.0)).holds());
  EXPECT_FALSE(Definite(-kSymmetric).holds());
}

TEST(Narrowed, IsTheInverseOfTheSumOfPrecisionsAndAsksForNoInverse) {
  const MatrixXd precision = square_of(1.0, 0.0, 0.0, 2.0);
  const MatrixXd sum = kItsInverse + precision;
  EXPECT_TRUE(narrowed(kSymmetric, precision).isApprox(inverse_of(sum)));
  const MatrixXd flat = square_of(1.0, 0.0, 0.0, 0.0);
  EXPECT_TRUE(narrowed(flat, precision).isApprox(flat / 2.0)) << narrowed(flat, precision);
}

TEST(Spectrum, IsInAscendingOrder) {
  const Spectrum all = spectrum_of(square_of(2.0, 1.0, 1.0, 2.0));
  EXPECT_TRUE(all.values.isApprox(Vector2d(1.0, 3.0)));
  EXPECT_NEAR(std::abs(all.vectors.col(1).sum()), std::sqrt(2.0), 1e-12);
}

TEST(Crossing, IsFoundToTheLastBitsOrNotAtAll) {
  const auto square = [](double x) { return x * x - 2.0; };
  EXPECT_NEAR(crossing(square, 0.0, 2.0).value(), std::sqrt(2.0), 1e-14);
  EXPECT_FALSE(crossing(square, 2.0, 3.0));
  EXPECT_EQ(crossing([](double x) { return x; }, 0.0, 1.0), 0.0) << "at its beginning";
}

}  // namespace
}  // namespace kartwright
