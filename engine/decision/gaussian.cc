#include "engine/decision/gaussian.h"

#include "engine/algebra/solving.h"

namespace kartwright {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

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
  normals_.resize(size());
}

void Gaussian::draw(std::mt19937_64& engine, VectorXd& out) {
  out = mean_;
  if (spread_.empty()) return;
  const Index n = size();
  for (Index i = 0; i < n; ++i) {
    normals_[i] = normal_(engine);
    const double* const row = factor_.col(i).data();
    double sum = 0.0;
    for (Index j = 0; j <= i; ++j) sum += row[j] * normals_[j];
    out[axis(i)] += sum;
  }
}

}  // namespace kartwright
