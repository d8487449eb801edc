#include "engine/decision/room.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "engine/decision/headline.h"

namespace kartwright {
namespace {

using Eigen::Index;
using Eigen::VectorXd;

constexpr double kFreeTravel = 12.0;  // reference steps, either way

Index at(std::size_t i) { return static_cast<Index>(i); }

/// Adds every place the class and the box allow, in reference steps from now; where it stands among
/// them.
void add_places(const Way& plus, const Way& minus, std::vector<double>& places) {
  const auto add = [&](const Option& option) {
    if (option.open()) places.push_back(option.steps);
  };
  // The options of a way stand nearest first.
  std::for_each(minus.options.rbegin(), minus.options.rend(), add);
  places.push_back(0.0);
  std::for_each(plus.options.begin(), plus.options.end(), add);
}

/// What times b^2 is no less than any gain -(a u^2 + 2 b u), rounding and all.
double reach_of(double a) {
  constexpr double kRounding = 1.0 + 1e-9;
  return a > 0.0 ? kRounding / a : std::numeric_limits<double>::infinity();
}

/// The least of a u^2 + 2 b u over an ascending list that is not empty. REQUIRES: a >= 0.
double least_over(double a, double b, std::span<const double> places, double from) {
  const auto loss = [&](double place) {
    const double u = place - from;
    return (a * u + 2.0 * b) * u;
  };
  if (a <= 0.0) return std::min(loss(places.front()), loss(places.back()));
  const auto above = std::lower_bound(places.begin(), places.end(), from - b / a);
  double best = std::numeric_limits<double>::infinity();
  if (above != places.end()) best = loss(*above);
  if (above != places.begin()) best = std::min(best, loss(*std::prev(above)));
  return best;
}

/// The same over the multiples of a grid within the free travel.
double least_free(double a, double b, double grid) {
  const double most = std::floor(kFreeTravel / grid) * grid;
  const auto loss = [&](double u) { return (a * u + 2.0 * b) * u; };
  if (a <= 0.0) return std::min(loss(most), loss(-most));
  const double u = std::clamp(-b / a, -most, most);
  const double below = std::floor(u / grid) * grid;
  return std::min(loss(std::max(below, -most)), loss(std::min(below + grid, most)));
}

}  // namespace

Room::Room(const VectorXd& mean, const VectorXd& weights, const std::vector<Stage>& stages,
           const std::vector<Way>& ways, const std::vector<Effect>& effects)
    : effects_(effects) {
  unit_ = std::max(weights.dot(mean.cwiseAbs2()), kSmallLoss);
  if (stages.empty()) return;
  pushed_.resize(mean.size(), at(effects.size()));
  levers_.reserve(effects.size());
  for (std::size_t i = 0; i < effects.size(); ++i) {
    const VectorXd& b = effects[i].per_step;
    pushed_.col(at(i)) = weights.cwiseProduct(b);
    Lever lever;
    const Setting* setting = ways[2 * i].setting;
    // What is not on the kart, or does nothing known, does not move.
    lever.first = places_.size();
    if (setting != nullptr && effects[i].known()) add_places(ways[2 * i], ways[2 * i + 1], places_);
    lever.last = places_.size();
    lever.push = pushed_.col(at(i)).dot(b);
    lever.doubt = weights.dot(effects[i].covariance.diagonal());
    lever.reach = reach_of(lever.push + lever.doubt);
    if (setting != nullptr) lever.grid = grid_of(*setting);
    levers_.push_back(lever);
  }
  slopes_.resize(pushed_.cols(), at(stages.size()));
  for (std::size_t k = 0; k < stages.size(); ++k) {
    const VectorXd then = mean + stages[k].shift;
    slopes_.col(at(k)) = pushed_.transpose() * then;
    losses_.push_back(weights.dot(then.cwiseAbs2()));
    weights_.push_back(stages[k].weight);
  }
}

/// What the best later move of one lever adds to the loss, at most 0. A second move of the same
/// adjustment has the spread of the sum of both, so that a reversal is free.
void Room::add_later_move(std::size_t lever, const Made& made, double slope, Least& least) const {
  const Lever& l = levers_[lever];
  const double from = lever == made.lever ? made.steps : 0.0;
  const double b = slope + l.doubt * from;
  if (-l.reach * b * b >= least.within) return;  // nor can it add less than `free`, which is lower
  const double a = l.push + l.doubt;
  const double within = least_over(a, b, places_of(l), from);
  least.within = std::min(least.within, within);
  least.free = std::min({least.free, within, least_free(a, b, l.grid)});
}

/// V - V_free at a stage after a move.
double Room::spent(std::size_t stage, const Made& made) const {
  const Lever& moved = levers_[made.lever];
  const double u = made.steps;
  const double standing = losses_[stage] + 2.0 * u * slopes_(at(made.lever), at(stage)) +
                          u * u * (moved.push + moved.doubt);
  Least least;
  for (std::size_t j = 0; j < levers_.size(); ++j) {
    if (places_of(levers_[j]).empty()) continue;
    const double slope = slopes_(at(j), at(stage)) + u * made.bends[at(j)];
    add_later_move(j, made, slope, least);
  }
  return (standing + least.within) - (standing + least.free);
}

double Room::cost(std::size_t adjustment, double steps) const {
  if (weights_.empty()) return 0.0;
  const Made made{adjustment, steps, pushed_.transpose() * effects_[adjustment].per_step};
  double more = 0.0;
  for (std::size_t k = 0; k < weights_.size(); ++k) more += weights_[k] * spent(k, made);
  return more / unit_;
}

std::optional<double> Room::wanted(std::size_t adjustment) const {
  if (weights_.empty() || places_of(levers_[adjustment]).empty()) return std::nullopt;
  const Lever& lever = levers_[adjustment];
  double a = 0.0;
  double b = 0.0;
  for (std::size_t k = 0; k < weights_.size(); ++k) {
    a += weights_[k] * (lever.push + lever.doubt);
    b += weights_[k] * slopes_(at(adjustment), at(k));
  }
  const auto loss = [&](double u) { return (a * u + 2.0 * b) * u; };
  const std::span<const double> places = places_of(lever);
  return *std::min_element(places.begin(), places.end(),
                           [&](double x, double y) { return loss(x) < loss(y); });
}

}  // namespace kartwright
