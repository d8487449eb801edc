#include "engine/chassis/chain.h"

#include <cmath>
#include <numbers>

namespace kartwright {

namespace {

double wrap(double small_teeth, double large_teeth) {
  const double turns = (large_teeth - small_teeth) / (2.0 * std::numbers::pi);
  return turns * turns;
}

}  // namespace

double chain_pitches(double small_teeth, double large_teeth, double distance) {
  return 2.0 * distance + (small_teeth + large_teeth) / 2.0 +
         wrap(small_teeth, large_teeth) / distance;
}

std::optional<double> chain_distance(double small_teeth, double large_teeth, double pitches) {
  const double straight = pitches - (small_teeth + large_teeth) / 2.0;
  const double under_root = straight * straight - 8.0 * wrap(small_teeth, large_teeth);
  if (straight <= 0.0 || under_root < 0.0) return {};
  const double distance = (straight + std::sqrt(under_root)) / 4.0;
  const double both_radii = (small_teeth + large_teeth) / (2.0 * std::numbers::pi);
  return distance > both_radii ? std::optional(distance) : std::nullopt;
}

int nearest_even_links(double pitches) { return 2 * static_cast<int>(std::lround(pitches / 2.0)); }

double sprocket_diameter(int teeth) { return 0.6 + 1.0 / std::tan(std::numbers::pi / teeth); }

}  // namespace kartwright
