// Least squares beside GSL.

#include <cmath>

#include <fmt/format.h>
#include <gsl/gsl_multifit.h>

#include "engine/algebra/regression.h"
#include "tests/bench/table_rows.h"
#include "tests/support/any.h"

namespace kartwright {
namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

constexpr int kColumns = 6;

struct Observed {
  MatrixXd x;
  VectorXd y;
};

/// A constant and made-up columns, with made-up noise.
Observed some_observations(int count) {
  Random random(5);
  Observed made{MatrixXd::Ones(count, kColumns), VectorXd(count)};
  for (Index i = 0; i < count; ++i) {
    made.y[i] = any_between(random, -1.0, 1.0);
    for (Index j = 1; j < kColumns; ++j) {
      made.x(i, j) = any_between(random, -2.0, 2.0);
      made.y[i] += static_cast<double>(j) * made.x(i, j);
    }
  }
  return made;
}

/// GSL's own least squares with its covariance, on its own copies, with room set aside once.
class Gsl {
 public:
  explicit Gsl(const Observed& observed)
      : x_(gsl_matrix_alloc(rows(observed), kColumns)),
        y_(gsl_vector_alloc(rows(observed))),
        c_(gsl_vector_alloc(kColumns)),
        covariance_(gsl_matrix_alloc(kColumns, kColumns)),
        work_(gsl_multifit_linear_alloc(rows(observed), kColumns)) {
    for (Index i = 0; i < observed.x.rows(); ++i) {
      const auto row = static_cast<std::size_t>(i);
      gsl_vector_set(y_, row, observed.y[i]);
      for (Index j = 0; j < kColumns; ++j)
        gsl_matrix_set(x_, row, static_cast<std::size_t>(j), observed.x(i, j));
    }
  }
  ~Gsl() {
    gsl_matrix_free(x_);
    gsl_vector_free(y_);
    gsl_vector_free(c_);
    gsl_matrix_free(covariance_);
    gsl_multifit_linear_free(work_);
  }
  Gsl(const Gsl&) = delete;
  Gsl& operator=(const Gsl&) = delete;

  void fit() { gsl_multifit_linear(x_, y_, c_, covariance_, &squares_, work_); }

  bool same_as(const Regression& ours) const {
    constexpr double kClose = 1e-9;
    const auto close = [](double a, double b) {
      return std::abs(a - b) <= kClose * (1.0 + std::abs(a));
    };
    for (std::size_t j = 0; j < kColumns; ++j) {
      const auto at = static_cast<Index>(j);
      const double error = std::sqrt(gsl_matrix_get(covariance_, j, j));
      if (!close(ours.coefficients[at], gsl_vector_get(c_, j)) ||
          !close(ours.standard_errors[at], error))
        return false;
    }
    return close(ours.residuals.squaredNorm(), squares_);
  }

 private:
  static std::size_t rows(const Observed& observed) {
    return static_cast<std::size_t>(observed.x.rows());
  }

  gsl_matrix* x_;
  gsl_vector* y_;
  gsl_vector* c_;
  gsl_matrix* covariance_;
  gsl_multifit_linear_workspace* work_;
  double squares_ = 0.0;
};

}  // namespace

void time_regression(Effort effort) {
  Group group("regression, six columns", "GSL's multifit");
  for (const int count : {30, 300, 3'000}) {
    const Observed observed = some_observations(count);
    Gsl gsl(observed);
    gsl.fit();
    const auto ours = least_squares(observed.x, observed.y);
    agree(ours.has_value() && gsl.same_as(*ours), "the regression");
    double kept = 0.0;
    group.add(
        fmt::format("{} laps", count), count,
        pairs_of(
            effort.goes(), [&] { kept += least_squares(observed.x, observed.y)->residual_sd; },
            [&] { gsl.fit(); }));
    agree(kept > 0.0, "no noise");
  }
  group.print();
}

}  // namespace kartwright
