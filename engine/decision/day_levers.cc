#include "engine/decision/day_levers.h"

#include <algorithm>
#include <bit>
#include <cmath>

namespace kartwright {
namespace {

constexpr double kOutOfReach = std::numeric_limits<double>::infinity();

}  // namespace

double landing_cost(const PlanCase& c, const PlanLever& lever, std::size_t place) {
  const bool end = place == 0 || place + 1 == lever.places.size();
  return lever.ends_cost && end ? c.end_cost : 0.0;
}

bool within_reach(const PlanLever& lever, std::size_t from, std::size_t to, bool any_reach) {
  constexpr double kSlack = 1e-9;
  return any_reach || std::abs(lever.places[to] - lever.places[from]) <= lever.reach + kSlack;
}

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

std::vector<std::size_t> places_now(const PlanCase& c) {
  std::vector<std::size_t> now;
  for (const PlanLever& lever : c.levers) now.push_back(lever.now);
  return now;
}

PlaceGrid::PlaceGrid(const PlanCase& c, Levers which) : levers(std::move(which)) {
  for (const std::size_t lever : levers) {
    sizes.push_back(c.levers[lever].places.size());
    strides.push_back(size);
    start += size * c.levers[lever].now;
    size *= sizes.back();
  }
}

LeversPlan::LeversPlan(const PlanCase& c, const BundleCase& jobs,
                       const std::vector<StageLoss>& losses, Levers levers,
                       std::optional<std::size_t> anywhere)
    : case_(c), jobs_(jobs), grid_(c, std::move(levers)) {
  Values at_start(grid_.size, kOutOfReach);
  at_start[grid_.start] = 0.0;
  for (std::size_t k = 0; k < losses.size(); ++k) {
    stops_.push_back(stops(c.stages[k]));
    losses_.push_back(loss_on_places(losses[k], c, grid_.levers, anywhere));
    values_.push_back(after_stop(k == 0 ? at_start : values_[k - 1], k, losses_[k]));
  }
}

double LeversPlan::value() const {
  return *std::min_element(values_.back().begin(), values_.back().end());
}

PlanPlaces LeversPlan::places() const {
  const Values& last = values_.back();
  auto at = static_cast<std::size_t>(std::min_element(last.begin(), last.end()) - last.begin());
  PlanPlaces out(values_.size(), places_now(case_));
  for (std::size_t k = values_.size(); k-- > 0;) {
    for (std::size_t i = 0; i < grid_.levers.size(); ++i)
      out[k][grid_.levers[i]] = grid_.place(at, i);
    at = came_from(k, at);
  }
  return out;
}

/// What may move at the stop before a stage, fewest levers first.
std::vector<LeversPlan::Moves> LeversPlan::stops(const PlanStage& stage) const {
  constexpr double kSlackMinutes = 1e-9;
  std::vector<Moves> out;
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
  std::stable_sort(out.begin(), out.end(), [](const Moves& a, const Moves& b) {
    return std::popcount(a.which) < std::popcount(b.which);
  });
  return out;
}

/// By place of a lever: the first it can be reached from, and the one behind the last.
std::vector<std::pair<std::size_t, std::size_t>> LeversPlan::reached_from(std::size_t i,
                                                                          bool any_reach) const {
  const PlanLever& lever = case_.levers[grid_.levers[i]];
  std::vector<std::pair<std::size_t, std::size_t>> from;
  for (std::size_t to = 0; to < grid_.sizes[i]; ++to) {
    std::size_t first = to, behind = to + 1;
    while (first > 0 && within_reach(lever, first - 1, to, any_reach)) --first;
    while (behind < grid_.sizes[i] && within_reach(lever, behind, to, any_reach)) ++behind;
    from.emplace_back(first, behind);
  }
  return from;
}

/// The least of `before` over the places that one lever can come from, and what landing costs.
LeversPlan::Values LeversPlan::moved_along(std::size_t i, const Values& before,
                                           bool any_reach) const {
  const PlanLever& lever = case_.levers[grid_.levers[i]];
  const std::size_t n = grid_.sizes[i], stride = grid_.strides[i];
  const auto from = reached_from(i, any_reach);
  Values out(before.size());
  for (std::size_t block = 0; block < before.size(); block += n * stride) {
    for (std::size_t to = 0; to < n; ++to) {
      double* const there = &out[block + to * stride];
      std::fill(there, there + stride, kOutOfReach);
      for (std::size_t p = from[to].first; p < from[to].second; ++p) {
        const double* const here = &before[block + p * stride];
        for (std::size_t s = 0; s < stride; ++s) there[s] = std::min(there[s], here[s]);
      }
      const double lands = landing_cost(case_, lever, to);
      for (std::size_t s = 0; s < stride; ++s) there[s] += lands;
    }
  }
  return out;
}

/// Fills in moved[which], one lever more at a time.
void LeversPlan::reach(unsigned which, std::vector<Values>& moved, bool any_reach) {
  if (!moved[which].empty()) return;
  const auto last = static_cast<std::size_t>(std::bit_width(which)) - 1;
  const unsigned others = which & ~(1U << last);
  reach(others, moved, any_reach);
  moved[which] = moved_along(last, moved[others], any_reach);
  looked_at_ += grid_.size * grid_.sizes[last];
}

LeversPlan::Values LeversPlan::after_stop(const Values& before, std::size_t k, const Values& loss) {
  std::vector<Values> moved(std::size_t{1} << grid_.levers.size());
  moved[0] = before;
  Values out(grid_.size, kOutOfReach);
  for (const Moves& stop : stops_[k]) {
    reach(stop.which, moved, case_.stages[k].any_reach);
    for (std::size_t at = 0; at < grid_.size; ++at)
      out[at] = std::min(out[at], moved[stop.which][at] + stop.cost);
  }
  for (std::size_t at = 0; at < grid_.size; ++at) out[at] += loss[at];
  return out;
}

/// The combination before stop k that the value of `at` behind it stands on.
std::size_t LeversPlan::came_from(std::size_t k, std::size_t at) const {
  const double value = values_[k][at] - losses_[k][at];
  const double slack = 1e-9 * std::max(1.0, std::abs(values_[k][at]));
  for (const Moves& stop : stops_[k]) {
    const auto found = among(k, at, stop.which, value - stop.cost + slack, 0, at);
    if (found) return *found;
  }
  return at;
}

double LeversPlan::before(std::size_t k, std::size_t at) const {
  if (k > 0) return values_[k - 1][at];
  return at == grid_.start ? 0.0 : kOutOfReach;
}

/// A combination that the levers of `which` from number i on can have come from, worth at most
/// `most`.
std::optional<std::size_t> LeversPlan::among(std::size_t k, std::size_t at, unsigned which,
                                             double most, std::size_t i, std::size_t from) const {
  if (i == grid_.levers.size()) return before(k, from) <= most ? std::optional(from) : std::nullopt;
  if ((which >> i & 1U) == 0) return among(k, at, which, most, i + 1, from);
  const PlanLever& lever = case_.levers[grid_.levers[i]];
  const std::size_t to = grid_.place(at, i);
  const double left = most - landing_cost(case_, lever, to);
  for (std::size_t p = 0; p < grid_.sizes[i]; ++p) {
    if (!within_reach(lever, p, to, case_.stages[k].any_reach)) continue;
    const std::size_t there = from - to * grid_.strides[i] + p * grid_.strides[i];
    if (const auto found = among(k, at, which, left, i + 1, there)) return found;
  }
  return std::nullopt;
}

}  // namespace kartwright
