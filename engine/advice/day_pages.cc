#include "engine/advice/day_pages.h"

#include <algorithm>

#include "engine/decision/stop_order.h"

namespace kartwright {
namespace {

constexpr double kPointsOfAll = 100.0;

}  // namespace

DayPages::DayPages(const DayCase& day, const PlanCase& search, std::vector<StageOfDay> stages,
                   System units)
    : day_(day), search_(search), stages_(std::move(stages)), units_(units) {}

double DayPages::loss_at(std::size_t stage, const std::vector<std::size_t>& places) const {
  PlanCase one = search_;
  one.stages = {search_.stages[stage]};
  one.stages[0].weight = 1.0;
  return value_of(one, {places}).loss / kPointsOfAll;
}

std::string DayPages::setting(std::size_t lever, std::size_t place) const {
  return print_setting(*day_.settings[lever], day_.values[lever][place], units_);
}

double DayPages::height(std::size_t lever, std::size_t place) const {
  const std::vector<double>& values = day_.values[lever];
  const auto [low, high] = std::minmax(values.front(), values.back());
  return high > low ? (values[place] - low) / (high - low) : 0.0;
}

std::optional<double> DayPages::value(std::size_t lever, std::size_t place) const {
  if (!day_.settings[lever]->travel.names.empty()) return {};
  return day_.values[lever][place];
}

DayTravel DayPages::travel(std::size_t lever) const {
  const std::vector<double>& values = day_.values[lever];
  // Places go up in steps of direction 0, which may be down in value.
  const bool upward = values.back() >= values.front();
  const std::size_t low = upward ? 0 : values.size() - 1;
  const std::size_t high = upward ? values.size() - 1 : 0;
  const auto stopped_at = [&](std::size_t place, std::size_t direction) {
    Setting there = *day_.settings[lever];
    there.now = values[place];
    return stopped_by(there, direction);
  };
  const auto told = [&](std::size_t place) {
    return DaySetting{setting(lever, place), value(lever, place)};
  };
  return {.now = told(search_.levers[lever].now),
          .low = told(low),
          .high = told(high),
          .below = stopped_at(low, upward ? 1 : 0),
          .above = stopped_at(high, upward ? 0 : 1),
          .stands = height(lever, search_.levers[lever].now)};
}

DayMove DayPages::move(std::size_t lever, std::size_t from, std::size_t to) const {
  return {.adjustment = &day_.adjustment(lever),
          .direction = to > from ? 0U : 1U,
          .from = setting(lever, from),
          .to = setting(lever, to),
          .minutes = search_.levers[lever].minutes};
}

/// The changes between two stages in the order to make them.
std::vector<DayMove> DayPages::moves(std::size_t stage, const std::vector<std::size_t>& before,
                                     const std::vector<std::size_t>& after) const {
  std::vector<std::size_t> moved;
  std::vector<StopJob> jobs;
  for (std::size_t i = 0; i < after.size(); ++i) {
    if (after[i] == before[i]) continue;
    const PlanLever& lever = search_.levers[i];
    moved.push_back(i);
    jobs.push_back({lever.minutes, lever.stand, lever.stand_minutes});
  }
  const auto left = [&](const std::vector<std::size_t>& done) {
    std::vector<std::size_t> places = before;
    for (const std::size_t job : done) places[moved[job]] = after[moved[job]];
    return loss_at(stage, places);
  };
  std::vector<DayMove> out;
  for (const StopStep& step : stop_order(jobs, left)) {
    const std::size_t lever = moved[step.job];
    out.push_back(move(lever, before[lever], after[lever]));
    out.back().minutes = step.minutes;
    out.back().until = step.until;
    out.back().left = step.loss;
  }
  return out;
}

DayStop DayPages::stop(std::size_t stage, const std::vector<std::size_t>& before,
                       const std::vector<std::size_t>& after,
                       const std::vector<std::size_t>& movers) const {
  DayStop out{
      .stage = stages_[stage].stage,
      .hours = stages_[stage].hours,
      .moves = moves(stage, before, after),
      .untouched = search_.stages[stage].mean.cwiseAbs2().dot(search_.weights) / kPointsOfAll,
      .left = loss_at(stage, after)};
  if (!out.moves.empty()) out.minutes = out.moves.back().until;
  for (const std::size_t lever : movers) {
    out.settings.push_back(setting(lever, after[lever]));
    out.values.push_back(value(lever, after[lever]));
    out.at.push_back(height(lever, after[lever]));
    const double last = static_cast<double>(search_.levers[lever].places.size() - 1);
    const double at = static_cast<double>(after[lever]);
    out.room.push_back(std::min(at, last - at) / last);
  }
  return out;
}

std::vector<DayStop> DayPages::stops(std::vector<std::size_t> before, const PlanPlaces& places,
                                     const std::vector<std::size_t>& movers) const {
  std::vector<DayStop> out;
  for (std::size_t k = 0; k < places.size(); ++k) {
    out.push_back(stop(k, before, places[k], movers));
    before = places[k];
  }
  return out;
}

}  // namespace kartwright
