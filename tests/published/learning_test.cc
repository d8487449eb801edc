// What a log teaches, against worked examples of the same mathematics and against another library.

#include "engine/records/learning.h"

#include <cmath>
#include <random>

#include <gsl/gsl_blas.h>
#include <gsl/gsl_linalg.h>
#include <gtest/gtest.h>

namespace kartwright {
namespace {

using Eigen::MatrixXd;
using Eigen::VectorXd;

/// A day on which one step of one adjustment moved one saying by so much, its error of so much
/// variance in all: two sayings, each a whole number.
void add_observed(EffectLearning& learning, double value, double variance) {
  const double sd = std::sqrt((variance - 2.0 / 12.0) / 2.0);
  const DayStep step{VectorXd::Ones(1), VectorXd::Zero(1), VectorXd::Zero(1)};
  learning.add_day({step}, {DaySayings{VectorXd::Ones(1), {Saying{0.0, sd}, Saying{value, sd}}}});
}

EffectBelief believed(const EffectLearning& learning, double mean, double variance) {
  return learning.belief(VectorXd::Constant(1, mean), VectorXd::Constant(1, std::sqrt(variance)));
}

// Intelligence test example of the course pages areding.github.io/6420-pymc, unit 4 (verified): a
// prior N(110, 120), one score of 98 with variance 80, posterior N(102.8, 48).
TEST(PublishedEffect, OfOneDayIsTheConjugateNormalMean) {
  EffectLearning learning(1, 1);
  add_observed(learning, 98.0, 80.0);
  const EffectBelief belief = believed(learning, 110.0, 120.0);
  EXPECT_NEAR(belief.mean[0], 102.8, 1e-9);
  EXPECT_NEAR(belief.covariance(0, 0), 48.0, 1e-9);
}

// The same page (verified, printed to one decimal): five scores with mean 98 give N(99.4, 14.1).
TEST(PublishedEffect, OfFiveDays) {
  EffectLearning learning(1, 1);
  for (const double score : {90.0, 94.0, 98.0, 102.0, 106.0}) add_observed(learning, score, 80.0);
  const EffectBelief belief = believed(learning, 110.0, 120.0);
  EXPECT_NEAR(belief.mean[0], 99.4, 0.05);
  EXPECT_NEAR(belief.covariance(0, 0), 14.1, 0.05);
}

// Height of a building by ten sightings, the worked example of kalmanfilter.net (inputs verified in
// a copy; the final 49.57 and 2.47 from memory): first estimate 60 with variance 225, sightings
// with variance 25.
TEST(PublishedEffect, OfTenDaysIsTheFilteredHeight) {
  EffectLearning learning(1, 1);
  for (const double height : {48.54, 47.11, 55.01, 55.15, 49.89, 40.85, 46.72, 50.05, 51.27, 49.95})
    add_observed(learning, height, 25.0);
  const EffectBelief belief = believed(learning, 60.0, 225.0);
  EXPECT_NEAR(belief.mean[0], 49.57, 0.005);
  EXPECT_NEAR(belief.covariance(0, 0), 2.47, 0.005);
}

/// A day drawn by lot: adjustments moved at random, sayings with gaps.
struct LotDay {
  std::vector<DayStep> steps;
  std::vector<DaySayings> sayings;
};

constexpr Eigen::Index kMoved = 3;
constexpr Eigen::Index kOnAxes = 2;

double drawn(std::mt19937_64& lots, double low, double high) {
  return std::uniform_real_distribution<double>(low, high)(lots);
}

LotDay day_by_lot(std::mt19937_64& lots) {
  LotDay day;
  const int steps = 1 + static_cast<int>(lots() % 5);
  for (int t = 0; t < steps; ++t) {
    DayStep step{VectorXd::Zero(kMoved), VectorXd(kOnAxes), VectorXd(kOnAxes)};
    step.moves[static_cast<Eigen::Index>(lots() % kMoved)] = drawn(lots, -2.0, 2.0);
    for (Eigen::Index a = 0; a < kOnAxes; ++a) {
      step.drift[a] = drawn(lots, -0.5, 0.5);
      step.drift_sd[a] = drawn(lots, 0.05, 0.5);
    }
    day.steps.push_back(step);
  }
  for (int s = 0; s < 3; ++s) {
    DaySayings saying{VectorXd(kOnAxes), {}};
    for (double& each : saying.row) each = drawn(lots, -1.5, 1.5);
    for (int t = 0; t <= steps; ++t) {
      if (lots() % 5 == 0) {
        saying.runs.emplace_back();
      } else {
        saying.runs.emplace_back(Saying{drawn(lots, 0.0, 3.0), drawn(lots, 0.4, 1.2)});
      }
    }
    day.sayings.push_back(saying);
  }
  return day;
}

/// Matrices of the GNU Scientific Library, freed with it.
class GslMatrix {
 public:
  GslMatrix(std::size_t rows, std::size_t columns) : m_(gsl_matrix_calloc(rows, columns)) {}
  explicit GslMatrix(const MatrixXd& from)
      : GslMatrix(static_cast<std::size_t>(from.rows()), static_cast<std::size_t>(from.cols())) {
    for (Eigen::Index i = 0; i < from.rows(); ++i) {
      for (Eigen::Index k = 0; k < from.cols(); ++k)
        gsl_matrix_set(m_, static_cast<std::size_t>(i), static_cast<std::size_t>(k), from(i, k));
    }
  }
  ~GslMatrix() { gsl_matrix_free(m_); }
  GslMatrix(const GslMatrix&) = delete;
  GslMatrix& operator=(const GslMatrix&) = delete;

  gsl_matrix* get() const { return m_; }
  double at(std::size_t i, std::size_t k) const { return gsl_matrix_get(m_, i, k); }

 private:
  gsl_matrix* m_;
};

/// The same belief by the gain form of the update, m + P H' (H P H' + R)^-1 (y - H m), one day
/// after the other, every matrix of the equations and every product with the other library.
class ByGsl {
 public:
  ByGsl(const VectorXd& mean, const VectorXd& sd)
      : mean_(MatrixXd(mean)), covariance_(MatrixXd(sd.array().square().matrix().asDiagonal())) {}

  void take(const LotDay& day) {
    const std::vector<Row> rows = rows_of(day);
    if (rows.empty()) return;
    const std::size_t n = rows.size();
    const std::size_t all = kMoved * kOnAxes;
    MatrixXd design = MatrixXd::Zero(static_cast<Eigen::Index>(n), kMoved * kOnAxes);
    MatrixXd error(design.rows(), design.rows());
    MatrixXd seen(design.rows(), 1);
    for (Eigen::Index i = 0; i < design.rows(); ++i) {
      const Row& row = rows[static_cast<std::size_t>(i)];
      const VectorXd& axes = day.sayings[row.saying].row;
      const DayStep& step = day.steps[row.step];
      for (Eigen::Index j = 0; j < kMoved; ++j)
        design.row(i).segment(j * kOnAxes, kOnAxes) = step.moves[j] * axes.transpose();
      seen(i, 0) = row.after.value - row.before.value - axes.dot(step.drift);
      for (Eigen::Index k = 0; k < design.rows(); ++k)
        error(i, k) = covariance_between(row, rows[static_cast<std::size_t>(k)], day);
    }
    const GslMatrix h(design);
    const GslMatrix s(error);
    const GslMatrix ph(all, n);
    gsl_blas_dgemm(CblasNoTrans, CblasTrans, 1.0, covariance_.get(), h.get(), 0.0, ph.get());
    gsl_blas_dgemm(CblasNoTrans, CblasNoTrans, 1.0, h.get(), ph.get(), 1.0, s.get());
    gsl_linalg_cholesky_decomp1(s.get());
    gsl_linalg_cholesky_invert(s.get());
    const GslMatrix gain(all, n);
    gsl_blas_dgemm(CblasNoTrans, CblasNoTrans, 1.0, ph.get(), s.get(), 0.0, gain.get());
    const GslMatrix left(seen);
    gsl_blas_dgemm(CblasNoTrans, CblasNoTrans, -1.0, h.get(), mean_.get(), 1.0, left.get());
    gsl_blas_dgemm(CblasNoTrans, CblasNoTrans, 1.0, gain.get(), left.get(), 1.0, mean_.get());
    gsl_blas_dgemm(CblasNoTrans, CblasTrans, -1.0, gain.get(), ph.get(), 1.0, covariance_.get());
  }

  double mean(Eigen::Index i) const { return mean_.at(static_cast<std::size_t>(i), 0); }
  double covariance(Eigen::Index i, Eigen::Index k) const {
    return covariance_.at(static_cast<std::size_t>(i), static_cast<std::size_t>(k));
  }

 private:
  struct Row {
    std::size_t saying, step;
    Saying before, after;
  };

  static std::vector<Row> rows_of(const LotDay& day) {
    std::vector<Row> rows;
    for (std::size_t s = 0; s < day.sayings.size(); ++s) {
      for (std::size_t t = 0; t < day.steps.size(); ++t) {
        const auto& runs = day.sayings[s].runs;
        if (runs[t] && runs[t + 1]) rows.push_back({s, t, *runs[t], *runs[t + 1]});
      }
    }
    return rows;
  }

  /// The design's section on the log: sd^2 of both ends and twice 1/12; of neighbours minus what
  /// they share; and the drift that both went through.
  static double covariance_between(const Row& a, const Row& b, const LotDay& day) {
    const auto spread = [](const Saying& said) { return said.sd * said.sd + 1.0 / 12.0; };
    double out = 0.0;
    if (a.step == b.step) {
      for (Eigen::Index i = 0; i < kOnAxes; ++i) {
        const double sd = day.steps[a.step].drift_sd[i];
        out += day.sayings[a.saying].row[i] * day.sayings[b.saying].row[i] * sd * sd;
      }
    }
    if (a.saying != b.saying) return out;
    if (a.step == b.step) return out + spread(a.before) + spread(a.after);
    if (a.step + 1 == b.step) return out - spread(a.after);
    if (b.step + 1 == a.step) return out - spread(a.before);
    return out;
  }

  GslMatrix mean_;
  GslMatrix covariance_;
};

TEST(EffectsByAnotherLibrary, AgreeToNineDigitsOnAThousandCases) {
  constexpr std::uint64_t kSeed = 20261126;
  constexpr int kCases = 1000;
  std::mt19937_64 lots(kSeed);
  double worst = 0.0;
  for (int n = 0; n < kCases; ++n) {
    VectorXd mean(kMoved * kOnAxes);
    VectorXd sd(kMoved * kOnAxes);
    for (Eigen::Index i = 0; i < mean.size(); ++i) {
      mean[i] = drawn(lots, -1.0, 1.0);
      sd[i] = drawn(lots, 0.1, 0.5);
    }
    EffectLearning ours(kMoved, kOnAxes);
    ByGsl theirs(mean, sd);
    for (int d = 0; d < 3; ++d) {
      const LotDay day = day_by_lot(lots);
      ours.add_day(day.steps, day.sayings);
      theirs.take(day);
    }
    const EffectBelief belief = ours.belief(mean, sd);
    for (Eigen::Index i = 0; i < mean.size(); ++i) {
      worst = std::max(worst, std::abs(belief.mean[i] - theirs.mean(i)));
      for (Eigen::Index k = 0; k < mean.size(); ++k)
        worst = std::max(worst, std::abs(belief.covariance(i, k) - theirs.covariance(i, k)));
    }
  }
  EXPECT_LT(worst, 1e-9);
  EXPECT_GT(worst, 0.0);  // they are two ways of working it out
}

}  // namespace
}  // namespace kartwright
