#include "engine/decision/options.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <limits>

namespace kartwright {
namespace {

/// +1 where the direction goes up in value, -1 where it goes down.
int sense(const Adjustment& adjustment, std::size_t direction) {
  return (direction == 0) == (adjustment.reference_step > 0.0) ? 1 : -1;
}

/// A place as the pack counts it: on a kart that has only some of the named positions, two that are
/// next to each other may be several reference steps apart.
double counted(const Setting& setting, double place) {
  if (setting.travel.names.empty()) return place;
  const std::string& name = setting.travel.names.at(static_cast<std::size_t>(place));
  const std::vector<std::string>& all = setting.adjustment->positions;
  return static_cast<double>(std::find(all.begin(), all.end(), name) - all.begin());
}

/// A distance between places as they are counted. Whole steps come out whole, whatever the unit
/// that the kart file was written in.
double in_steps(const Adjustment& adjustment, double distance) {
  constexpr double kFine = 1e9;
  return std::round(distance / adjustment.reference_step * kFine) / kFine;
}

bool part_is_here(const Setting& setting, double place) {
  if (!setting.adjustment->parts) return true;
  const std::string& name = setting.travel.names.at(static_cast<std::size_t>(place));
  const std::vector<std::string>& box = setting.in_the_box;
  return std::find(box.begin(), box.end(), name) != box.end();
}

Refusal judge(const Setting& setting, double to, double minutes_left) {
  if (!class_allows(setting, to)) return Refusal::class_limit;
  if (!part_is_here(setting, to)) return Refusal::no_part;
  if (setting.minutes > minutes_left) return Refusal::no_time;
  return Refusal::none;
}

std::size_t legal_places(const Setting& setting) {
  return static_cast<std::size_t>(
      std::count_if(setting.travel.places.begin(), setting.travel.places.end(),
                    [&](double place) { return class_allows(setting, place); }));
}

/// What all places of an adjustment in one direction share.
struct Bounds {
  double end = 0.0;   ///< the last place the class allows
  bool many = false;  ///< so many places that the last one is a notch by itself
  double now_counted = 0.0, end_counted = 0.0;
};

Bounds bounds_of(const Setting& setting, std::size_t direction) {
  constexpr std::size_t kManyPlaces = 5;
  const double end = legal_end(setting, direction);
  return {end, legal_places(setting) >= kManyPlaces, counted(setting, setting.now),
          counted(setting, end)};
}

Option make_option(const Setting& setting, std::size_t direction, double to, const Bounds& bounds,
                   double minutes_left) {
  constexpr double kSlack = 1e-9;
  const Adjustment& adjustment = *setting.adjustment;
  const double there = counted(setting, to);
  const double distance = there - bounds.now_counted;
  return {.setting = &setting,
          .direction = direction,
          .from = setting.now,
          .to = to,
          .steps = in_steps(adjustment, distance),
          .minutes = setting.minutes,
          .last_notch = std::abs(to - bounds.end) < kSlack && bounds.many,
          .at_once = std::abs(distance) <= adjustment.most_at_once + kSlack,
          .room_left = std::abs(in_steps(adjustment, bounds.end_counted - there)),
          .refusal = judge(setting, to, minutes_left)};
}

Way make_way(const Adjustment& adjustment, const Setting* setting, std::size_t direction,
             double minutes_left) {
  Way way{.adjustment = &adjustment, .setting = setting, .direction = direction, .options = {}};
  if (setting == nullptr) return way;
  const int up = sense(adjustment, direction);
  constexpr double kSlack = 1e-9;
  const Bounds bounds = bounds_of(*setting, direction);
  const std::vector<double>& places = setting->travel.places;
  const auto lies_ahead = [&](double place) { return (place - setting->now) * up > kSlack; };
  way.options.reserve(
      static_cast<std::size_t>(std::count_if(places.begin(), places.end(), lies_ahead)));
  for (const double place : places) {
    if (!lies_ahead(place)) continue;
    way.options.push_back(make_option(*setting, direction, place, bounds, minutes_left));
  }
  if (up < 0) std::reverse(way.options.begin(), way.options.end());
  return way;
}

}  // namespace

std::string_view name_of(Refusal refusal) {
  static constexpr std::array<std::string_view, 8> kNames{
      "none",    "end-stop",    "class-limit",      "no-part",
      "no-time", "makes-worse", "not-on-this-kart", "effect-unknown"};
  return kNames.at(static_cast<std::size_t>(refusal));
}

double steps_between(const Setting& setting, double from, double to) {
  return in_steps(*setting.adjustment, counted(setting, to) - counted(setting, from));
}

double grid_of(const Setting& setting) {
  if (setting.adjustment->listed()) return 1.0;
  return setting.travel.step / std::abs(setting.adjustment->reference_step);
}

double legal_end(const Setting& setting, std::size_t direction) {
  const bool up = sense(*setting.adjustment, direction) > 0;
  double end = setting.now;
  for (const double place : setting.travel.places) {
    if (!class_allows(setting, place)) continue;
    end = up ? std::max(end, place) : std::min(end, place);
  }
  return end;
}

std::array<Way, 2> ways_of(const Adjustment& adjustment, const Setting* setting,
                           double minutes_left) {
  return {make_way(adjustment, setting, 0, minutes_left),
          make_way(adjustment, setting, 1, minutes_left)};
}

Refusal stopped_by(const Setting& setting, std::size_t direction) {
  constexpr double kAnyTime = std::numeric_limits<double>::infinity();
  const Way way = make_way(*setting.adjustment, &setting, direction, kAnyTime);
  return way.options.empty() ? Refusal::end_stop : way.options.front().refusal;
}

OpenTravel open_travel(const Setting& setting) {
  constexpr double kAnyTime = std::numeric_limits<double>::infinity();
  OpenTravel out{.low = setting.now, .high = setting.now};
  for (const std::size_t direction : {0U, 1U}) {
    const Way way = make_way(*setting.adjustment, &setting, direction, kAnyTime);
    double end = setting.now;
    Refusal stop = Refusal::end_stop;
    for (const Option& option : way.options) {
      stop = option.open() ? Refusal::end_stop : option.refusal;
      if (option.open()) end = option.to;
    }
    const bool upward = way.options.empty()
                            ? (direction == 0) == (setting.adjustment->reference_step > 0)
                            : way.options.front().to > setting.now;
    (upward ? out.high : out.low) = end;
    (upward ? out.above : out.below) = stop;
  }
  return out;
}

std::vector<Way> all_ways(const Pack& pack, const Kart& kart, double minutes_left) {
  std::vector<Way> ways;
  ways.reserve(2 * pack.adjustments.size());
  for (const Adjustment& adjustment : pack.adjustments) {
    auto both = ways_of(adjustment, kart.setting(adjustment.id), minutes_left);
    std::move(both.begin(), both.end(), std::back_inserter(ways));
  }
  return ways;
}

std::vector<Way> with_time(std::vector<Way> ways) {
  for (Way& way : ways) {
    for (Option& option : way.options) {
      if (option.refusal == Refusal::no_time) option.refusal = Refusal::none;
    }
  }
  return ways;
}

}  // namespace kartwright
