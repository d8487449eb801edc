// regression.h - least squares by an orthogonal factorisation, with what is needed to say how sure
// it is. Held against the reference datasets of NIST.

#pragma once

#include <Eigen/Core>
#include <optional>

namespace kartwright {

/// What a model says of n observations with p coefficients.
struct Regression {
  Eigen::VectorXd coefficients;     ///< p
  Eigen::VectorXd standard_errors;  ///< p
  Eigen::VectorXd residuals;        ///< n, observed less fitted
  double residual_sd = 0;           ///< root of the residual sum of squares over n - p
  double r_squared = 0;             ///< of the variation about the mean
  double f = 0;                     ///< explained over residual mean square
  int degrees_of_freedom = 0;       ///< n - p
};

/// Ordinary least squares of `y` (n) on the columns of `x` (n by p), one of which is the constant.
/// Columns are scaled to length one before they are factored (Householder QR with pivots), which
/// keeps what polynomials and years would lose. Nothing where there are no more observations than
/// columns, or where the columns do not tell the coefficients apart.
std::optional<Regression> least_squares(const Eigen::MatrixXd& x, const Eigen::VectorXd& y);

/// Mean, standard deviation about it (n - 1) and how alike neighbours are, each in two passes.
struct Description {
  double mean = 0, sd = 0;
  double lag1 = 0;  ///< autocorrelation at lag one; 0 where all are alike
};
/// REQUIRES: two values or more.
Description describe(const Eigen::VectorXd& values);

}  // namespace kartwright
