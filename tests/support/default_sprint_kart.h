// default_sprint_kart.h - the kart that stands in where nobody knows better, as the physics sees
// it.

#pragma once

#include <numbers>

#include "engine/chassis/sprint_kart.h"

namespace kartwright {

inline constexpr double kDegree = std::numbers::pi / 180.0;

/// An adult's sprint kart with its driver: 165 kg, 1.38 m over the rear tyres, a soft 50 mm axle in
/// three bearings, the front bar out. Common practice and assumptions, none of them measured.
inline SprintKart default_sprint_kart() {
  return {.mass = 165.0,
          .wheelbase = 1.04,
          .front_share = 0.42,
          .mass_height = 0.26,
          .front_track = 1.10,
          .rear_track = 1.38 - 0.20,
          .front_mass_share = 0.15,
          .front_mass_height = 0.20,
          .twist_axis_height = 0.08,
          .front_frame = 400.0 / kDegree,
          .rear_frame = 400.0 / kDegree,
          .front_tyre = 85e3,
          .rear_tyre = 95e3,
          .spindle = 600e3,
          .carrier = 350e3,
          .axle_diameter = 0.050,
          .axle_wall = 0.002,
          .axle_modulus = 205e9,
          .bearing_half_distance = 0.32,
          .hub_length = 0.09,
          .hub_outboard = 0.03,
          .caster = 14.0 * kDegree,
          .kingpin_inclination = 11.0 * kDegree,
          .kingpin_width = 0.80,
          .ackermann = 1.0,
          .front_tyre_radius = 0.13,
          .rear_tyre_radius = 0.14};
}

}  // namespace kartwright
