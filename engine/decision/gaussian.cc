#include "engine/decision/gaussian.h"

#include <boost/random/normal_distribution.hpp>

#include "engine/algebra/solving.h"

namespace kartwright {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

void draw_normals(std::mt19937_64& engine, MatrixXd& normals) {
  boost::random::normal_distribution<double> normal;
  for (Index row = 0; row < normals.rows(); ++row) {
    for (Index column = 0; column < normals.cols(); ++column) normals(row, column) = normal(engine);
  }
}

Gaussian::Gaussian(const VectorXd& mean, const MatrixXd& covariance) : mean_(mean) {
  for (Index i = 0; i < mean.size(); ++i) {
    if (covariance(i, i) > 0.0) spread_.push_back(i);
  }
  if (spread_.empty()) return;
  MatrixXd part = covariance(spread_, spread_);
  // A mixture's covariance may be singular; a millionth of a spread more is not seen in a share.
  constexpr double kRidge = 1e-12;
  part.diagonal().array() += kRidge * part.diagonal().maxCoeff();
  factor_ = Definite(part).upper();
}

void Gaussian::draw_from(const Eigen::Ref<const MatrixXd>& normals, MatrixXd& out) const {
  out.resize(normals.rows(), mean_.size());
  for (Index axis = 0; axis < mean_.size(); ++axis) out.col(axis).setConstant(mean_[axis]);
  for (Index i = 0; i < normals.cols(); ++i) {
    VectorXd sum = factor_(0, i) * normals.col(0);
    for (Index j = 1; j <= i; ++j) sum += factor_(j, i) * normals.col(j);
    out.col(spread_[static_cast<std::size_t>(i)]) += sum;
  }
}

VectorXd Gaussian::draw(std::mt19937_64& engine) const {
  MatrixXd row(1, normals());
  draw_normals(engine, row);
  MatrixXd out;
  draw_from(row, out);
  return out.row(0);
}

}  // namespace kartwright
