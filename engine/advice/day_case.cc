#include "engine/advice/day_case.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "engine/decision/headline.h"
#include "engine/decision/rank.h"
#include "engine/inference/case_change.h"

namespace kartwright {
namespace {

using Eigen::VectorXd;

/// What every adjustment does on one state of the track.
std::vector<Effect> effects_on(const std::string& track, const Pack& pack, const Kart& kart,
                               const Debrief& debrief, const History* history) {
  EnteredCase entered{.kart = kart, .debrief = debrief};
  entered.debrief.track = track;
  Situation situation = settled(pack, entered);
  measure_loads(situation);
  Experience experience;
  if (history != nullptr) {
    experience = experience_of(*history, effects_of(situation));
    situation.experience = &experience;
  }
  return effects_of(situation);
}

/// What grip has gained by a stage, from the start of the day's first track.
VectorXd gained_by(const Pack& pack, const std::string& first, const DayStage& stage) {
  VectorXd gained = VectorXd::Zero(static_cast<Eigen::Index>(pack.axes.size()));
  const TrackState* track = pack.track(first);
  for (std::size_t i = 0; i < pack.tracks.size() && track != nullptr; ++i) {
    if (track->id == stage.track) break;
    gained += shift_of(*track, pack.axes);
    track = pack.track(track->ahead);
  }
  if (track != nullptr) gained += stage.towards * shift_of(*track, pack.axes);
  return gained;
}

/// The places of both ways, and where the kart stands among them.
void add_places(const Way& plus, const Way& minus, PlanLever& lever, std::vector<double>& values) {
  const auto add = [&](const Option& option) {
    if (!option.open()) return;
    lever.places.push_back(option.steps);
    values.push_back(option.to);
  };
  std::for_each(minus.options.rbegin(), minus.options.rend(), add);
  lever.now = lever.places.size();
  lever.places.push_back(0.0);
  values.push_back(plus.setting->now);
  std::for_each(plus.options.begin(), plus.options.end(), add);
}

void add_levers(const Advice& now, DayCase& day) {
  constexpr std::size_t kManyPlaces = 5;  // so many that the last one is a notch by itself
  const JobClasses classes = job_classes(now.ways);
  for (std::size_t i = 0; i < now.ways.size(); i += 2) {
    const Setting* setting = now.ways[i].setting;
    if (setting == nullptr) continue;
    const Adjustment& adjustment = *setting->adjustment;
    PlanLever lever{.places = {},
                    .minutes = setting->minutes,
                    .stand = classes.stands[i / 2],
                    .stand_minutes = std::min(adjustment.stand_minutes, setting->minutes),
                    .exclusion = classes.exclusions[i / 2],
                    .reach = adjustment.most_at_once / std::abs(adjustment.reference_step)};
    day.values.emplace_back();
    add_places(now.ways[i], now.ways[i + 1], lever, day.values.back());
    lever.ends_cost = lever.places.size() >= kManyPlaces;
    day.search.levers.push_back(std::move(lever));
    day.settings.push_back(setting);
  }
}

std::vector<BundleStep> steps_of(const std::vector<Effect>& effects, const DayCase& day,
                                 const Pack& pack, const VectorXd& weights) {
  std::vector<BundleStep> steps;
  for (const Setting* setting : day.settings) {
    const Effect& effect =
        effects[static_cast<std::size_t>(setting->adjustment - pack.adjustments.data())];
    steps.push_back({effect.per_step, weights.dot(effect.covariance.diagonal())});
  }
  return steps;
}

}  // namespace

DayCase day_case(const Pack& pack, const Kart& kart, const Advice& now, const DayAsked& asked,
                 const History* history) {
  constexpr double kPoints = 100.0;
  DayCase day;
  add_levers(now, day);
  PlanCase& search = day.search;
  std::map<std::string, std::vector<Effect>> effects;
  double hours = 0.0, untouched = 0.0;
  for (const StageOfDay& each : asked.stages) {
    const std::string& track = each.stage->track;
    const auto [known, is_new] = effects.try_emplace(track);
    if (is_new) known->second = effects_on(track, pack, kart, now.debrief, history);
    const VectorXd mean = now.belief.mean + gained_by(pack, now.track, *each.stage) -
                          gained_by(pack, now.track, *asked.stages.front().stage);
    search.stages.push_back({.mean = mean,
                             .weight = each.hours,
                             .steps = steps_of(known->second, day, pack, now.weights),
                             .most_minutes = asked.minutes,
                             .most_changes = asked.changes,
                             .stop_cost = kWorthWhile});
    hours += each.hours;
    untouched += each.hours * now.weights.dot(mean.cwiseAbs2());
  }
  day.unit = std::max(untouched / hours, kSmallLoss);
  const double points = kPoints / day.unit;
  search.weights = points * now.weights;
  for (PlanStage& stage : search.stages) {
    stage.weight *= static_cast<double>(search.stages.size()) / hours;
    for (BundleStep& step : stage.steps) step.spread *= points;
  }
  PlanStage& start = search.stages.front();
  start.stop_cost = 0.0;
  if (asked.at_the_bench) {
    start.most_minutes.reset();
    start.most_changes = asked.most_levers;
    start.any_reach = true;
  }
  search.minute_cost = effort_rate(asked.minutes);
  search.end_cost = last_notch_cost({.last_notch = true});
  search.most_levers = asked.most_levers;
  search.most_work = asked.most_work;
  return day;
}

PlanCase from_there(const PlanCase& c, const std::vector<std::size_t>& places,
                    const std::vector<std::size_t>& stages) {
  PlanCase out = c;
  for (std::size_t i = 0; i < out.levers.size(); ++i) {
    out.levers[i].used = places[i] != c.levers[i].now;
    out.levers[i].now = places[i];
  }
  out.stages.clear();
  for (std::size_t k = 0; k < stages.size(); ++k) {
    // A stop comes with the break it is in, whatever the track does.
    const PlanStage& stop = c.stages[k + 1];
    PlanStage stage = c.stages[stages[k]];
    stage.weight = stop.weight;
    stage.most_minutes = stop.most_minutes;
    stage.most_changes = stop.most_changes;
    stage.any_reach = stop.any_reach;
    stage.stop_cost = stop.stop_cost;
    out.stages.push_back(std::move(stage));
  }
  return out;
}

}  // namespace kartwright
