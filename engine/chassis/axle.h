// axle.h - the rear axle as a beam: how far a wheel gives way under its load.

#pragma once

#include "engine/chassis/sprint_kart.h"

namespace kartwright {

/// Second moment of area of a round tube, m^4: pi/64 (D^4 - (D - 2w)^4). Diameter and wall in
/// metres; a wall of half the diameter is a bar. REQUIRES: 0 < wall <= diameter / 2.
double tube_second_moment(double diameter, double wall);

/// Metres at a wheel, upward, per newton on a wheel.
struct AxleCompliance {
  double left_left = 0, left_right = 0, right_left = 0, right_right = 0;  ///< at, per newton on
};

/// What a newton of load on a rear wheel, and the side force that comes with it, does to both. A
/// beam overhanging its outer bearings (Euler-Bernoulli), with tyre and bearing carrier in series.
/// `side_force` is newtons of side force for each newton of load, toward the inside of a left turn.
AxleCompliance axle_compliance(const SprintKart& kart, double side_force);

}  // namespace kartwright
