// matrices.h - what tests ask of a library about matrices, compiled once for all of them.
//
// The engine asks it in engine/algebra, and by other factorings.

#pragma once

#include <Eigen/Core>
#include <initializer_list>

namespace kartwright {

/// REQUIRES: square, and has one.
Eigen::MatrixXd plain_inverse(const Eigen::MatrixXd& matrix);

/// From left to right. REQUIRES: at least one.
Eigen::MatrixXd plain_product(std::initializer_list<Eigen::MatrixXd> factors);

/// The least of a symmetric matrix.
double least_eigenvalue(const Eigen::MatrixXd& matrix);

/// L of L L', a lower triangle. REQUIRES: symmetric and positive definite.
Eigen::MatrixXd lower_factor(const Eigen::MatrixXd& matrix);

}  // namespace kartwright
