// The belief's update against published examples. Each number stands with its source and status.

#include <cmath>

#include <gtest/gtest.h>

#include "engine/inference/belief.h"

namespace kartwright {
namespace {

Prior scalar_prior(double mean, double variance) {
  return {Eigen::VectorXd::Constant(1, mean), Eigen::MatrixXd::Constant(1, 1, variance)};
}

Reading scalar_reading(double value, double variance) {
  Reading reading;
  reading.row = Eigen::VectorXd::Ones(1);
  reading.value = value;
  reading.sd = std::sqrt(variance);
  return reading;
}

// Conjugate normal example, prior N(110, 120), one observation 98 of variance 80 -> N(102.8, 48);
// five observations of mean 98 -> N(99.4, 14.1). Source: course notes ISYE 6420, unit 4
// (areding.github.io/6420-pymc/unit4), verified.
TEST(PublishedBelief, ConjugateNormalWithOneObservation) {
  const Belief belief = update(scalar_prior(110.0, 120.0), {scalar_reading(98.0, 80.0)});
  EXPECT_NEAR(belief.mean[0], 102.8, 1e-9);
  EXPECT_NEAR(belief.covariance(0, 0), 48.0, 1e-9);
  EXPECT_NEAR(belief.shares(0, 0), 102.8 - 110.0, 1e-9);
}

TEST(PublishedBelief, ConjugateNormalWithFiveObservations) {
  const std::vector<Reading> five(5, scalar_reading(98.0, 80.0));
  const Belief belief = update(scalar_prior(110.0, 120.0), five);
  EXPECT_NEAR(belief.mean[0], 99.4, 0.05);
  EXPECT_NEAR(belief.covariance(0, 0), 14.1, 0.05);
}

// Height of a building by ten measurements, x0 60, p0 225, r 25: after the first, gain 0.9,
// estimate 49.686 (first reading 48.54), variance 22.5. Source: kalmanfilter.net, one-dimensional
// example; inputs verified. The final estimate 49.57 and variance 2.47 are from memory, recomputed
// as 49.5698901099 and 2.4725274725.
const std::vector<double> kHeights{48.54, 47.11, 55.01, 55.15, 49.89,
                                   40.85, 46.72, 50.05, 51.27, 49.95};

TEST(PublishedBelief, ScalarFilterAfterTheFirstHeight) {
  const Belief belief = update(scalar_prior(60.0, 225.0), {scalar_reading(kHeights[0], 25.0)});
  EXPECT_NEAR(belief.mean[0], 49.686, 5e-4);
  EXPECT_NEAR(belief.covariance(0, 0), 22.5, 1e-9);
  EXPECT_NEAR(belief.shares(0, 0) / (kHeights[0] - 60.0), 0.9, 1e-12);
}

TEST(PublishedBelief, AllHeightsAtOnceEqualTheFilterOneAfterTheOther) {
  std::vector<Reading> readings;
  Prior running = scalar_prior(60.0, 225.0);
  for (const double height : kHeights) {
    readings.push_back(scalar_reading(height, 25.0));
    const Belief step = update(running, {readings.back()});
    running = {step.mean, step.covariance};
  }
  const Belief batch = update(scalar_prior(60.0, 225.0), readings);
  EXPECT_NEAR(batch.mean[0], running.mean[0], 1e-12);
  EXPECT_NEAR(batch.covariance(0, 0), running.covariance(0, 0), 1e-12);
  EXPECT_NEAR(batch.mean[0], 49.5698901099, 1e-9);
  EXPECT_NEAR(batch.covariance(0, 0), 2.4725274725, 1e-9);
}

// Eight schools, inverse-variance pooling: 7.7 with standard error 4.1. Data verified
// (jytan.net/blog/2023/eight-schools); the pooled result is from memory (Gelman et al., Bayesian
// Data Analysis), recomputed as 7.68562 and 4.07192.
TEST(PublishedBelief, InverseVariancePoolingOfEightSchools) {
  const std::vector<std::pair<double, double>> schools{{28, 15}, {8, 10}, {-3, 16}, {7, 11},
                                                       {-1, 9},  {1, 11}, {18, 10}, {12, 18}};
  std::vector<Reading> readings;
  for (const auto& [effect, error] : schools)
    readings.push_back(scalar_reading(effect, error * error));
  const Belief belief = update(scalar_prior(0.0, 1e8), readings);  // next to no prior
  EXPECT_NEAR(belief.mean[0], 7.68562, 5e-6);
  EXPECT_NEAR(std::sqrt(belief.covariance(0, 0)), 4.07192, 5e-6);
}

// Upper 1 % points of chi-squared, 1 to 5 degrees of freedom: 6.635, 9.210, 11.345, 13.277, 15.086.
// From memory of the usual printed table.
TEST(PublishedBelief, ReadingsStopFittingTogetherAtTheOnePerCentPoint) {
  const std::vector<double> points{6.635, 9.210, 11.345, 13.277, 15.086};
  for (std::size_t n = 1; n <= points.size(); ++n) {
    const auto axes = static_cast<Eigen::Index>(n);
    const Prior prior{Eigen::VectorXd::Zero(axes), 0.25 * Eigen::MatrixXd::Identity(axes, axes)};
    const auto coherent_at = [&](double chi2) {
      std::vector<Reading> readings(n);
      for (std::size_t i = 0; i < n; ++i) {
        readings[i].row = Eigen::VectorXd::Unit(axes, static_cast<Eigen::Index>(i));
        readings[i].sd = 1.0;  // T = 4 * 0.25 + 1 = 2
        readings[i].value = std::sqrt(2.0 * chi2 / static_cast<double>(n));
      }
      const Coherence found = fit_together(prior, readings);
      EXPECT_NEAR(found.chi2, chi2, 1e-9);
      EXPECT_EQ(found.dof, static_cast<int>(n));
      return found.coherent;
    };
    EXPECT_TRUE(coherent_at(points[n - 1] - 0.001)) << n;
    EXPECT_FALSE(coherent_at(points[n - 1] + 0.001)) << n;
  }
}

}  // namespace
}  // namespace kartwright
