#include "engine/algebra/solving.h"

#include <Eigen/Eigenvalues>
#include <Eigen/LU>

namespace kartwright {

using Eigen::MatrixXd;
using Eigen::VectorXd;

Definite::Definite(const MatrixXd& a) : factor_(a) {}

bool Definite::holds() const { return factor_.info() == Eigen::Success; }

VectorXd Definite::solve(const VectorXd& b) const { return factor_.solve(b); }

MatrixXd Definite::solve(const MatrixXd& b) const { return factor_.solve(b); }

MatrixXd Definite::inverse() const {
  return factor_.solve(MatrixXd::Identity(factor_.rows(), factor_.cols()));
}

MatrixXd Definite::upper() const { return factor_.matrixU(); }

MatrixXd inverse_of(const MatrixXd& a) { return a.inverse(); }

MatrixXd narrowed(const MatrixXd& covariance, const MatrixXd& precision) {
  const Eigen::Index n = covariance.rows();
  const MatrixXd one = MatrixXd::Identity(n, n) + covariance * precision;
  const MatrixXd after = one.partialPivLu().solve(covariance);
  return (after + after.transpose()) / 2.0;
}

Spectrum spectrum_of(const MatrixXd& symmetric) {
  const Eigen::SelfAdjointEigenSolver<MatrixXd> solver(symmetric);
  return {solver.eigenvalues(), solver.eigenvectors()};
}

}  // namespace kartwright
