#include "engine/chassis/axle.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace kartwright {

double tube_second_moment(double diameter, double wall) {
  const double inner = diameter - 2.0 * wall;
  return std::numbers::pi / 64.0 * (std::pow(diameter, 4) - std::pow(inner, 4));
}

AxleCompliance axle_compliance(const SprintKart& kart, double side_force) {
  const double stiffness =
      kart.axle_modulus * tube_second_moment(kart.axle_diameter, kart.axle_wall);
  const double bearing = kart.bearing_half_distance;
  const double overhang = std::max(kart.rear_track / 2.0 - bearing, 0.0);
  // The hub holds the axle straight over its own length inside the wheel.
  const double held = std::clamp(kart.hub_length - kart.hub_outboard, 0.0, overhang);
  const double by_force = (std::pow(overhang, 3) - std::pow(held, 3)) / (3.0 * stiffness);
  const double by_moment = (std::pow(overhang, 2) - std::pow(held, 2)) / (2.0 * stiffness);
  // Slope of the axle at a bearing for a moment at it, and at the other.
  const double own = (kart.middle_bearing ? 7.0 / 24.0 : 2.0 / 3.0) * bearing / stiffness;
  const double other = (kart.middle_bearing ? -1.0 / 24.0 : 1.0 / 3.0) * bearing / stiffness;
  // The side force bends the axle by the radius of the tyre: up at the left wheel, down at the
  // right.
  const double arm = kart.rear_tyre_radius * side_force;
  const double moment_left = overhang + arm;
  const double moment_right = overhang - arm;
  const double in_series = 1.0 / kart.rear_tyre + 1.0 / kart.carrier;
  return {.left_left = overhang * own * moment_left + by_force + arm * by_moment + in_series,
          .left_right = overhang * other * moment_right,
          .right_left = overhang * other * moment_left,
          .right_right = overhang * own * moment_right + by_force - arm * by_moment + in_series};
}

}  // namespace kartwright
