// gaussian.h - draws from a Gaussian that come out the same on every platform.

#pragma once

#include <Eigen/Core>
#include <random>
#include <vector>

#include <boost/random/normal_distribution.hpp>

namespace kartwright {

/// N(mean, covariance). std::mt19937_64 is the same everywhere; std::normal_distribution is not.
class Gaussian {
 public:
  /// REQUIRES: the covariance is symmetric, positive semidefinite, and as large as the mean.
  Gaussian(const Eigen::VectorXd& mean, const Eigen::MatrixXd& covariance);

  /// One draw, in the mean's unit.
  void draw(std::mt19937_64& engine, Eigen::VectorXd& out);

 private:
  Eigen::Index size() const { return static_cast<Eigen::Index>(spread_.size()); }
  Eigen::Index axis(Eigen::Index i) const { return spread_[static_cast<std::size_t>(i)]; }

  Eigen::VectorXd mean_;
  std::vector<Eigen::Index> spread_;  ///< axes with any
  Eigen::MatrixXd factor_;            ///< U, so that the columns lie together
  Eigen::VectorXd normals_;
  boost::random::normal_distribution<double> normal_;
};

}  // namespace kartwright
