// Draws from a Gaussian: the factor of its covariance times the normals of the engine, and nothing
// at all where nothing is uncertain.

#include "engine/decision/gaussian.h"

#include <boost/random/normal_distribution.hpp>
#include <gtest/gtest.h>

#include "tests/support/matrices.h"

namespace kartwright {
namespace {

using Eigen::MatrixXd;
using Eigen::VectorXd;

TEST(GaussianDraw, IsTheMeanAndTheFactorOfTheCovarianceTimesNormals) {
  const VectorXd mean = Eigen::Vector3d(1.0, -2.0, 0.5);
  MatrixXd covariance(3, 3);
  covariance << 4.0, 1.0, -0.6,  //
      1.0, 2.0, 0.3,             //
      -0.6, 0.3, 1.0;
  const Gaussian gaussian(mean, covariance);
  std::mt19937_64 engine(11);
  std::mt19937_64 same(11);
  boost::random::normal_distribution<double> normal;
  const MatrixXd factor = lower_factor(covariance);
  for (int i = 0; i < 5; ++i) {
    VectorXd normals(3);
    for (double& each : normals) each = normal(same);
    const VectorXd drawn = gaussian.draw(engine);
    EXPECT_LT((drawn - mean - factor * normals).norm(), 1e-9);
  }
}

TEST(GaussianDraw, OfManyAtOnceIsThatOfOneAfterTheOtherToTheLastBit) {
  const Gaussian gaussian(Eigen::Vector2d(1.0, -2.0), Eigen::Matrix2d{{4.0, 1.0}, {1.0, 2.0}});
  std::mt19937_64 engine(11);
  std::mt19937_64 same(11);
  MatrixXd normals(7, 2);
  draw_normals(engine, normals);
  MatrixXd drawn;
  gaussian.draw_from(normals, drawn);
  ASSERT_EQ(drawn.rows(), 7);
  for (Eigen::Index i = 0; i < 7; ++i) EXPECT_EQ(VectorXd(drawn.row(i)), gaussian.draw(same)) << i;
}

TEST(GaussianDraw, OfAnAxisThatIsKnownIsWhatIsKnownToTheLastBit) {
  MatrixXd covariance = MatrixXd::Zero(3, 3);
  covariance(0, 0) = 4.0;
  covariance(2, 2) = 1.0;
  const Gaussian gaussian(Eigen::Vector3d(1.0, -2.0, 0.5), covariance);
  std::mt19937_64 engine(11);
  std::mt19937_64 same(11);
  boost::random::normal_distribution<double> normal;
  const VectorXd drawn = gaussian.draw(engine);
  EXPECT_EQ(drawn[1], -2.0);
  EXPECT_NEAR(drawn[0], 1.0 + 2.0 * normal(same), 1e-9);
  EXPECT_NEAR(drawn[2], 0.5 + normal(same), 1e-9) << "no normal is spent on what is known";
}

TEST(GaussianDraw, OfNothingUncertainAsksTheEngineForNothing) {
  const Gaussian gaussian(Eigen::Vector2d(1.0, -2.0), MatrixXd::Zero(2, 2));
  std::mt19937_64 engine(11);
  EXPECT_EQ(gaussian.draw(engine), VectorXd(Eigen::Vector2d(1.0, -2.0)));
  EXPECT_EQ(engine, std::mt19937_64(11));
}

}  // namespace
}  // namespace kartwright
