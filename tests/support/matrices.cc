#include "tests/support/matrices.h"

#include <Eigen/Cholesky>
#include <Eigen/Eigenvalues>
#include <Eigen/LU>

namespace kartwright {

Eigen::MatrixXd plain_inverse(const Eigen::MatrixXd& matrix) { return matrix.inverse(); }

Eigen::MatrixXd plain_product(std::initializer_list<Eigen::MatrixXd> factors) {
  Eigen::MatrixXd product = *factors.begin();
  for (const auto* factor = factors.begin() + 1; factor != factors.end(); ++factor)
    product = (product * *factor).eval();
  return product;
}

double least_eigenvalue(const Eigen::MatrixXd& matrix) {
  return Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd>(matrix).eigenvalues().minCoeff();
}

Eigen::MatrixXd lower_factor(const Eigen::MatrixXd& matrix) { return matrix.llt().matrixL(); }

}  // namespace kartwright
