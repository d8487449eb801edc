#include "engine/kart/travel.h"

#include <algorithm>
#include <cmath>

namespace kartwright {

namespace {

constexpr double kSame = 1e-9;  // relative; far below what any gauge shows

Travel travel_named(std::vector<std::string> names) {
  Travel travel{.places = {}, .names = std::move(names)};
  for (std::size_t i = 0; i < travel.names.size(); ++i) {
    travel.places.push_back(static_cast<double>(i));
  }
  return travel;
}

int place_count(const Range& range) {
  if (range.step <= 0.0 || range.to <= range.from) return 1;
  const double steps = std::floor((range.to - range.from) / range.step + kSame);
  return 1 + static_cast<int>(std::min(steps, kMostPlaces - 1.0));
}

}  // namespace

bool same_value(double a, double b, double scale) {
  return std::abs(a - b) <= kSame * std::max({std::abs(a), std::abs(b), std::abs(scale)});
}

Travel travel_over(const Range& range) {
  Travel travel{.places = {}, .names = {}, .step = range.step};
  const int count = place_count(range);
  for (int k = 0; k < count; ++k) {
    travel.places.push_back(std::min(range.from + k * range.step, std::max(range.from, range.to)));
  }
  return travel;
}

Range usual_range(const Adjustment& adjustment) {
  return {adjustment.from, adjustment.to, adjustment.step};
}

Travel usual_travel(const Adjustment& adjustment) {
  return adjustment.listed() ? travel_named(adjustment.positions)
                             : travel_over(usual_range(adjustment));
}

double nearest_place(const Travel& travel, double value) {
  return *std::min_element(travel.places.begin(), travel.places.end(), [&](double a, double b) {
    return std::abs(a - value) < std::abs(b - value);
  });
}

std::optional<double> place_named(const Travel& travel, std::string_view name) {
  const auto found = std::find(travel.names.begin(), travel.names.end(), name);
  if (found == travel.names.end()) return {};
  return static_cast<double>(found - travel.names.begin());
}

}  // namespace kartwright
