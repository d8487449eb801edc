// belief.h - what we believe about the kart's handling, and exactly why.
//
// Readings are linear and Gaussian, so all of them are folded in at once and their order cannot
// matter.

#pragma once

#include <Eigen/Core>
#include <vector>

#include "engine/inference/readings.h"

namespace kartwright {

/// What is believed of any kart before a word is said: notches from the pace optimum, one per axis.
struct Prior {
  Eigen::VectorXd mean;
  Eigen::MatrixXd covariance;  ///< notches squared; symmetric, positive definite
};

/// Zero mean; spreads and correlations of the pack's axes.
/// Throws InputError with Code::not_positive_definite, naming the correlations that break it.
Prior make_prior(const Pack& pack);

struct Belief {
  Eigen::VectorXd mean;        ///< notches from the pace optimum; negative is too little
  Eigen::MatrixXd covariance;  ///< notches squared; symmetric
  /// Axes by readings: what each reading moved. A row sums to mean - prior.mean on its axis.
  Eigen::MatrixXd shares;
};

/// Folds readings into a prior: m = mu + K (y - H mu) with K = P H' S^-1 and S = H P H' + R, the
/// best linear unbiased update (the measurement step of Kalman 1960). REQUIRES: every row has
/// prior.mean.size() entries and sd > 0.
Belief update(const Prior& prior, const std::vector<Reading>& readings);

/// Do the readings fit together?
struct Coherence {
  double chi2 = 0.0;
  int dof = 0;
  bool coherent = true;  ///< chi2 is not beyond the 1 % tail
  int odd_one_out = -1;  ///< index of the reading that fits least, where they do not fit together
};

/// chi2 = r' T^-1 r with r = y - H mu and T = 4 H P H' + R: a wide prior, since drivers speak only
/// when something is wrong. The odd one out has the largest |[T^-1 r]_i| / sqrt([T^-1]_ii), its
/// deletion residual.
Coherence fit_together(const Prior& prior, const std::vector<Reading>& readings);

}  // namespace kartwright
