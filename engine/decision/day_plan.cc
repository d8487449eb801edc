#include "engine/decision/day_plan.h"

#include <algorithm>
#include <bit>
#include <cmath>
#include <tuple>

namespace kartwright {
namespace {

using Eigen::VectorXd;
using Levers = std::vector<std::size_t>;

constexpr double kOut = std::numeric_limits<double>::infinity();

// --- the loss of a stage ------------------------------------------------------------------------

/// Weight and all, with u counted from where a lever stands now: constant + sum (slope u + square
/// u^2) + sum over pairs cross u u'.
struct StageLoss {
  double constant = 0.0;
  std::vector<double> slope, square;  ///< by lever
  Eigen::MatrixXd cross;              ///< levers by levers, symmetric
};

double standing(const PlanLever& lever) { return lever.places[lever.now]; }

StageLoss loss_of(const PlanCase& c, const PlanStage& stage) {
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

/// The same levers, their places counted from where they stand now.
std::vector<PlanLever> from_where_they_stand(std::vector<PlanLever> levers) {
  for (PlanLever& lever : levers) {
    const double stands = standing(lever);
    for (double& place : lever.places) place -= stands;
  }
  return levers;
}

double cross_of(const StageLoss& loss, std::size_t a, std::size_t b) {
  return loss.cross(static_cast<Eigen::Index>(a), static_cast<Eigen::Index>(b));
}

bool does_something(const std::vector<StageLoss>& losses, std::size_t lever) {
  return std::any_of(losses.begin(), losses.end(), [&](const StageLoss& loss) {
    return loss.slope[lever] != 0.0 || loss.square[lever] != 0.0;
  });
}

double least_on(double slope, double square, double from, double to) {
  const double best = square > 0.0 ? -0.5 * slope / square : (slope > 0.0 ? from : to);
  const double u = std::clamp(best, from, to);
  return (slope + square * u) * u;
}

/// The least loss of a stage with these levers anywhere between their ends, from below: one lever
/// is set at its best after the other, and what a convex loss could still fall by is taken off.
double least_between_ends(const StageLoss& loss, const PlanCase& c, const Levers& levers) {
  constexpr int kRounds = 60;
  constexpr double kClose = 1e-3;
  std::vector<double> u(levers.size(), 0.0);
  double value = loss.constant, gap = kOut;
  const auto slope_at = [&](std::size_t i) {
    double slope = loss.slope[levers[i]];
    for (std::size_t k = 0; k < levers.size(); ++k) {
      if (k != i) slope += cross_of(loss, levers[i], levers[k]) * u[k];
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

// --- the places of a few levers -----------------------------------------------------------------

/// Every combination of places of some levers, numbered; the first lever counts fastest.
struct Grid {
  Levers levers;
  std::vector<std::size_t> sizes, strides;  ///< by lever of the grid
  std::size_t size = 1;
  std::size_t start = 0;  ///< where all stand now

  Grid(const PlanCase& c, Levers which) : levers(std::move(which)) {
    for (const std::size_t lever : levers) {
      sizes.push_back(c.levers[lever].places.size());
      strides.push_back(size);
      start += size * c.levers[lever].now;
      size *= sizes.back();
    }
  }
  std::size_t place(std::size_t at, std::size_t i) const { return at / strides[i] % sizes[i]; }
};

/// The loss of a stage at every combination; with one more lever that may stand anywhere, if there
/// is one. The levers are laid out one after the other, each over what stands already.
std::vector<double> losses_on(const Grid& grid, const StageLoss& loss, const PlanCase& c,
                              std::optional<std::size_t> anywhere) {
  std::vector<double> out{loss.constant};
  // By combination: what one more step of each lever still to come would add to its slope.
  std::vector<std::vector<double>> slopes;
  Levers ahead = grid.levers;
  if (anywhere) ahead.push_back(*anywhere);
  for (const std::size_t lever : ahead) slopes.push_back({loss.slope[lever]});
  for (std::size_t i = 0; i < grid.levers.size(); ++i) {
    const std::size_t lever = grid.levers[i];
    const std::size_t size = out.size();
    std::vector<double> wider;
    wider.reserve(size * grid.sizes[i]);
    for (const double u : c.levers[lever].places) {
      for (std::size_t at = 0; at < size; ++at)
        wider.push_back(out[at] + (slopes[i][at] + loss.square[lever] * u) * u);
    }
    for (std::size_t k = i + 1; k < ahead.size(); ++k) {
      std::vector<double> slope;
      slope.reserve(wider.size());
      for (const double u : c.levers[lever].places) {
        const double cross = cross_of(loss, lever, ahead[k]) * u;
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

/// What landing on a place costs beside the minutes.
double landing(const PlanCase& c, const PlanLever& lever, std::size_t place) {
  const bool end = place == 0 || place + 1 == lever.places.size();
  return lever.ends_cost && end ? c.end_cost : 0.0;
}

bool within_reach(const PlanLever& lever, std::size_t from, std::size_t to, bool any_reach) {
  constexpr double kSlack = 1e-9;
  return any_reach || std::abs(lever.places[to] - lever.places[from]) <= lever.reach + kSlack;
}

/// Levers of a grid that move at a stop, as bits, and what their minutes cost.
struct MovedLevers {
  unsigned which = 0;
  double cost = 0.0;
};

class SetPlan {
 public:
  /// `jobs` has an item for each lever of the case. With `anywhere` a plan from below: that lever
  /// stands where it likes at every stage, and costs nothing.
  SetPlan(const PlanCase& c, const BundleCase& jobs, const std::vector<StageLoss>& losses,
          Levers levers, std::optional<std::size_t> anywhere = {})
      : case_(c), jobs_(jobs), grid_(c, std::move(levers)) {
    std::vector<double> before(grid_.size, kOut);
    before[grid_.start] = 0.0;
    for (std::size_t k = 0; k < losses.size(); ++k) {
      const std::vector<double> loss = losses_on(grid_, losses[k], c, anywhere);
      stops_.push_back(stops(c.stages[k]));
      values_.push_back(after_stop(k == 0 ? before : values_.back(), k, loss));
      losses_.push_back(loss);
    }
  }

  double value() const { return *std::min_element(values_.back().begin(), values_.back().end()); }
  std::size_t looked_at() const { return looked_at_; }

  /// Where its levers stand at each stage; all others stand where they are.
  PlanPlaces places() const {
    const std::vector<double>& last = values_.back();
    auto at = static_cast<std::size_t>(std::min_element(last.begin(), last.end()) - last.begin());
    PlanPlaces out(values_.size(), places_now());
    for (std::size_t k = values_.size(); k-- > 0;) {
      for (std::size_t i = 0; i < grid_.levers.size(); ++i)
        out[k][grid_.levers[i]] = grid_.place(at, i);
      at = came_from(k, at);
    }
    return out;
  }

 private:
  std::vector<std::size_t> places_now() const {
    std::vector<std::size_t> now;
    for (const PlanLever& lever : case_.levers) now.push_back(lever.now);
    return now;
  }

  std::vector<MovedLevers> stops(const PlanStage& stage) const {
    constexpr double kSlackMinutes = 1e-9;
    std::vector<MovedLevers> out;
    for (unsigned which = 0; which < 1U << grid_.levers.size(); ++which) {
      if (static_cast<std::size_t>(std::popcount(which)) > stage.most_changes) continue;
      Levers moved;
      for (std::size_t i = 0; i < grid_.levers.size(); ++i) {
        if ((which >> i & 1U) != 0) moved.push_back(grid_.levers[i]);
      }
      const double minutes = shared_minutes(jobs_, moved);
      if (stage.most_minutes && minutes > *stage.most_minutes + kSlackMinutes) continue;
      out.push_back({which, case_.minute_cost * minutes + (which == 0 ? 0.0 : stage.stop_cost)});
    }
    std::stable_sort(out.begin(), out.end(), [](const MovedLevers& a, const MovedLevers& b) {
      return std::popcount(a.which) < std::popcount(b.which);
    });
    return out;
  }

  /// The least of `before` over the places that one lever can come from.
  std::vector<double> moved_along(std::size_t i, const std::vector<double>& before,
                                  bool any_reach) const {
    const PlanLever& lever = case_.levers[grid_.levers[i]];
    const std::size_t n = grid_.sizes[i], stride = grid_.strides[i];
    std::vector<double> out(before.size());
    std::vector<std::pair<std::size_t, std::size_t>> from(n);  // first and behind the last
    for (std::size_t to = 0; to < n; ++to) {
      std::size_t first = to, behind = to + 1;
      while (first > 0 && within_reach(lever, first - 1, to, any_reach)) --first;
      while (behind < n && within_reach(lever, behind, to, any_reach)) ++behind;
      from[to] = {first, behind};
    }
    for (std::size_t block = 0; block < before.size(); block += n * stride) {
      for (std::size_t to = 0; to < n; ++to) {
        double* const there = &out[block + to * stride];
        std::fill(there, there + stride, kOut);
        for (std::size_t p = from[to].first; p < from[to].second; ++p) {
          const double* const here = &before[block + p * stride];
          for (std::size_t s = 0; s < stride; ++s) there[s] = std::min(there[s], here[s]);
        }
        const double lands = landing(case_, lever, to);
        for (std::size_t s = 0; s < stride; ++s) there[s] += lands;
      }
    }
    return out;
  }

  std::vector<double> after_stop(const std::vector<double>& before, std::size_t k,
                                 const std::vector<double>& loss) {
    const bool any_reach = case_.stages[k].any_reach;
    std::vector<std::vector<double>> moved(1U << grid_.levers.size());
    moved[0] = before;
    std::vector<double> out(grid_.size, kOut);
    for (const MovedLevers& stop : stops_[k]) {
      reach(stop.which, moved, any_reach);
      for (std::size_t at = 0; at < grid_.size; ++at)
        out[at] = std::min(out[at], moved[stop.which][at] + stop.cost);
    }
    for (std::size_t at = 0; at < grid_.size; ++at) out[at] += loss[at];
    return out;
  }

  void reach(unsigned which, std::vector<std::vector<double>>& moved, bool any_reach) {
    if (!moved[which].empty()) return;
    const auto last = static_cast<std::size_t>(std::bit_width(which)) - 1;
    const unsigned others = which & ~(1U << last);
    reach(others, moved, any_reach);
    moved[which] = moved_along(last, moved[others], any_reach);
    looked_at_ += grid_.size * grid_.sizes[last];
  }

  /// The state before stop k that the value of `at` behind it stands on.
  std::size_t came_from(std::size_t k, std::size_t at) const {
    const double value = values_[k][at] - losses_[k][at];
    const double slack = 1e-9 * std::max(1.0, std::abs(values_[k][at]));
    for (const MovedLevers& stop : stops_[k]) {
      const auto found = among(k, at, stop.which, value - stop.cost + slack, 0, at);
      if (found) return *found;
    }
    return at;
  }

  double before(std::size_t k, std::size_t at) const {
    if (k > 0) return values_[k - 1][at];
    return at == grid_.start ? 0.0 : kOut;
  }

  /// A state that the levers of `which` from number i on can have come from, worth at most `most`.
  std::optional<std::size_t> among(std::size_t k, std::size_t at, unsigned which, double most,
                                   std::size_t i, std::size_t from) const {
    if (i == grid_.levers.size())
      return before(k, from) <= most ? std::optional(from) : std::nullopt;
    if ((which >> i & 1U) == 0) return among(k, at, which, most, i + 1, from);
    const PlanLever& lever = case_.levers[grid_.levers[i]];
    const std::size_t to = grid_.place(at, i);
    for (std::size_t p = 0; p < grid_.sizes[i]; ++p) {
      if (!within_reach(lever, p, to, case_.stages[k].any_reach)) continue;
      const std::size_t there = from - to * grid_.strides[i] + p * grid_.strides[i];
      const auto found = among(k, at, which, most - landing(case_, lever, to), i + 1, there);
      if (found) return found;
    }
    return std::nullopt;
  }

  const PlanCase& case_;
  const BundleCase& jobs_;
  Grid grid_;
  std::vector<std::vector<MovedLevers>> stops_;  // by stage
  std::vector<std::vector<double>> values_;      // by stage, by state: the best way to be there
  std::vector<std::vector<double>> losses_;      // by stage, by state
  std::size_t looked_at_ = 0;
};

// --- all sets of levers -------------------------------------------------------------------------

BundleCase jobs_of(const PlanCase& c) {
  BundleCase jobs;
  for (const PlanLever& lever : c.levers) {
    jobs.items.push_back({.minutes = lever.minutes,
                          .stand = lever.stand,
                          .stand_minutes = lever.stand_minutes,
                          .exclusion = lever.exclusion});
  }
  return jobs;
}

struct LeverSet {
  Levers levers;
  double bound = 0.0;  ///< no plan that moves all of them is worth less
};

class PlanSearch {
 public:
  explicit PlanSearch(const PlanCase& c) : case_(c), jobs_(jobs_of(c)) {
    case_.levers = from_where_they_stand(c.levers);
    for (const PlanStage& stage : c.stages) losses_.push_back(loss_of(c, stage));
    for (const StageLoss& loss : losses_) best_.value += loss.constant;
    std::vector<std::size_t> now;
    for (const PlanLever& lever : c.levers) now.push_back(lever.now);
    best_.places.assign(c.stages.size(), now);
    slack_ = 1e-9 * std::max(1.0, best_.value);
  }

  DayPlan run() {
    std::vector<LeverSet> sets;
    Levers chosen;
    if (!losses_.empty()) gather(0, chosen, sets);
    std::sort(sets.begin(), sets.end(), [](const LeverSet& a, const LeverSet& b) {
      return std::tuple(a.levers.size(), a.bound, a.levers) <
             std::tuple(b.levers.size(), b.bound, b.levers);
    });
    best_.bound = kOut;
    for (const LeverSet& set : sets) consider(set);
    best_.bound = std::min(best_.bound, best_.value);
    return best_;
  }

 private:
  void gather(std::size_t from, Levers& chosen, std::vector<LeverSet>& sets) const {
    if (!chosen.empty()) sets.push_back({chosen, bound_of(chosen)});
    if (chosen.size() == case_.most_levers) return;
    for (std::size_t lever = from; lever < case_.levers.size(); ++lever) {
      if (case_.levers[lever].places.size() < 2 || !does_something(losses_, lever)) continue;
      if (excluded(lever, chosen)) continue;
      chosen.push_back(lever);
      gather(lever + 1, chosen, sets);
      chosen.pop_back();
    }
  }

  bool excluded(std::size_t lever, const Levers& chosen) const {
    const int own = case_.levers[lever].exclusion;
    return own >= 0 && std::any_of(chosen.begin(), chosen.end(), [&](std::size_t other) {
             return case_.levers[other].exclusion == own;
           });
  }

  double bound_of(const Levers& levers) const {
    double bound = case_.minute_cost * shared_minutes(jobs_, levers);
    for (const StageLoss& loss : losses_) bound += least_between_ends(loss, case_, levers);
    return bound;
  }

  /// The same, closer: all but one of the levers move as they may, and that one as it likes.
  double closer_bound(const LeverSet& set) {
    double bound = set.bound;
    for (std::size_t i = 0; i < set.levers.size() && bound < good_enough(); ++i) {
      Levers others = set.levers;
      others.erase(others.begin() + static_cast<std::ptrdiff_t>(i));
      const SetPlan below(case_, jobs_, losses_, others, set.levers[i]);
      best_.looked_at += below.looked_at();
      bound = std::max(bound, below.value());
    }
    return bound;
  }

  double good_enough() const { return best_.value - slack_; }

  void consider(const LeverSet& set) {
    if (set.bound >= good_enough()) return;
    if (best_.looked_at > case_.most_work) {
      best_.bound = std::min(best_.bound, set.bound);
      return;
    }
    if (set.levers.size() > 1 && closer_bound(set) >= good_enough()) return;
    const SetPlan plan(case_, jobs_, losses_, set.levers);
    best_.looked_at += plan.looked_at();
    if (plan.value() >= good_enough()) return;
    best_.value = plan.value();
    best_.places = plan.places();
  }

  PlanCase case_;
  BundleCase jobs_;
  std::vector<StageLoss> losses_;
  double slack_ = 0.0;
  DayPlan best_;
};

}  // namespace

PlanValue value_of(const PlanCase& c, const PlanPlaces& places) {
  constexpr double kSlackMinutes = 1e-9;
  PlanValue out;
  const BundleCase jobs = jobs_of(c);
  std::vector<bool> ever(c.levers.size(), false);
  for (std::size_t k = 0; k < places.size(); ++k) {
    const PlanStage& stage = c.stages[k];
    VectorXd mean = stage.mean;
    double spread = 0.0;
    Levers moved;
    for (std::size_t i = 0; i < c.levers.size(); ++i) {
      const PlanLever& lever = c.levers[i];
      const std::size_t to = places[k][i];
      const std::size_t from = k == 0 ? lever.now : places[k - 1][i];
      const double u = lever.places[to];
      mean += u * stage.steps[i].effect;
      spread += u * u * stage.steps[i].spread;
      if (to == from) continue;
      moved.push_back(i);
      ever[i] = true;
      out.ends += landing(c, lever, to);
      out.allowed = out.allowed && within_reach(lever, from, to, stage.any_reach);
    }
    out.loss += stage.weight * (c.weights.cwiseProduct(mean).dot(mean) + spread);
    const double minutes = shared_minutes(jobs, moved);
    out.minutes += minutes;
    if (!moved.empty()) out.stops += stage.stop_cost;
    const bool in_time = !stage.most_minutes || minutes <= *stage.most_minutes + kSlackMinutes;
    out.allowed = out.allowed && in_time && moved.size() <= stage.most_changes;
  }
  Levers all;
  for (std::size_t i = 0; i < ever.size(); ++i) {
    if (ever[i]) all.push_back(i);
  }
  out.allowed = out.allowed && all.size() <= c.most_levers;
  for (std::size_t a = 0; a < all.size(); ++a) {
    for (std::size_t b = 0; b < a; ++b) {
      const int one = c.levers[all[a]].exclusion;
      out.allowed = out.allowed && (one < 0 || one != c.levers[all[b]].exclusion);
    }
  }
  return out;
}

DayPlan best_plan(const PlanCase& c) { return PlanSearch(c).run(); }

}  // namespace kartwright
