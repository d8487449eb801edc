#include "engine/chassis/mass_moves.h"

#include <algorithm>
#include <cmath>

namespace kartwright {

namespace {

constexpr int kMostMoves = 3;
constexpr std::size_t kMostPlans = 3;
constexpr std::string_view kSeatSideways = "seat sideways";
constexpr double kMostTried = 200'000.0;  // about a tenth of a second

/// What the class allows of an adjuster's travel, and where it stands.
std::vector<double> legal_places(const Setting& setting) {
  std::vector<double> places;
  for (const double place : setting.travel.places) {
    if (class_allows(setting, place)) places.push_back(place);
  }
  const auto here = std::lower_bound(places.begin(), places.end(), setting.now);
  if (here == places.end() || *here != setting.now) places.insert(here, setting.now);
  return places;
}

std::size_t index_of(const std::vector<double>& places, double here) {
  return static_cast<std::size_t>(std::find(places.begin(), places.end(), here) - places.begin());
}

Movable along(const Setting& setting, double mass, System units) {
  const std::vector<double> places = legal_places(setting);
  Movable movable{.name = setting.adjustment->id,
                  .mass = mass,
                  .mounts = {},
                  .at = index_of(places, setting.now),
                  .minutes = setting.minutes};
  for (const double place : places) {
    movable.mounts.push_back({.name = print_setting(setting, place, units), .forward = place});
  }
  return movable;
}

double seat_minutes(const Kart& kart) {
  const Setting* const seat = kart.setting("seat-fore-aft");
  return seat == nullptr ? 0.0 : seat->minutes;
}

std::string side_of(double left, System units) {
  if (left == 0.0) return print_quantity(0.0, Kind::length, units);
  return print_quantity(std::abs(left), Kind::length, units) + (left > 0.0 ? " left" : " right");
}

Movable across(const SeatSideways& seat, const KnownKart& known, double minutes, System units) {
  Movable movable{.name = std::string(kSeatSideways),
                  .mass = known.seat_mass,
                  .mounts = {},
                  .at = index_of(seat.places, seat.at),
                  .minutes = minutes};
  for (const double place : seat.places) {
    movable.mounts.push_back({.name = side_of(place, units), .left = place});
  }
  return movable;
}

Movable carried_one(const CarriedMass& carried) {
  Movable movable{.name = carried.name,
                  .mass = carried.mass,
                  .mounts = {},
                  .at = carried.at,
                  .minutes = carried.minutes};
  for (const CarriedMount& mount : carried.mounts) {
    movable.mounts.push_back({mount.name, mount.forward, mount.left, mount.up});
  }
  return movable;
}

/// "seat forward", "seat to the left", "lead plate".
std::string move_text(const Kart& kart, const Movable& movable, const Mount& from,
                      const Mount& to) {
  if (const Setting* const setting = kart.setting(movable.name)) {
    return setting->adjustment->phrases.at(to.forward > from.forward ? 0 : 1);
  }
  if (movable.name != kSeatSideways) return movable.name;
  return to.left > from.left ? "seat to the left" : "seat to the right";
}

MovePlan plan_of(const Cure& cure, const Kart& kart, const std::vector<Movable>& movables,
                 double sigma) {
  MovePlan plan{.steps = {},
                .predicted = cure.predicted,
                .shares = shares_of(cure.predicted, sigma),
                .higher = cure.higher,
                .minutes = cure.minutes,
                .reaches = cure.outside == 0.0};
  plan.legal = cure.predicted.total() >= kart.minimum_weight.value_or(0.0);
  for (const MassMove& move : cure.moves) {
    const Movable& movable = movables[move.movable];
    const Mount& from = movable.mounts[movable.at];
    const Mount& to = movable.mounts[move.mount];
    plan.steps.push_back(
        {movable.name, move_text(kart, movable, from, to), from.name, to.name, movable.mass});
  }
  return plan;
}

}  // namespace

std::vector<Movable> movables_of(const Kart& kart, const KnownKart& known, System units) {
  std::vector<Movable> movables;
  if (const Setting* const seat = kart.setting("seat-fore-aft")) {
    movables.push_back(along(*seat, known.seat_mass, units));
  }
  if (kart.seat_sideways) {
    movables.push_back(across(*kart.seat_sideways, known, seat_minutes(kart), units));
  }
  if (const Setting* const ballast = kart.setting("ballast-fore-aft")) {
    movables.push_back(along(*ballast, known.ballast_mass, units));
  }
  for (const CarriedMass& carried : kart.carried) movables.push_back(carried_one(carried));
  return movables;
}

int most_moves_tried(const std::vector<Movable>& movables) {
  // Elementary symmetric sums: how many ways there are to move so many of them.
  std::vector<double> ways(kMostMoves + 1, 0.0);
  ways[0] = 1.0;
  for (const Movable& movable : movables) {
    const double others = static_cast<double>(movable.mounts.size()) - 1.0;
    for (std::size_t k = kMostMoves; k > 0; --k) ways[k] += ways[k - 1] * others;
  }
  double tried = 0.0;
  int most = 0;
  while (most < kMostMoves) {
    tried += ways[static_cast<std::size_t>(most) + 1];
    if (tried > kMostTried) break;
    ++most;
  }
  return std::max(most, 1);
}

std::vector<MovePlan> move_plans(const Kart& kart, const Unbalanced& unbalanced,
                                 const std::vector<Movable>& movables, double sigma) {
  std::vector<MovePlan> plans;
  for (const Cure& cure : cures(unbalanced, movables, most_moves_tried(movables), kMostPlans)) {
    plans.push_back(plan_of(cure, kart, movables, sigma));
  }
  return plans;
}

}  // namespace kartwright
