// lifted_axle.h - the height of the centre of mass, by lifting one axle and weighing the other.
//
// Care: a low lift, ballast strapped into the seat in the driver's place and never a person aboard.

#pragma once

#include <span>

#include "engine/chassis/scales.h"

namespace kartwright {

/// One axle is lifted, the other stays on its scales. SI.
struct LiftedAxle {
  double mass = 0;  ///< of the whole
  double wheelbase = 0;
  double level = 0, lifted = 0;  ///< kg on the axle that stays down
  double lift = 0;               ///< of the other axle's middle, m
  double radius_down = 0;        ///< of the tyres that stay down, m
  double radius_up = 0;          ///< of those that are lifted
  double sigma_scale = 0;        ///< kg, of one scale; an axle stands on two
  double sigma_lift = 0;         ///< m
};

/// Metres above the ground, level: r + (lifted - level) L / (m tan th), sin th = lift / L, where r
/// is the wheels' radius at the centre of mass along the kart. Moments about the axle that stays
/// down, as in ISO 10392; its error to first order. REQUIRES: 0 < lift < wheelbase.
WithError mass_height(const LiftedAxle& test);

/// Of several lifts of one kart: the least-squares slope through zero of the load against tan th
/// (ISO 10392). REQUIRES: one at least; the same kart.
double mass_height(std::span<const LiftedAxle> lifts);

}  // namespace kartwright
