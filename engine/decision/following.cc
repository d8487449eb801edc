#include "engine/decision/following.h"

#include <algorithm>

namespace kartwright {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

Following::Following(const VectorXd& mean, const MatrixXd& covariance)
    : axes_(mean.size()), mean_(mean), covariance_(covariance) {}

Index Following::block(std::size_t adjustment) const {
  const auto found = std::find(moved_.begin(), moved_.end(), adjustment);
  if (found == moved_.end()) return -1;
  return axes_ * (1 + static_cast<Index>(found - moved_.begin()));
}

void Following::move(std::size_t adjustment, const Effect& effect, double steps) {
  if (block(adjustment) < 0) {
    const Index size = mean_.size();
    moved_.push_back(adjustment);
    mean_.conservativeResize(size + axes_);
    mean_.tail(axes_) = effect.per_step;
    MatrixXd wider = MatrixXd::Zero(size + axes_, size + axes_);
    wider.topLeftCorner(size, size) = covariance_;
    wider.bottomRightCorner(axes_, axes_) = effect.covariance;
    covariance_ = std::move(wider);
  }
  MatrixXd step = MatrixXd::Identity(mean_.size(), mean_.size());
  step.block(0, block(adjustment), axes_, axes_) = steps * MatrixXd::Identity(axes_, axes_);
  mean_ = step * mean_;
  covariance_ = step * covariance_ * step.transpose();
}

void Following::hear(const VectorXd& row, double value, double sd) {
  const VectorXd across = covariance_.leftCols(axes_) * row;
  const double spread = row.dot(across.head(axes_)) + sd * sd;
  mean_ += across * ((value - row.dot(mean_.head(axes_))) / spread);
  covariance_ -= across * across.transpose() / spread;
}

VectorXd Following::mean() const { return mean_.head(axes_); }
MatrixXd Following::covariance() const { return covariance_.topLeftCorner(axes_, axes_); }

double Following::expected(const VectorXd& row) const { return row.dot(mean_.head(axes_)); }

double Following::variance(const VectorXd& row, double sd) const {
  return row.dot(covariance_.topLeftCorner(axes_, axes_) * row) + sd * sd;
}

Effect Following::effect(std::size_t adjustment, const Effect& rules) const {
  const Index at = block(adjustment);
  if (at < 0) return rules;
  Effect out = rules;
  out.per_step = mean_.segment(at, axes_);
  out.covariance = covariance_.block(at, at, axes_, axes_);
  return out;
}

double Following::known_together(std::size_t adjustment, const VectorXd& weights,
                                 double steps) const {
  const Index at = block(adjustment);
  if (at < 0) return 0.0;
  return 2.0 * steps * weights.dot(covariance_.block(0, at, axes_, axes_).diagonal());
}

}  // namespace kartwright
