#include "engine/decision/day_loss.h"

#include <algorithm>
#include <limits>

namespace kartwright {
namespace {

using Eigen::VectorXd;

double standing(const PlanLever& lever) { return lever.places[lever.now]; }

double least_on(double slope, double square, double from, double to) {
  const double best = square > 0.0 ? -0.5 * slope / square : (slope > 0.0 ? from : to);
  const double u = std::clamp(best, from, to);
  return (slope + square * u) * u;
}

}  // namespace

StageLoss stage_loss(const PlanCase& c, const PlanStage& stage) {
  const std::size_t n = c.levers.size();
  const auto size = static_cast<Eigen::Index>(n);
  const VectorXd weights = stage.weight * c.weights;
  VectorXd mean = stage.mean;
  for (std::size_t a = 0; a < n; ++a) mean += standing(c.levers[a]) * stage.steps[a].effect;
  StageLoss loss{.constant = weights.cwiseProduct(mean).dot(mean),
                 .slope = {},
                 .square = {},
                 .cross = Eigen::MatrixXd::Zero(size, size)};
  for (std::size_t a = 0; a < n; ++a) {
    const VectorXd pushed = 2.0 * weights.cwiseProduct(stage.steps[a].effect);
    const double spread = stage.weight * stage.steps[a].spread;
    const double stands = standing(c.levers[a]);
    loss.constant += spread * stands * stands;
    loss.slope.push_back(pushed.dot(mean) + 2.0 * spread * stands);
    loss.square.push_back(0.5 * pushed.dot(stage.steps[a].effect) + spread);
    for (std::size_t b = 0; b < n; ++b) {
      loss.cross(static_cast<Eigen::Index>(a), static_cast<Eigen::Index>(b)) =
          pushed.dot(stage.steps[b].effect);
    }
  }
  return loss;
}

std::vector<PlanLever> from_where_they_stand(std::vector<PlanLever> levers) {
  for (PlanLever& lever : levers) {
    const double stands = standing(lever);
    for (double& place : lever.places) place -= stands;
  }
  return levers;
}

double least_between_ends(const StageLoss& loss, const PlanCase& c, const Levers& levers) {
  constexpr int kRounds = 60;
  constexpr double kClose = 1e-3;
  std::vector<double> u(levers.size(), 0.0);
  double value = loss.constant, gap = std::numeric_limits<double>::infinity();
  const auto slope_at = [&](std::size_t i) {
    double slope = loss.slope[levers[i]];
    for (std::size_t k = 0; k < levers.size(); ++k) {
      if (k != i) slope += loss.between(levers[i], levers[k]) * u[k];
    }
    return slope;
  };
  for (int round = 0; round < kRounds && gap > kClose; ++round) {
    for (std::size_t i = 0; i < levers.size(); ++i) {
      const std::vector<double>& places = c.levers[levers[i]].places;
      const double slope = slope_at(i), square = loss.square[levers[i]];
      const double best =
          square > 0.0 ? -0.5 * slope / square : (slope > 0.0 ? places.front() : places.back());
      u[i] = std::clamp(best, places.front(), places.back());
    }
    value = loss.constant;
    gap = 0.0;
    for (std::size_t i = 0; i < levers.size(); ++i) {
      const std::vector<double>& places = c.levers[levers[i]].places;
      const double slope = slope_at(i), square = loss.square[levers[i]];
      value += 0.5 * (slope + loss.slope[levers[i]]) * u[i] + square * u[i] * u[i];
      const double falls = slope + 2.0 * square * u[i];
      gap += falls * (u[i] - (falls > 0.0 ? places.front() : places.back()));
    }
  }
  return value - gap;
}

// The levers are laid out one after the other, each over what stands already.
std::vector<double> loss_on_places(const StageLoss& loss, const PlanCase& c, const Levers& levers,
                                   std::optional<std::size_t> anywhere) {
  std::vector<double> out{loss.constant};
  // By combination: what one more step of each lever still to come would add to its slope.
  std::vector<std::vector<double>> slopes;
  Levers ahead = levers;
  if (anywhere) ahead.push_back(*anywhere);
  for (const std::size_t lever : ahead) slopes.push_back({loss.slope[lever]});
  for (std::size_t i = 0; i < levers.size(); ++i) {
    const std::size_t lever = levers[i];
    const std::size_t size = out.size();
    std::vector<double> wider;
    wider.reserve(size * c.levers[lever].places.size());
    for (const double u : c.levers[lever].places) {
      for (std::size_t at = 0; at < size; ++at)
        wider.push_back(out[at] + (slopes[i][at] + loss.square[lever] * u) * u);
    }
    for (std::size_t k = i + 1; k < ahead.size(); ++k) {
      std::vector<double> slope;
      slope.reserve(wider.size());
      for (const double u : c.levers[lever].places) {
        const double cross = loss.between(lever, ahead[k]) * u;
        for (std::size_t at = 0; at < size; ++at) slope.push_back(slopes[k][at] + cross);
      }
      slopes[k] = std::move(slope);
    }
    out = std::move(wider);
  }
  if (!anywhere) return out;
  const std::vector<double>& places = c.levers[*anywhere].places;
  for (std::size_t at = 0; at < out.size(); ++at)
    out[at] += least_on(slopes.back()[at], loss.square[*anywhere], places.front(), places.back());
  return out;
}

}  // namespace kartwright
