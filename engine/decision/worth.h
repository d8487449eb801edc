// worth.h - what it is worth to hear an answer before a move is chosen: how much more handling
// error would come out, in notches squared, by choosing with the answer instead of without it (the
// expected value of sample information; Raiffa and Schlaifer 1961).
//
// Doing nothing can always be chosen. No worth is ever negative.

#pragma once

#include <Eigen/Core>
#include <vector>

#include "engine/decision/effects.h"
#include "engine/decision/options.h"
#include "engine/inference/belief.h"

namespace kartwright {

/// u reference steps of one adjustment.
struct SingleMove {
  std::size_t adjustment = 0;  ///< index into Pack::adjustments
  double steps = 0.0;
};

/// Every single move that is legal and whose effect is known. `effects` are in the order of
/// Pack::adjustments, `ways` two to each.
std::vector<SingleMove> legal_moves(const std::vector<Way>& ways,
                                    const std::vector<Effect>& effects);

/// G = J(none) - J(move), notches squared, and how it follows the belief: G is linear in the mean,
/// so that at mean + d it is `now` + tilt . d.
struct Gain {
  double now = 0.0;
  Eigen::VectorXd tilt;  ///< -2 u W b
};
Gain gain_of(const Eigen::VectorXd& mean, const Eigen::VectorXd& weights, const Effect& effect,
             double steps);

/// The gains of all moves, in their order.
struct Gains {
  Eigen::VectorXd now;
  Eigen::MatrixXd tilt;  ///< moves by axes
};
Gains gains_of(const Eigen::VectorXd& mean, const Eigen::VectorXd& weights,
               const std::vector<SingleMove>& moves, const std::vector<Effect>& effects);

/// A question to the driver. Its answer y is in notches of the row: h z + e, e ~ N(0, sd^2), above
/// zero where what was asked about is there.
struct Asked {
  Eigen::VectorXd row = {};  ///< h, over axes
  double sd = 1.0;           ///< above zero
  /// False where every y <= 0 is one and the same answer, a denial: then one decision must do for
  /// all of them.
  bool two_sided = false;
};

/// E_y[max_S G(S|m_y)] - max_S G(S|m) for the gains at the belief's mean m. The answer is
/// predictive N(h m, s^2), s^2 = h P h' + sd^2, and moves the mean by P h' / s a standard deviation
/// of it, so that each move is a line over it: exact.
double worth_of_answer(const Gains& gains, const Belief& belief, const Asked& asked);

/// sum_v w_v max_S G(S|v) - max_S sum_v w_v G(S|v): what it is worth to learn which value holds.
/// `gains` has a column for each value and a row for each move; the weights sum to 1.
double worth_of_value(const Eigen::MatrixXd& gains, const Eigen::VectorXd& weights);

}  // namespace kartwright
