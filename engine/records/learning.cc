#include "engine/records/learning.h"

#include <cassert>

#include "engine/algebra/solving.h"

namespace kartwright {

namespace {

constexpr double kWholeNumbers = 1.0 / 12.0;  // variance of rounding to one

/// A difference that can be taken: of which symptom, over which step.
struct Difference {
  std::size_t saying = 0, step = 0;
};

std::vector<Difference> differences_of(const std::vector<DaySayings>& sayings) {
  std::vector<Difference> all;
  for (std::size_t s = 0; s < sayings.size(); ++s) {
    for (std::size_t t = 0; t + 1 < sayings[s].runs.size(); ++t) {
      if (sayings[s].runs[t] && sayings[s].runs[t + 1]) all.push_back({s, t});
    }
  }
  return all;
}

double variance_of(const Saying& said) { return said.sd * said.sd + kWholeNumbers; }

/// Of the errors of two differences: a run that both look at, and a drift that both went through.
double covariance_of(const Difference& a, const Difference& b, const std::vector<DayStep>& steps,
                     const std::vector<DaySayings>& sayings) {
  double out = 0.0;
  if (a.step == b.step) {
    const Eigen::ArrayXd drift = steps[a.step].drift_sd.array().square();
    out += (sayings[a.saying].row.array() * drift * sayings[b.saying].row.array()).sum();
  }
  if (a.saying != b.saying) return out;
  const auto& runs = sayings[a.saying].runs;
  if (a.step == b.step) return out + variance_of(*runs[a.step]) + variance_of(*runs[a.step + 1]);
  if (a.step + 1 == b.step) return out - variance_of(*runs[b.step]);
  if (b.step + 1 == a.step) return out - variance_of(*runs[a.step]);
  return out;
}

Eigen::MatrixXd covariance_of(const std::vector<Difference>& all, const std::vector<DayStep>& steps,
                              const std::vector<DaySayings>& sayings) {
  const auto n = static_cast<Eigen::Index>(all.size());
  Eigen::MatrixXd out(n, n);
  for (Eigen::Index i = 0; i < n; ++i) {
    for (Eigen::Index k = 0; k <= i; ++k) {
      out(i, k) = covariance_of(all[static_cast<std::size_t>(i)], all[static_cast<std::size_t>(k)],
                                steps, sayings);
      out(k, i) = out(i, k);
    }
  }
  return out;
}

/// The adjustments that were moved at all, ascending.
std::vector<Eigen::Index> moved_in(const std::vector<DayStep>& steps) {
  std::vector<Eigen::Index> moved;
  if (steps.empty()) return moved;
  for (Eigen::Index j = 0; j < steps[0].moves.size(); ++j) {
    for (const DayStep& step : steps) {
      if (step.moves[j] == 0.0) continue;
      moved.push_back(j);
      break;
    }
  }
  return moved;
}

}  // namespace

EffectLearning::EffectLearning(std::size_t adjustments, std::size_t axes)
    : axes_(static_cast<Eigen::Index>(axes)),
      precision_(Eigen::MatrixXd::Zero(static_cast<Eigen::Index>(adjustments) * axes_,
                                       static_cast<Eigen::Index>(adjustments) * axes_)),
      pull_(Eigen::VectorXd::Zero(static_cast<Eigen::Index>(adjustments) * axes_)),
      runs_(adjustments, 0) {}

DayEquations equations_of(const std::vector<DayStep>& steps,
                          const std::vector<DaySayings>& sayings) {
  DayEquations out;
  const std::vector<Difference> differences = differences_of(sayings);
  out.moved = moved_in(steps);
  if (differences.empty() || out.moved.empty()) return out;
  const auto n = static_cast<Eigen::Index>(differences.size());
  const Eigen::Index axes = steps.front().drift.size();
  out.design = Eigen::MatrixXd::Zero(n, static_cast<Eigen::Index>(out.moved.size()) * axes);
  out.seen.resize(n);
  for (Eigen::Index i = 0; i < n; ++i) {
    const Difference& each = differences[static_cast<std::size_t>(i)];
    const DaySayings& saying = sayings[each.saying];
    const DayStep& step = steps[each.step];
    assert(saying.runs.size() == steps.size() + 1);
    out.steps.push_back(each.step);
    out.seen[i] = saying.runs[each.step + 1]->value - saying.runs[each.step]->value -
                  saying.row.dot(step.drift);
    for (std::size_t b = 0; b < out.moved.size(); ++b) {
      out.design.row(i).segment(static_cast<Eigen::Index>(b) * axes, axes) =
          step.moves[out.moved[b]] * saying.row.transpose();
    }
  }
  out.error = covariance_of(differences, steps, sayings);
  return out;
}

void EffectLearning::add_day(const std::vector<DayStep>& steps,
                             const std::vector<DaySayings>& sayings) {
  const DayEquations day = equations_of(steps, sayings);
  if (day.seen.size() == 0) return;
  for (const std::size_t step : day.steps) {
    for (const Eigen::Index j : day.moved) {
      if (steps[step].moves[j] != 0.0) ++runs_[static_cast<std::size_t>(j)];
    }
  }
  const Definite error(day.error);
  const Eigen::MatrixXd weighed = error.solve(day.design);
  const Eigen::MatrixXd precision = day.design.transpose() * weighed;
  const Eigen::VectorXd pull = weighed.transpose() * day.seen;
  const auto blocks = static_cast<Eigen::Index>(day.moved.size());
  for (Eigen::Index a = 0; a < blocks; ++a) {
    const Eigen::Index row = day.moved[static_cast<std::size_t>(a)] * axes_;
    pull_.segment(row, axes_) += pull.segment(a * axes_, axes_);
    for (Eigen::Index b = 0; b < blocks; ++b) {
      const Eigen::Index column = day.moved[static_cast<std::size_t>(b)] * axes_;
      precision_.block(row, column, axes_, axes_) +=
          precision.block(a * axes_, b * axes_, axes_, axes_);
    }
  }
}

EffectBelief EffectLearning::belief(const Eigen::VectorXd& mean, const Eigen::VectorXd& sd) const {
  const Eigen::VectorXd prior = sd.array().square().inverse();
  Eigen::MatrixXd precision = precision_;
  precision.diagonal() += prior;
  const Definite factor(precision);
  EffectBelief out;
  out.mean = factor.solve(Eigen::VectorXd(pull_ + prior.cwiseProduct(mean)));
  out.covariance = factor.inverse();
  return out;
}

EffectBelief EffectLearning::belief(const std::vector<Eigen::Index>& which,
                                    const Eigen::MatrixXd& covariance) const {
  const auto n = static_cast<Eigen::Index>(which.size());
  Eigen::MatrixXd precision(n, n);
  Eigen::VectorXd pull(n);
  for (Eigen::Index a = 0; a < n; ++a) {
    pull[a] = pull_[which[static_cast<std::size_t>(a)]];
    for (Eigen::Index b = 0; b < n; ++b)
      precision(a, b) =
          precision_(which[static_cast<std::size_t>(a)], which[static_cast<std::size_t>(b)]);
  }
  EffectBelief out;
  out.covariance = narrowed(covariance, precision);
  out.mean = out.covariance * pull;
  return out;
}

}  // namespace kartwright
