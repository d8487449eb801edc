// following.h - what is believed after changes are made and the driver speaks again.
//
// The kart and what its changes do are believed together: an answer that surprises says something
// of both. Where the kart stood before is then known no better, what a change does is.

#pragma once

#include <Eigen/Core>
#include <vector>

#include "engine/decision/rank.h"

namespace kartwright {

/// z, where the kart stands, and b of each adjustment that was moved, jointly Gaussian.
class Following {
 public:
  /// From a belief about the kart: notches, notches squared, over axes.
  Following(const Eigen::VectorXd& mean, const Eigen::MatrixXd& covariance);

  /// Moves adjustment number `adjustment` by `steps`: z becomes z + steps b. What `effect` says is
  /// taken where the adjustment was not moved before, and knows nothing of the rest.
  void move(std::size_t adjustment, const Effect& effect, double steps);

  /// `row` z was heard to be `value`, with a spread of `sd`, notches (the measurement step of
  /// Kalman 1960). REQUIRES: sd > 0.
  void hear(const Eigen::VectorXd& row, double value, double sd);

  Eigen::VectorXd mean() const;        ///< of z
  Eigen::MatrixXd covariance() const;  ///< of z

  /// What row z will be heard as: its mean and its variance, the spread of the hearing among it.
  double expected(const Eigen::VectorXd& row) const;
  double variance(const Eigen::VectorXd& row, double sd) const;

  /// The effect as it is known by now; `rules` where it was not moved.
  Effect effect(std::size_t adjustment, const Effect& rules) const;

  /// By how much the handling error after `steps` more of an adjustment is above what it would be
  /// did kart and effect know nothing of each other: 2 u tr(W Cov(z, b)), notches squared. Putting
  /// a change back is by this as sure as the kart was before it.
  double known_together(std::size_t adjustment, const Eigen::VectorXd& weights, double steps) const;

 private:
  Eigen::Index block(std::size_t adjustment) const;  ///< where its b stands; -1 if nowhere

  Eigen::Index axes_;
  std::vector<std::size_t> moved_;  ///< adjustments, in the order of their blocks
  Eigen::VectorXd mean_;
  Eigen::MatrixXd covariance_;
};

}  // namespace kartwright
