// calibration.h - how often what was promised came true: every day foretold from the days before
// it alone, then held against its debriefs and its clock.

#pragma once

#include <array>
#include <string>
#include <vector>

#include "engine/knowledge/pack.h"
#include "engine/records/history.h"

namespace kartwright {

/// Times that something promised with so much confidence came true. Severities are whole numbers,
/// so a difference of two stands for all that rounds to it, and counts by the share of that which
/// the interval holds.
struct Held {
  double promised = 0;  ///< share
  double held = 0;
  int of = 0;
  double share() const { return of > 0 ? held / of : 0.0; }
};

struct Calibration {
  /// Differences between debriefs around a change that fell into the interval foretold for them:
  /// of 50, 80 and 95 %.
  std::array<Held, 3> intervals{Held{0.50}, Held{0.80}, Held{0.95}};
  /// Of the complaint that was strongest before a change that should have eased it.
  int eased = 0, same = 0, worse = 0;
  /// Changes made by advice: what the clock said of them.
  int faster = 0, slower = 0, not_settled = 0;
  int advised = 0;            ///< changes made by advice and driven
  double promised_share = 0;  ///< mean share of the handling error that these promised to take out
  /// Sums of the squares of the severities in the debriefs before and after these changes.
  double squares_before = 0, squares_after = 0;
};

/// REQUIRES: runs of one kart, by time, with laps and settings. `effects` are what the rules say
/// where nothing is known of the day, in the order of Pack::adjustments.
Calibration calibrate(const std::vector<Run>& runs, const Pack& pack, const Kart& kart,
                      const std::vector<Effect>& effects);

/// A Kalman filter over all effects: each day foretold, then taken in. Gives the same as
/// EffectLearning does all at once.
class Foretelling {
 public:
  /// How far the effects are from what is expected has mean 0 and these covariances.
  explicit Foretelling(const std::vector<Effect>& effects);

  /// What was foretold of a difference, and what came.
  struct Difference {
    std::size_t step = 0;
    double foretold = 0, sd = 0, came = 0;
  };
  /// All differences between the day's debriefs, those at the ends of their scale too, though these
  /// teach nothing.
  std::vector<Difference> take(const DayOfRuns& day);

  const Eigen::VectorXd& mean() const { return mean_; }
  const Eigen::MatrixXd& covariance() const { return covariance_; }

 private:
  struct Expected {
    Eigen::VectorXd mean;     ///< of what the equations see
    Eigen::MatrixXd spread;   ///< its covariance
    Eigen::MatrixXd crossed;  ///< covariance of the effects with it
  };
  Expected expected(const DayEquations& equations) const;

  Eigen::Index axes_;
  Eigen::VectorXd mean_;
  Eigen::MatrixXd covariance_;
};

}  // namespace kartwright
