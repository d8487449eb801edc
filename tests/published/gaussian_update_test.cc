// The belief's update against worked examples of the same mathematics: a normal mean, a filter of
// one state, and weighing by inverse variance. One axis each time, all readings at once.

#include <cmath>
#include <vector>

#include <gtest/gtest.h>

#include "engine/inference/belief.h"

namespace kartwright {
namespace {

Prior one_axis(double mean, double variance) {
  return {Eigen::VectorXd::Constant(1, mean), Eigen::MatrixXd::Constant(1, 1, variance)};
}

Reading observed(double value, double variance) {
  Reading reading{.rule = "observed", .source = {}};
  reading.row = Eigen::VectorXd::Constant(1, 1.0);
  reading.value = value;
  reading.sd = std::sqrt(variance);
  return reading;
}

// Intelligence test example of the course pages areding.github.io/6420-pymc, unit 4 (verified): a
// prior N(110, 120), one score of 98 with variance 80, posterior N(102.8, 48).
TEST(PublishedNormalMean, OfOneScore) {
  const Belief belief = update(one_axis(110.0, 120.0), {observed(98.0, 80.0)});
  EXPECT_NEAR(belief.mean[0], 102.8, 1e-9);
  EXPECT_NEAR(belief.covariance(0, 0), 48.0, 1e-9);
}

// The same page (verified, printed to one decimal): five scores with mean 98 give N(99.4, 14.1).
// Only their mean matters, so they are spread about it here.
TEST(PublishedNormalMean, OfFiveScores) {
  std::vector<Reading> scores;
  for (const double score : {90.0, 94.0, 98.0, 102.0, 106.0}) {
    scores.push_back(observed(score, 80.0));
  }
  const Belief belief = update(one_axis(110.0, 120.0), scores);
  EXPECT_NEAR(belief.mean[0], 99.4, 0.05);
  EXPECT_NEAR(belief.covariance(0, 0), 14.1, 0.05);
}

// Height of a building by ten sightings, the worked example of kalmanfilter.net (inputs verified in
// a copy; the final 49.57 and 2.47 from memory, more digits computed for this project): first
// estimate 60 with variance 225, sightings with variance 25.
constexpr double kFirstHeight = 60.0;
constexpr double kFirstVariance = 225.0;
constexpr double kSightingVariance = 25.0;
constexpr double kSightings[] = {48.54, 47.11, 55.01, 55.15, 49.89,
                                 40.85, 46.72, 50.05, 51.27, 49.95};

TEST(PublishedHeight, AfterOneSightingHasAGainOfNineTenths) {
  const Belief belief =
      update(one_axis(kFirstHeight, kFirstVariance), {observed(kSightings[0], kSightingVariance)});
  EXPECT_NEAR(belief.mean[0], 49.686, 1e-9);
  EXPECT_NEAR(belief.covariance(0, 0), 22.5, 1e-9);
  const double gain = belief.shares(0, 0) / (kSightings[0] - kFirstHeight);
  EXPECT_NEAR(gain, 0.9, 1e-12);
}

TEST(PublishedHeight, AfterTenSightingsTakenAllAtOnce) {
  std::vector<Reading> sightings;
  for (const double sighting : kSightings) {
    sightings.push_back(observed(sighting, kSightingVariance));
  }
  const Belief belief = update(one_axis(kFirstHeight, kFirstVariance), sightings);
  EXPECT_NEAR(belief.mean[0], 49.57, 0.005);
  EXPECT_NEAR(belief.covariance(0, 0), 2.47, 0.005);
  EXPECT_NEAR(belief.mean[0], 49.5698901099, 1e-9);
  EXPECT_NEAR(belief.covariance(0, 0), 2.4725274725, 1e-9);
}

TEST(PublishedHeight, IsTheSameOneSightingAtATime) {
  std::vector<Reading> sightings;
  Prior step = one_axis(kFirstHeight, kFirstVariance);
  for (const double sighting : kSightings) {
    sightings.push_back(observed(sighting, kSightingVariance));
    const Belief belief = update(step, {sightings.back()});
    step = {belief.mean, belief.covariance};
  }
  const Belief at_once = update(one_axis(kFirstHeight, kFirstVariance), sightings);
  EXPECT_NEAR(step.mean[0], at_once.mean[0], 1e-12);
  EXPECT_NEAR(step.covariance(0, 0), at_once.covariance(0, 0), 1e-12);
}

// Coaching effects in eight schools: data as printed by jytan.net/blog/2023/eight-schools
// (verified); pooled mean 7.7 with standard error 4.1 in Gelman and others, Bayesian Data Analysis
// (from memory). Best linear unbiased, so the prior is made to say nothing.
TEST(PublishedEightSchools, PoolByInverseVariance) {
  constexpr double kEffect[] = {28, 8, -3, 7, -1, 1, 18, 12};
  constexpr double kError[] = {15, 10, 16, 11, 9, 11, 10, 18};
  constexpr double kSaysNothing = 1e9;
  std::vector<Reading> schools;
  double weights = 0.0;
  double weighed = 0.0;
  for (std::size_t i = 0; i < std::size(kEffect); ++i) {
    schools.push_back(observed(kEffect[i], kError[i] * kError[i]));
    weights += 1.0 / (kError[i] * kError[i]);
    weighed += kEffect[i] / (kError[i] * kError[i]);
  }
  const Belief belief = update(one_axis(0.0, kSaysNothing), schools);
  EXPECT_NEAR(belief.mean[0], 7.7, 0.05);
  EXPECT_NEAR(std::sqrt(belief.covariance(0, 0)), 4.1, 0.05);
  // The textbook's own formula, to more digits than it prints: 7.68562 and 4.07192.
  EXPECT_NEAR(belief.mean[0], weighed / weights, 1e-5);
  EXPECT_NEAR(belief.covariance(0, 0), 1.0 / weights, 1e-5);
  EXPECT_NEAR(belief.mean[0], 7.68562, 5e-6);
  EXPECT_NEAR(std::sqrt(belief.covariance(0, 0)), 4.07192, 5e-6);
}

}  // namespace
}  // namespace kartwright
