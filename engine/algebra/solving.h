// solving.h - systems of linear equations, solved by a kept library that is compiled here and
// nowhere else: its templates take longer to compile than all that calls them.

#pragma once

#include <Eigen/Cholesky>

namespace kartwright {

/// A symmetric positive definite matrix A (n by n) as its Cholesky factor U, A = U'U.
class Definite {
 public:
  explicit Definite(const Eigen::MatrixXd& a);

  /// Whether A is what it should be; nothing else may be asked where it is not.
  bool holds() const;
  Eigen::VectorXd solve(const Eigen::VectorXd& b) const;  ///< x with A x = b, n
  Eigen::MatrixXd solve(const Eigen::MatrixXd& b) const;  ///< X with A X = B, n by m
  Eigen::MatrixXd inverse() const;
  Eigen::MatrixXd upper() const;  ///< U, zeros below the diagonal

 private:
  Eigen::LLT<Eigen::MatrixXd> factor_;
};

/// The inverse of a square matrix, by an LU factorisation with pivots. REQUIRES: it has one.
Eigen::MatrixXd inverse_of(const Eigen::MatrixXd& a);

/// What is left of a covariance P where a precision G is added: (P^-1 + G)^-1, as (1 + P G)^-1 P,
/// which asks for no inverse of P, so that P may be singular. Symmetric.
Eigen::MatrixXd narrowed(const Eigen::MatrixXd& covariance, const Eigen::MatrixXd& precision);

/// Eigenvalues of a symmetric matrix in ascending order, and their eigenvectors as columns.
struct Spectrum {
  Eigen::VectorXd values;
  Eigen::MatrixXd vectors;
};
Spectrum spectrum_of(const Eigen::MatrixXd& symmetric);

}  // namespace kartwright
