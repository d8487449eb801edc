// learning.h - what this kart's own runs say of the effects of its adjustments: one joint Gaussian
// belief over all of them, to which every day adds what its debriefs changed by.

#pragma once

#include <Eigen/Core>
#include <cstddef>
#include <optional>
#include <vector>

namespace kartwright {

/// What was done between two runs of a day, and what else may have moved the kart.
struct DayStep {
  Eigen::VectorXd moves;  ///< steps of each adjustment, + as the adjustment has it
  /// Notches on each axis that are expected whatever is learned: of the track, and of the moves
  /// where it is learned by how much they differ from that.
  Eigen::VectorXd drift;
  Eigen::VectorXd drift_sd;  ///< of that, one for each axis
};

/// What was said of one symptom in one phase.
struct Saying {
  double value = 0, sd = 0;  ///< notches
};

/// One symptom in one phase over the runs of a day: one more run than the day has steps.
struct DaySayings {
  Eigen::VectorXd row;  ///< of the axes: what the symptom reads
  std::vector<std::optional<Saying>> runs;
};

/// The differences of a day as linear equations: seen = design * effects + error.
struct DayEquations {
  std::vector<Eigen::Index> moved;  ///< the adjustments that were moved at all, ascending
  Eigen::MatrixXd design;           ///< by difference; the axes of each that was moved in turn
  Eigen::VectorXd seen;             ///< notches, less what was expected whatever is learned
  Eigen::MatrixXd error;            ///< covariance, notches squared
  std::vector<std::size_t> steps;   ///< of each difference
};
/// Nothing in it where nothing was moved or said. REQUIRES: one more run than steps.
DayEquations equations_of(const std::vector<DayStep>& steps,
                          const std::vector<DaySayings>& sayings);

/// Effects in notches for a step, adjustments one after the other, axes within each.
struct EffectBelief {
  Eigen::VectorXd mean;
  Eigen::MatrixXd covariance;
};

/// The sum of all days, in a form in which their order changes nothing.
class EffectLearning {
 public:
  EffectLearning(std::size_t adjustments, std::size_t axes);

  /// Differences of what was said before and after each step. Errors of neighbours share a run,
  /// which the covariance knows, and sayings are whole numbers, which adds 1/12 to their variance.
  /// REQUIRES: sizes as constructed, and one more run than steps.
  void add_day(const std::vector<DayStep>& steps, const std::vector<DaySayings>& sayings);

  /// With the belief before any run: independent effects. REQUIRES: every sd above zero.
  EffectBelief belief(const Eigen::VectorXd& mean, const Eigen::VectorXd& sd) const;

  /// The same of some of the effects, as indices into all of them, where how far they are from
  /// what was expected in `DayStep::drift` has mean 0 and this covariance (of any form, positive
  /// semidefinite), and the others are exactly as expected.
  EffectBelief belief(const std::vector<Eigen::Index>& which,
                      const Eigen::MatrixXd& covariance) const;

  /// How many differences spoke of an adjustment.
  int runs_of(std::size_t adjustment) const { return runs_.at(adjustment); }

 private:
  Eigen::Index axes_;
  Eigen::MatrixXd precision_;  ///< what the runs add to it
  Eigen::VectorXd pull_;       ///< precision times mean
  std::vector<int> runs_;
};

}  // namespace kartwright
