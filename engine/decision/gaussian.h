// gaussian.h - draws from a Gaussian that come out the same on every platform.

#pragma once

#include <Eigen/Core>
#include <random>
#include <vector>

namespace kartwright {

/// Standard normals, row after row. std::mt19937_64 is the same everywhere, and so is what is made
/// of its numbers here, which std::normal_distribution is not.
void draw_normals(std::mt19937_64& engine, Eigen::MatrixXd& normals);

/// N(mean, covariance).
class Gaussian {
 public:
  /// REQUIRES: the covariance is symmetric, positive semidefinite, and as large as the mean.
  Gaussian(const Eigen::VectorXd& mean, const Eigen::MatrixXd& covariance);

  /// How many normals a draw takes: one for each axis that is not known for certain.
  Eigen::Index normals() const { return static_cast<Eigen::Index>(spread_.size()); }

  /// One draw of each row of normals, in the mean's unit. Shapes: draws x normals() gives
  /// draws x axes.
  void draw_from(const Eigen::Ref<const Eigen::MatrixXd>& normals, Eigen::MatrixXd& out) const;

  /// One draw, in the mean's unit.
  Eigen::VectorXd draw(std::mt19937_64& engine) const;

 private:
  Eigen::VectorXd mean_;
  std::vector<Eigen::Index> spread_;  ///< axes with any
  Eigen::MatrixXd factor_;            ///< U, so that the columns lie together
};

}  // namespace kartwright
