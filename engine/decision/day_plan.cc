#include "engine/decision/day_plan.h"

#include <algorithm>
#include <tuple>

#include "engine/decision/day_levers.h"

namespace kartwright {
namespace {

using Eigen::VectorXd;

constexpr double kNoBound = std::numeric_limits<double>::infinity();

bool does_something(const std::vector<StageLoss>& losses, std::size_t lever) {
  return std::any_of(losses.begin(), losses.end(), [&](const StageLoss& loss) {
    return loss.slope[lever] != 0.0 || loss.square[lever] != 0.0;
  });
}

/// Few enough with those used before, and no two of an exclusion.
bool may_be_moved(const PlanCase& c, const Levers& chosen) {
  Levers all = chosen;
  for (std::size_t i = 0; i < c.levers.size(); ++i) {
    if (c.levers[i].used && std::find(all.begin(), all.end(), i) == all.end()) all.push_back(i);
  }
  for (std::size_t a = 0; a < all.size(); ++a) {
    for (std::size_t b = 0; b < a; ++b) {
      const int one = c.levers[all[a]].exclusion;
      if (one >= 0 && one == c.levers[all[b]].exclusion) return false;
    }
  }
  return all.size() <= c.most_levers;
}

struct LeverSet {
  Levers levers;
  double bound = 0.0;  ///< no plan that moves all of them is worth less
};

class PlanSearch {
 public:
  explicit PlanSearch(const PlanCase& c) : case_(c), jobs_(jobs_of(c)) {
    case_.levers = from_where_they_stand(c.levers);
    for (const PlanStage& stage : c.stages) losses_.push_back(stage_loss(c, stage));
    for (const StageLoss& loss : losses_) best_.value += loss.constant;
    best_.places.assign(c.stages.size(), places_now(c));
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
    best_.bound = kNoBound;
    for (const LeverSet& set : sets) consider(set);
    best_.bound = std::min(best_.bound, best_.value);
    return best_;
  }

 private:
  void gather(std::size_t from, Levers& chosen, std::vector<LeverSet>& sets) const {
    if (!chosen.empty()) sets.push_back({chosen, bound_of(chosen)});
    for (std::size_t lever = from; lever < case_.levers.size(); ++lever) {
      if (case_.levers[lever].places.size() < 2 || !does_something(losses_, lever)) continue;
      chosen.push_back(lever);
      if (may_be_moved(case_, chosen)) gather(lever + 1, chosen, sets);
      chosen.pop_back();
    }
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
      const LeversPlan below(case_, jobs_, losses_, others, set.levers[i]);
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
    const LeversPlan plan(case_, jobs_, losses_, set.levers);
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
      out.ends += landing_cost(c, lever, to);
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
  out.allowed = out.allowed && (all.empty() || may_be_moved(c, all));
  return out;
}

DayPlan best_plan(const PlanCase& c) { return PlanSearch(c).run(); }

}  // namespace kartwright
