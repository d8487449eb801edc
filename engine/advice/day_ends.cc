#include "engine/advice/day_ends.h"

#include <algorithm>
#include <cmath>

#include "engine/decision/day_levers.h"
#include "engine/decision/headline.h"

namespace kartwright {
namespace {

using Eigen::VectorXd;
using PlacesAt = std::vector<std::size_t>;  ///< by lever

constexpr double kWholeError = 100.0;  // points

/// One stage with the levers somewhere.
struct StageWith {
  const PlanCase& c;
  const PlanStage& stage;
  const PlacesAt& at;

  VectorXd mean() const {
    VectorXd out = stage.mean;
    for (std::size_t i = 0; i < at.size(); ++i)
      out += c.levers[i].places[at[i]] * stage.steps[i].effect;
    return out;
  }
  double loss() const {
    PlanCase one = c;
    one.stages = {stage};
    one.stages[0].weight = 1.0;
    return value_of(one, {at}).loss;
  }
};

/// How far beyond an end one lever's best lies, all others where they are.
struct Missed {
  double points = 0.0;
  bool above = false;  ///< beyond the last place, else beyond the first
};

Missed missed_by(const StageWith& here, std::size_t lever) {
  const PlanLever& it = here.c.levers[lever];
  const std::size_t at = here.at[lever];
  const bool first = at == 0, last = at + 1 == it.places.size();
  if (!first && !last) return {};
  const BundleStep& step = here.stage.steps[lever];
  const VectorXd pushed = here.c.weights.cwiseProduct(step.effect);
  const double square = pushed.dot(step.effect) + step.spread;
  const double slope = 2.0 * (pushed.dot(here.mean()) + it.places[at] * step.spread);
  if (square <= 0.0) return {};
  const double further = -0.5 * slope / square;
  const bool beyond = (last && further > 0.0) || (first && further < 0.0);
  return beyond ? Missed{square * further * further, further > 0.0} : Missed{};
}

/// True where moving another lever pushes the kart the way the missed one would.
bool does_its_work(const StageWith& here, std::size_t lever, const Missed& missed,
                   std::size_t other, std::size_t to) {
  const double sense = missed.above ? 1.0 : -1.0;
  const std::vector<double>& places = here.c.levers[other].places;
  const double steps = places[to] - places[here.at[other]];
  const VectorXd pushed = here.c.weights.cwiseProduct(here.stage.steps[lever].effect);
  return sense * steps * pushed.dot(here.stage.steps[other].effect) > 0.0;
}

struct Substitute {
  std::size_t lever = 0, to = 0;
};

/// The single move of another lever that does its work and takes out most.
std::optional<Substitute> best_substitute(const StageWith& here, std::size_t lever,
                                          const Missed& missed) {
  constexpr double kSlack = 1e-9;
  double best = here.loss();
  std::optional<Substitute> out;
  for (std::size_t i = 0; i < here.at.size(); ++i) {
    const PlanLever& other = here.c.levers[i];
    if (i == lever) continue;
    PlacesAt there = here.at;
    for (std::size_t to = 0; to < other.places.size(); ++to) {
      there[i] = to;
      const double steps = std::abs(other.places[to] - other.places[here.at[i]]);
      if (steps > other.reach + kSlack || !does_its_work(here, lever, missed, i, to)) continue;
      const double value =
          StageWith{here.c, here.stage, there}.loss() + here.c.minute_cost * other.minutes;
      if (value >= best) continue;
      best = value;
      out = Substitute{i, to};
    }
  }
  return out;
}

/// The move of the plan's own stop that does its work; the first of them, if any.
std::optional<DayMove> planned_substitute(const DayStop& stop, const StageWith& before,
                                          std::size_t lever, const Missed& missed,
                                          const DayCase& day, const PlacesAt& after) {
  for (const DayMove& move : stop.moves) {
    for (std::size_t i = 0; i < after.size(); ++i) {
      const bool it_is = move.adjustment == &day.adjustment(i) && i != lever;
      if (it_is && does_its_work(before, lever, missed, i, after[i])) return move;
    }
  }
  return std::nullopt;
}

/// The first stage where a lever is missed, if any.
std::optional<RunsOut> where_missed(std::size_t lever, double worth_saying, const DayCase& day,
                                    const PlanPlaces& places, const Day& plan,
                                    const DayPages& pages) {
  const PlanCase& c = day.search;
  for (std::size_t k = 0; k < places.size(); ++k) {
    PlacesAt without = k == 0 ? places_now(c) : places[k - 1];
    without[lever] = places[k][lever];
    const StageWith before{c, c.stages[k], without};
    const Missed missed = missed_by(before, lever);
    if (missed.points < worth_saying) continue;
    Setting setting = *day.settings[lever];
    setting.now = day.values[lever][places[k][lever]];
    RunsOut found{.stage = plan.stops[k].stage,
                  .adjustment = &day.adjustment(lever),
                  .direction = missed.above ? 0U : 1U,
                  .at = pages.setting(lever, places[k][lever]),
                  .missed = missed.points / kWholeError};
    found.reason = stopped_by(setting, found.direction);
    found.takes_over = planned_substitute(plan.stops[k], before, lever, missed, day, places[k]);
    found.by_plan = found.takes_over.has_value();
    const StageWith after{c, c.stages[k], places[k]};
    if (const auto other = best_substitute(after, lever, missed); other && !found.by_plan)
      found.takes_over = pages.move(other->lever, places[k][other->lever], other->to);
    return found;
  }
  return std::nullopt;
}

}  // namespace

std::vector<RunsOut> runs_out(const DayCase& day, const PlanPlaces& places, const Day& plan,
                              const DayPages& pages) {
  constexpr double kOfAMover = 5.0;  // points of a stage
  std::vector<RunsOut> out;
  for (std::size_t i = 0; i < day.search.levers.size(); ++i) {
    const auto& movers = plan.movers;
    const bool moved = std::find(movers.begin(), movers.end(), &day.adjustment(i)) != movers.end();
    auto found = where_missed(i, moved ? kOfAMover : kWorthWhile, day, places, plan, pages);
    if (found) out.push_back(std::move(*found));
  }
  std::stable_sort(out.begin(), out.end(),
                   [](const RunsOut& a, const RunsOut& b) { return a.missed > b.missed; });
  return out;
}

}  // namespace kartwright
