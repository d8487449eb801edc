#include "engine/algebra/regression.h"

#include <Eigen/QR>
#include <cmath>

namespace kartwright {

namespace {

/// Lengths of the columns; 1 for one of nothing but zeros.
Eigen::VectorXd lengths_of(const Eigen::MatrixXd& x) {
  Eigen::VectorXd lengths = x.colwise().norm().transpose();
  for (double& length : lengths) {
    if (length == 0.0) length = 1.0;
  }
  return lengths;
}

/// The diagonal of (R'R)^-1 in the order of the columns.
Eigen::VectorXd spread_of(const Eigen::ColPivHouseholderQR<Eigen::MatrixXd>& qr) {
  const Eigen::Index p = qr.cols();
  const Eigen::MatrixXd inverse =
      qr.matrixR().topLeftCorner(p, p).triangularView<Eigen::Upper>().solve(
          Eigen::MatrixXd::Identity(p, p));
  return qr.colsPermutation() * inverse.rowwise().squaredNorm();
}

}  // namespace

std::optional<Regression> least_squares(const Eigen::MatrixXd& x, const Eigen::VectorXd& y) {
  const Eigen::Index n = x.rows();
  const Eigen::Index p = x.cols();
  if (n <= p || p == 0 || y.size() != n) return {};
  const Eigen::VectorXd lengths = lengths_of(x);
  const Eigen::ColPivHouseholderQR<Eigen::MatrixXd> qr(x * lengths.cwiseInverse().asDiagonal());
  if (qr.rank() < p) return {};

  Regression out;
  out.degrees_of_freedom = static_cast<int>(n - p);
  const Eigen::VectorXd scaled = qr.solve(y);
  out.coefficients = scaled.cwiseQuotient(lengths);
  out.residuals = y - x * out.coefficients;
  const double residual = out.residuals.squaredNorm();
  const double whole = (y.array() - y.mean()).matrix().squaredNorm();
  const auto free = static_cast<double>(out.degrees_of_freedom);
  out.residual_sd = std::sqrt(residual / free);
  out.standard_errors = (spread_of(qr).cwiseSqrt() * out.residual_sd).cwiseQuotient(lengths);
  if (whole > 0.0) out.r_squared = 1.0 - residual / whole;
  const auto explaining = static_cast<double>(p - 1);
  if (p > 1 && residual > 0.0) out.f = ((whole - residual) / explaining) / (residual / free);
  return out;
}

Description describe(const Eigen::VectorXd& values) {
  Description out;
  const auto n = static_cast<double>(values.size());
  out.mean = values.mean();
  Eigen::VectorXd off = values.array() - out.mean;
  // What rounding left in the mean.
  out.mean += off.mean();
  off = values.array() - out.mean;
  const double squares = off.squaredNorm();
  out.sd = std::sqrt(squares / (n - 1.0));
  if (squares > 0.0) out.lag1 = off.head(off.size() - 1).dot(off.tail(off.size() - 1)) / squares;
  return out;
}

}  // namespace kartwright
