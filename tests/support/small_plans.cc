#include "tests/support/small_plans.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <set>

namespace kartwright {
namespace {

Eigen::VectorXd any_amounts(Random& random, int size, double from, double to) {
  Eigen::VectorXd out(size);
  for (double& each : out) each = any_between(random, from, to);
  return out;
}

PlanLever any_lever(Random& random, int most_places) {
  PlanLever lever;
  const int places = whole(random, 2, most_places);
  lever.now = any_below(random, static_cast<std::size_t>(places));
  const int first = whole(random, -4, 0);  // the day may have begun elsewhere
  for (int i = 0; i < places; ++i) lever.places.push_back(0.5 * (first + i));
  lever.minutes = any_between(random, 0.0, 8.0);
  lever.stand = whole(random, -1, 0);
  lever.stand_minutes = any_between(random, 0.0, lever.minutes);
  lever.exclusion = one_in(random, 4) ? 0 : -1;
  if (one_in(random, 2)) lever.reach = any_between(random, 0.4, 1.6);
  lever.ends_cost = one_in(random, 2);
  lever.used = one_in(random, 6);
  return lever;
}

PlanStage any_stage(Random& random, int axes, std::size_t levers) {
  PlanStage stage{.mean = any_amounts(random, axes, -3.0, 3.0),
                  .weight = any_between(random, 0.2, 2.0),
                  .steps = {}};
  for (std::size_t i = 0; i < levers; ++i) {
    stage.steps.push_back({any_amounts(random, axes, -1.5, 1.5),
                           one_in(random, 3) ? 0.0 : any_between(random, 0, 1)});
  }
  if (one_in(random, 4)) stage.most_minutes = any_between(random, 0.0, 16.0);
  stage.most_changes = one_in(random, 8) ? 0 : static_cast<std::size_t>(whole(random, 1, 3));
  stage.any_reach = one_in(random, 2);
  if (one_in(random, 2)) stage.stop_cost = any_between(random, 0.0, 2.0);
  return stage;
}

/// A plan as it grows.
struct Growing {
  const PlanCase& c;
  naive::EveryPlan best = {.value = std::numeric_limits<double>::infinity()};
  std::set<std::size_t> ever = {};
};

double loss_there(const PlanCase& c, const PlanStage& stage, const std::vector<std::size_t>& at) {
  double loss = 0.0;
  for (Eigen::Index axis = 0; axis < stage.mean.size(); ++axis) {
    double there = stage.mean[axis];
    for (std::size_t i = 0; i < at.size(); ++i)
      there += c.levers[i].places[at[i]] * stage.steps[i].effect[axis];
    loss += c.weights[axis] * there * there;
  }
  for (std::size_t i = 0; i < at.size(); ++i)
    loss += std::pow(c.levers[i].places[at[i]], 2) * stage.steps[i].spread;
  return stage.weight * loss;
}

bool may_stand_together(const PlanCase& c, std::set<std::size_t> ever) {
  if (ever.empty()) return true;
  for (std::size_t i = 0; i < c.levers.size(); ++i) {
    if (c.levers[i].used) ever.insert(i);
  }
  std::map<int, int> taken;
  for (const std::size_t lever : ever) ++taken[c.levers[lever].exclusion];
  for (const auto& [exclusion, count] : taken) {
    if (exclusion >= 0 && count > 1) return false;
  }
  return ever.size() <= c.most_levers;
}

void grow(Growing& plan, std::size_t stage, const std::vector<std::size_t>& before, double value);

bool within_reach_of(const PlanLever& lever, std::size_t from, std::size_t to) {
  return std::abs(lever.places[to] - lever.places[from]) <= lever.reach + 1e-9;
}

/// One stop, its moves chosen.
void stop(Growing& plan, std::size_t k, const std::vector<std::size_t>& before,
          const std::vector<std::size_t>& after, double value) {
  const PlanCase& c = plan.c;
  const PlanStage& stage = c.stages[k];
  const std::set<std::size_t> ever = plan.ever;
  std::vector<std::size_t> moved;
  for (std::size_t i = 0; i < after.size(); ++i) {
    if (!stage.any_reach && !within_reach_of(c.levers[i], before[i], after[i])) return;
  }
  for (std::size_t i = 0; i < after.size(); ++i) {
    if (after[i] == before[i]) continue;
    const PlanLever& lever = c.levers[i];
    if (lever.ends_cost && (after[i] == 0 || after[i] + 1 == lever.places.size()))
      value += c.end_cost;
    moved.push_back(i);
    plan.ever.insert(i);
  }
  const double minutes = naive::minutes_of(c, moved);
  const bool in_time = !stage.most_minutes || minutes <= *stage.most_minutes + 1e-9;
  if (in_time && moved.size() <= stage.most_changes && may_stand_together(c, plan.ever)) {
    if (!moved.empty()) value += stage.stop_cost;
    value += c.minute_cost * minutes + loss_there(c, stage, after);
    grow(plan, k + 1, after, value);
  }
  plan.ever = ever;
}

void grow(Growing& plan, std::size_t k, const std::vector<std::size_t>& before, double value) {
  if (k == plan.c.stages.size()) {
    plan.best.value = std::min(plan.best.value, value);
    ++plan.best.allowed;
    return;
  }
  std::vector<std::size_t> after(before.size(), 0);
  while (true) {
    stop(plan, k, before, after, value);
    std::size_t i = 0;
    while (i < after.size() && ++after[i] == plan.c.levers[i].places.size()) after[i++] = 0;
    if (i == after.size()) return;
  }
}

}  // namespace

PlanCase any_plan_case(Random& random) {
  const int axes = whole(random, 1, 4);
  const auto levers = one_in(random, 4) ? std::size_t{1} : any_below(random, 2) + 2;
  const int stages = whole(random, 1, levers == 3 ? 2 : 3);
  PlanCase c{.weights = any_amounts(random, axes, 0.0, 2.0)};
  for (std::size_t i = 0; i < levers; ++i) c.levers.push_back(any_lever(random, 4));
  for (int k = 0; k < stages; ++k) c.stages.push_back(any_stage(random, axes, levers));
  c.minute_cost = one_in(random, 3) ? 0.0 : any_between(random, 0.0, 0.4);
  c.end_cost = any_between(random, 0.0, 1.0);
  c.most_levers = one_in(random, 8) ? 0 : static_cast<std::size_t>(whole(random, 1, 3));
  return c;
}

namespace naive {

double minutes_of(const PlanCase& c, const std::vector<std::size_t>& moved) {
  double minutes = 0.0;
  std::map<int, double> longest, sum;
  for (const std::size_t i : moved) {
    const PlanLever& lever = c.levers[i];
    minutes += lever.minutes;
    if (lever.stand < 0) continue;
    longest[lever.stand] = std::max(longest[lever.stand], lever.stand_minutes);
    sum[lever.stand] += lever.stand_minutes;
  }
  for (const auto& [stand, all] : sum) minutes -= all - longest[stand];
  return minutes;
}

EveryPlan every_plan(const PlanCase& c) {
  Growing plan{.c = c};
  std::vector<std::size_t> now;
  for (const PlanLever& lever : c.levers) now.push_back(lever.now);
  grow(plan, 0, now, 0.0);
  return plan.best;
}

}  // namespace naive
}  // namespace kartwright
