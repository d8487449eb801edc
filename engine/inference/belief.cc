#include "engine/inference/belief.h"

#include <cmath>

#include "engine/algebra/distributions.h"
#include "engine/algebra/solving.h"

namespace kartwright {
namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

/// All readings as one system y = H z + e.
struct Stack {
  MatrixXd rows;        // H
  VectorXd innovation;  // y - H mu
  VectorXd variance;    // diagonal of R
};

Stack stack(const Prior& prior, const std::vector<Reading>& readings) {
  const auto n = static_cast<Index>(readings.size());
  Stack s{MatrixXd(n, prior.mean.size()), VectorXd(n), VectorXd(n)};
  for (Index i = 0; i < n; ++i) {
    const Reading& reading = readings[static_cast<std::size_t>(i)];
    s.rows.row(i) = reading.row.transpose();
    s.innovation[i] = reading.value - reading.row.dot(prior.mean);
    s.variance[i] = reading.sd * reading.sd;
  }
  return s;
}

MatrixXd covariance_of(const Pack& pack, const std::vector<Correlation>& correlations) {
  const auto n = static_cast<Index>(pack.axes.size());
  MatrixXd covariance = MatrixXd::Zero(n, n);
  const auto spread = [&](Index i) { return pack.axes[static_cast<std::size_t>(i)].spread; };
  for (Index i = 0; i < n; ++i) covariance(i, i) = spread(i) * spread(i);
  for (const Correlation& c : correlations) {
    const auto a = static_cast<Index>(c.a);
    const auto b = static_cast<Index>(c.b);
    covariance(a, b) = covariance(b, a) = c.value * spread(a) * spread(b);
  }
  return covariance;
}

bool positive_definite(const MatrixXd& matrix) { return Definite(matrix).holds(); }

/// The correlations between axes of a combination that would have no spread, or less than none:
/// where an eigenvector of an eigenvalue not above zero has both axes in it.
std::vector<Correlation> correlations_at_fault(const Pack& pack) {
  constexpr double kNothing = 1e-9;
  const Spectrum all = spectrum_of(covariance_of(pack, pack.correlations));
  std::vector<Correlation> guilty;
  for (const Correlation& c : pack.correlations) {
    for (Index i = 0; i < all.values.size(); ++i) {
      const auto column = all.vectors.col(i);
      const double both = column[static_cast<Index>(c.a)] * column[static_cast<Index>(c.b)];
      if (all.values[i] > kNothing || std::abs(both) < kNothing) continue;
      guilty.push_back(c);
      break;
    }
  }
  return guilty;
}

/// Names each correlation without which the rest could be, or all that are at fault where it takes
/// more than one.
[[noreturn]] void refuse_prior(const Pack& pack) {
  std::vector<Correlation> guilty;
  for (std::size_t i = 0; i < pack.correlations.size(); ++i) {
    std::vector<Correlation> rest = pack.correlations;
    rest.erase(rest.begin() + static_cast<std::ptrdiff_t>(i));
    if (positive_definite(covariance_of(pack, rest))) guilty.push_back(pack.correlations[i]);
  }
  if (guilty.empty()) guilty = correlations_at_fault(pack);
  std::vector<Diagnostic> found;
  for (const Correlation& c : guilty) {
    found.push_back({.code = Code::not_positive_definite,
                     .file = c.source.file,
                     .span = {.line = c.source.line, .column = 1},
                     .message = "no kart can have this correlation among the others: " +
                                pack.axes[c.a].id + " with " + pack.axes[c.b].id,
                     .help = "bring it nearer to zero"});
  }
  throw InputError(std::move(found));
}

}  // namespace

Prior make_prior(const Pack& pack) {
  Prior prior{VectorXd::Zero(static_cast<Index>(pack.axes.size())),
              covariance_of(pack, pack.correlations)};
  if (!positive_definite(prior.covariance)) refuse_prior(pack);
  return prior;
}

Belief update(const Prior& prior, const std::vector<Reading>& readings) {
  const Index n = prior.mean.size();
  if (readings.empty()) return {prior.mean, prior.covariance, MatrixXd::Zero(n, 0)};
  const Stack s = stack(prior, readings);
  const MatrixXd cross = s.rows * prior.covariance;  // H P
  MatrixXd innovation_covariance = cross * s.rows.transpose();
  innovation_covariance.diagonal() += s.variance;
  const MatrixXd gain = Definite(innovation_covariance).solve(cross).transpose();  // K = P H' S^-1
  Belief belief;
  belief.shares = gain * s.innovation.asDiagonal();
  belief.mean = prior.mean + belief.shares.rowwise().sum();
  belief.covariance = prior.covariance - gain * cross;
  belief.covariance = 0.5 * (belief.covariance + belief.covariance.transpose()).eval();
  return belief;
}

Coherence fit_together(const Prior& prior, const std::vector<Reading>& readings) {
  if (readings.empty()) return {};
  constexpr double kWidening = 4.0;  // twice the prior's spread
  constexpr double kTail = 0.01;
  const Stack s = stack(prior, readings);
  MatrixXd expected = kWidening * s.rows * prior.covariance * s.rows.transpose();
  expected.diagonal() += s.variance;
  const Index n = s.innovation.size();
  const MatrixXd inverse = Definite(expected).inverse();
  const VectorXd residual = inverse * s.innovation;
  Coherence out{.chi2 = s.innovation.dot(residual), .dof = static_cast<int>(n)};
  out.coherent = chi_squared_beyond(out.chi2, static_cast<double>(n)) >= kTail;
  if (out.coherent) return out;
  Index worst = 0;
  residual.cwiseAbs().cwiseQuotient(inverse.diagonal().cwiseSqrt()).maxCoeff(&worst);
  out.odd_one_out = static_cast<int>(worst);
  return out;
}

}  // namespace kartwright
