// What is believed after a change and a word of the driver, against numbers worked by hand and
// against the whole Gaussian written out.

#include "engine/decision/following.h"

#include <gtest/gtest.h>

#include "engine/inference/belief.h"
#include "tests/support/any.h"
#include "tests/support/matrices.h"

namespace kartwright {
namespace {

using Eigen::MatrixXd;
using Eigen::VectorXd;

Effect effect(const VectorXd& per_step, const MatrixXd& covariance) {
  return {.per_step = per_step, .covariance = covariance};
}

MatrixXd square(double value) { return MatrixXd::Constant(1, 1, value); }
VectorXd one(double value) { return VectorXd::Constant(1, value); }

// z ~ N(2, 1), b ~ N(-1, 1/4). One step: z ~ N(1, 5/4). Heard as 0 with sd 1: the gain on z is
// (5/4) / (9/4) = 5/9, on b (1/4) / (9/4) = 1/9.
TEST(Following, SharesASurpriseBetweenTheKartAndTheChange) {
  Following following(one(2.0), square(1.0));
  const Effect wider = effect(one(-1.0), square(0.25));
  following.move(3, wider, 1.0);
  EXPECT_NEAR(following.mean()[0], 1.0, 1e-12);
  EXPECT_NEAR(following.covariance()(0, 0), 1.25, 1e-12);
  EXPECT_NEAR(following.expected(one(1.0)), 1.0, 1e-12);
  EXPECT_NEAR(following.variance(one(1.0), 1.0), 2.25, 1e-12);
  following.hear(one(1.0), 0.0, 1.0);
  EXPECT_NEAR(following.mean()[0], 1.0 - 5.0 / 9.0, 1e-12);
  EXPECT_NEAR(following.effect(3, wider).per_step[0], -1.0 - 1.0 / 9.0, 1e-12);
  EXPECT_NEAR(following.effect(3, wider).covariance(0, 0), 0.25 - 1.0 / 36.0, 1e-12);
}

TEST(Following, OfAnAdjustmentThatStoodStillKeepsWhatTheRulesSay) {
  Following following(one(2.0), square(1.0));
  const Effect rules = effect(one(0.5), square(0.04));
  following.move(0, effect(one(-1.0), square(0.25)), 1.0);
  following.hear(one(1.0), 3.0, 0.5);
  EXPECT_EQ(following.effect(1, rules).per_step[0], 0.5);
  EXPECT_EQ(following.known_together(1, one(1.0), 2.0), 0.0);
}

// Put back, the kart is where it was, and known as well as it was, whatever the change did.
TEST(Following, PutBackIsAsSureAsBefore) {
  Following following(one(2.0), square(1.0));
  const Effect wider = effect(one(-1.0), square(0.25));
  following.move(0, wider, 1.5);
  const double doubt = following.effect(0, wider).covariance(0, 0) * 1.5 * 1.5 +
                       following.known_together(0, one(1.0), -1.5);
  EXPECT_NEAR(following.covariance()(0, 0) + doubt, 1.0, 1e-12);
  following.move(0, wider, -1.5);
  EXPECT_NEAR(following.mean()[0], 2.0, 1e-12);
  EXPECT_NEAR(following.covariance()(0, 0), 1.0, 1e-12);
}

TEST(Following, WithNothingMovedHearsAsABeliefDoes) {
  const VectorXd mean = (VectorXd(2) << 0.5, -1.0).finished();
  const MatrixXd covariance = (MatrixXd(2, 2) << 1.4, 0.5, 0.5, 1.1).finished();
  const VectorXd row = (VectorXd(2) << 1.0, -1.0).finished();
  Following following(mean, covariance);
  following.hear(row, -2.0, 0.7);
  std::vector<Reading> readings(1);
  readings[0].row = row;
  readings[0].value = -2.0;
  readings[0].sd = 0.7;
  const Prior prior{.mean = mean, .covariance = covariance};
  const Belief belief = update(prior, readings);
  EXPECT_TRUE(following.mean().isApprox(belief.mean, 1e-12));
  EXPECT_TRUE(following.covariance().isApprox(belief.covariance, 1e-12));
}

/// Two axes, two adjustments: everything that is drawn, and what is heard, as one Gaussian.
TEST(Following, OfTwoChangesAndTwoAnswersIsTheWholeGaussianGivenWhatWasHeard) {
  Random random(81);
  const auto any = [&](double from, double to) { return any_between(random, from, to); };
  for (int i = 0; i < 100; ++i) {
    MatrixXd root(6, 6);
    for (double& each : root.reshaped()) each = any(-1.0, 1.0);
    MatrixXd prior = MatrixXd::Zero(6, 6);  // z, b of one, b of the other: independent
    for (int k = 0; k < 6; k += 2) {
      const MatrixXd rows = root.block(k, 0, 2, 6);
      prior.block(k, k, 2, 2) = plain_product({rows, rows.transpose()});
    }
    VectorXd mean(6);
    for (double& each : mean) each = any(-2.0, 2.0);
    const double u = any(-2.0, 2.0), v = any(-2.0, 2.0);
    const VectorXd row = (VectorXd(2) << any(-1.0, 1.0), any(-1.0, 1.0)).finished();
    const double first = any(-3.0, 3.0), second = any(-3.0, 3.0);

    Following following(mean.head(2), prior.topLeftCorner(2, 2));
    const Effect one = effect(mean.segment(2, 2), prior.block(2, 2, 2, 2));
    const Effect other = effect(mean.segment(4, 2), prior.block(4, 4, 2, 2));
    following.move(7, one, u);
    following.hear(row, first, 0.7);
    following.move(2, other, v);
    following.hear(row, second, 0.5);

    MatrixXd heard(2, 6);  // both answers as rows over everything
    heard << row.transpose(), u * row.transpose(), VectorXd::Zero(2).transpose(), row.transpose(),
        u * row.transpose(), v * row.transpose();
    MatrixXd noise = MatrixXd::Zero(2, 2);
    noise.diagonal() << 0.49, 0.25;
    const MatrixXd gain =
        plain_product({prior, heard.transpose(),
                       plain_inverse(plain_product({heard, prior, heard.transpose()}) + noise)});
    const VectorXd told = (VectorXd(2) << first, second).finished();
    const VectorXd then = mean + gain * (told - heard * mean);
    MatrixXd lands(2, 6);
    lands << MatrixXd::Identity(2, 2), u * MatrixXd::Identity(2, 2), v * MatrixXd::Identity(2, 2);
    const MatrixXd all = prior - plain_product({gain, heard, prior});
    EXPECT_TRUE(following.mean().isApprox(lands * then, 1e-9));
    EXPECT_TRUE(
        following.covariance().isApprox(plain_product({lands, all, lands.transpose()}), 1e-9));
    EXPECT_TRUE(following.effect(7, one).per_step.isApprox(then.segment(2, 2), 1e-9));
    EXPECT_TRUE(following.effect(2, other).covariance.isApprox(all.block(4, 4, 2, 2), 1e-9));
  }
}

}  // namespace
}  // namespace kartwright
