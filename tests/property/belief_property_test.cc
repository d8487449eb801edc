// The belief and the relief against two plain references, on 10,000 random cases each.

#include <gtest/gtest.h>

#include "engine/decision/rank.h"
#include "engine/inference/belief.h"
#include "tests/support/any.h"
#include "tests/support/naive.h"
#include "tests/support/throws.h"

namespace kartwright {
namespace {

const int kCases = throws_of_the_dice(10000);
constexpr double kClose = 1e-9;

double normal(Random& random) { return std::normal_distribution<double>()(random); }
double between(Random& random, double low, double high) {
  return std::uniform_real_distribution<double>(low, high)(random);
}

naive::Vector plain(const Eigen::VectorXd& v) { return {v.data(), v.data() + v.size()}; }
naive::Matrix plain(const Eigen::MatrixXd& m) {
  naive::Matrix out;
  for (Eigen::Index i = 0; i < m.rows(); ++i) out.push_back(plain(Eigen::VectorXd(m.row(i))));
  return out;
}

/// A positive definite covariance of the sizes that rule packs have.
Eigen::MatrixXd random_covariance(Random& random, Eigen::Index n) {
  Eigen::MatrixXd root(n, n);
  for (Eigen::Index i = 0; i < n; ++i) {
    for (Eigen::Index j = 0; j < n; ++j) root(i, j) = normal(random);
  }
  return root * root.transpose() / static_cast<double>(n) + 0.2 * Eigen::MatrixXd::Identity(n, n);
}

struct Case {
  Prior prior;
  std::vector<Reading> readings;
  std::vector<naive::Reading> plain_readings;
};

Case random_case(Random& random) {
  const Eigen::Index n = whole(random, 1, 10);
  Case out;
  out.prior = {Eigen::VectorXd::NullaryExpr(n, [&] { return normal(random); }),
               random_covariance(random, n)};
  const int count = whole(random, 1, 12);
  for (int i = 0; i < count; ++i) {
    Reading reading;
    reading.row =
        Eigen::VectorXd::NullaryExpr(n, [&] { return whole(random, 0, 1) * normal(random); });
    reading.value = 2.0 * normal(random);
    reading.sd = between(random, 0.3, 2.0);
    out.plain_readings.push_back({plain(reading.row), reading.value, reading.sd});
    out.readings.push_back(std::move(reading));
  }
  return out;
}

void expect_close(const Eigen::MatrixXd& ours, const naive::Matrix& theirs, const char* what) {
  for (Eigen::Index i = 0; i < ours.rows(); ++i) {
    for (Eigen::Index j = 0; j < ours.cols(); ++j) {
      const double other = theirs[static_cast<std::size_t>(i)][static_cast<std::size_t>(j)];
      ASSERT_NEAR(ours(i, j), other, kClose) << what << " at " << i << ", " << j;
    }
  }
}

void expect_close(const Eigen::VectorXd& ours, const naive::Vector& theirs, const char* what) {
  for (Eigen::Index i = 0; i < ours.size(); ++i) {
    ASSERT_NEAR(ours[i], theirs[static_cast<std::size_t>(i)], kClose) << what << " at " << i;
  }
}

TEST(BeliefProperty, EqualsTheInformationFormSolvedByAnotherLibrary) {
  Random random(1);
  for (int i = 0; i < kCases; ++i) {
    const Case c = random_case(random);
    const Belief belief = update(c.prior, c.readings);
    const naive::Posterior other =
        naive::information_form(plain(c.prior.mean), plain(c.prior.covariance), c.plain_readings);
    expect_close(belief.mean, other.mean, "mean");
    expect_close(belief.covariance, other.covariance, "covariance");
    expect_close(belief.shares,
                 naive::shares(plain(c.prior.mean), plain(c.prior.covariance), c.plain_readings),
                 "share");
    if (HasFatalFailure()) FAIL() << "case " << i;
  }
}

TEST(BeliefProperty, EqualsOneReadingAtATime) {
  Random random(2);
  for (int i = 0; i < kCases; ++i) {
    const Case c = random_case(random);
    const Belief belief = update(c.prior, c.readings);
    const naive::Posterior other =
        naive::one_at_a_time(plain(c.prior.mean), plain(c.prior.covariance), c.plain_readings);
    expect_close(belief.mean, other.mean, "mean");
    expect_close(belief.covariance, other.covariance, "covariance");
    if (HasFatalFailure()) FAIL() << "case " << i;
  }
}

TEST(BeliefProperty, SharesSumToTheShift) {
  Random random(3);
  for (int i = 0; i < kCases; ++i) {
    const Case c = random_case(random);
    const Belief belief = update(c.prior, c.readings);
    const Eigen::VectorXd shift = belief.mean - c.prior.mean;
    ASSERT_LT((belief.shares.rowwise().sum() - shift).cwiseAbs().maxCoeff(), kClose)
        << "case " << i;
  }
}

TEST(BeliefProperty, AReadingNeverWidensTheBelief) {
  Random random(4);
  for (int i = 0; i < throws_of_the_dice(1000); ++i) {
    const Case c = random_case(random);
    const Belief belief = update(c.prior, c.readings);
    const Eigen::VectorXd narrowed = c.prior.covariance.diagonal() - belief.covariance.diagonal();
    ASSERT_GE(narrowed.minCoeff(), -kClose) << "case " << i;
    ASSERT_GT(belief.covariance.diagonal().minCoeff(), 0.0) << "case " << i;
  }
}

TEST(ReliefProperty, EqualsPlainLoops) {
  Random random(5);
  for (int i = 0; i < kCases; ++i) {
    const Eigen::Index n = whole(random, 1, 10);
    Stakes stakes;
    stakes.mean = Eigen::VectorXd::NullaryExpr(n, [&] { return 2.0 * normal(random); });
    stakes.weights = Eigen::VectorXd::NullaryExpr(n, [&] { return between(random, 0.3, 1.5); });
    const Effect effect{
        .per_step = Eigen::VectorXd::NullaryExpr(n, [&] { return 0.5 * normal(random); }),
        .covariance = 0.1 * random_covariance(random, n)};
    const double steps = between(random, -3.0, 3.0);
    const double loss = naive::loss(plain(stakes.mean), plain(stakes.weights),
                                    plain(effect.per_step), plain(effect.covariance), steps);
    const double none = naive::quadratic(plain(stakes.mean), plain(stakes.weights));
    ASSERT_NEAR(loss_of_nothing(stakes), none, kClose) << "case " << i;
    ASSERT_NEAR(loss_of(stakes, effect, steps), loss, kClose * (1.0 + loss)) << "case " << i;
    const double relief = 1.0 - loss / none;
    ASSERT_NEAR(relief_of(stakes, loss_of(stakes, effect, steps)), relief,
                kClose * (1.0 + std::abs(relief)))
        << "case " << i;
  }
}

}  // namespace
}  // namespace kartwright
