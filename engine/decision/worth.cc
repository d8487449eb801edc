#include "engine/decision/worth.h"

#include <algorithm>
#include <cmath>

#include "engine/decision/envelope.h"

namespace kartwright {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

std::vector<SingleMove> legal_moves(const std::vector<Way>& ways,
                                    const std::vector<Effect>& effects) {
  std::vector<SingleMove> moves;
  for (std::size_t i = 0; i < ways.size(); ++i) {
    if (!effects[i / 2].known()) continue;
    for (const Option& option : ways[i].options) {
      if (option.legal()) moves.push_back({i / 2, option.steps});
    }
  }
  return moves;
}

Gain gain_of(const VectorXd& mean, const VectorXd& weights, const Effect& effect, double steps) {
  const VectorXd weighed = weights.cwiseProduct(effect.per_step);
  const double square = weighed.dot(effect.per_step) + weights.dot(effect.covariance.diagonal());
  Gain gain{.now = 0.0, .tilt = -2.0 * steps * weighed};
  gain.now = gain.tilt.dot(mean) - steps * steps * square;
  return gain;
}

Gains gains_of(const VectorXd& mean, const VectorXd& weights, const std::vector<SingleMove>& moves,
               const std::vector<Effect>& effects) {
  const auto n = static_cast<Index>(moves.size());
  Gains gains{VectorXd(n), MatrixXd(n, mean.size())};
  for (Index i = 0; i < n; ++i) {
    const SingleMove& move = moves[static_cast<std::size_t>(i)];
    const Gain gain = gain_of(mean, weights, effects[move.adjustment], move.steps);
    gains.now[i] = gain.now;
    gains.tilt.row(i) = gain.tilt;
  }
  return gains;
}

double worth_of_answer(const Gains& gains, const Belief& belief, const Asked& asked) {
  const VectorXd cross = belief.covariance * asked.row;
  const double spread = std::sqrt(asked.row.dot(cross) + asked.sd * asked.sd);
  const VectorXd slopes = gains.tilt * (cross / spread);
  std::vector<Line> lines{Line{}};  // doing nothing
  for (Index i = 0; i < slopes.size(); ++i) lines.push_back({gains.now[i], slopes[i]});
  double floor = kNoFloor;  // or where what was reported would no longer be there
  if (!asked.two_sided) floor = -asked.row.dot(belief.mean) / spread;
  return worth_of_seeing(std::move(lines), floor);
}

double worth_of_value(const MatrixXd& gains, const VectorXd& weights) {
  if (gains.rows() == 0) return 0.0;
  const double knowing = gains.colwise().maxCoeff().cwiseMax(0.0).dot(weights);
  const double guessing = std::max(0.0, (gains * weights).maxCoeff());
  return std::max(0.0, knowing - guessing);  // below by rounding alone
}

}  // namespace kartwright
