// figures.h - what a crew can use of the physics: the two loads of the rear, when the inside rear
// lets go, how far from tipping, and how fast the steering moves load.

#pragma once

#include <optional>

#include "engine/chassis/corner.h"

namespace kartwright {

/// A kind of corner: how hard the kart is cornering in the middle of it, and how tight it is.
struct CornerClass {
  double lateral = 0;  ///< m/s^2 in the middle
  double peak = 0;     ///< m/s^2 at the most, for the hop index
  double radius = 0;   ///< m
};

enum class CornerPhase { entry, mid, exit };

/// What the kart is doing in a phase of a left turn. Entry: three quarters of the lateral
/// acceleration, braked by the rear axle at 0.35 of it. Exit: 0.8 of it, driven at 0.2. Steered at
/// the angle of the corner and 1.5 degrees more. Assumptions, the same for every kart.
Manoeuvre manoeuvre_of(const SprintKart& kart, const CornerClass& corner, CornerPhase phase);

/// Of one kart in one class of corner. Loads are those of the middle, before any wheel leaves the
/// ground, so that they keep their meaning where one has.
struct Figures {
  double outside_rear = 0;        ///< N: the rear's bite
  double inside_rear = 0;         ///< N: what is still to be released; below 0, it is
  std::optional<double> release;  ///< m/s^2 at which the inside rear leaves the ground, if it does
  double static_stability = 0;    ///< half the mean track over the height of the mass (NHTSA)
  double hop =
      0;  ///< not clamped; 0: the inside rear is just off at the peak, 1: both inside wheels
  double response = 0;  ///< N moved to the outside rear by a radian of steer
};
Figures figures_of(const SprintKart& kart, const CornerClass& corner);

/// Half the mean track over the height of the centre of mass; the lateral acceleration, in g, at
/// which a rigid kart tips (NHTSA, static stability factor).
double static_stability(const SprintKart& kart);

/// The track that gives the same static stability at another height of the mass, m.
double equivalent_track(double track, double height, double other_height);

/// m/s^2 at which both inside wheels are off the ground and the kart tips: moments about the
/// outside wheels. Static stability in g, where the mass is on the centre line.
double tips_at(const SprintKart& kart);

/// m/s^2 at which the inside rear leaves the ground at this steer; side force follows it. 0 where
/// it is off before the kart corners at all, nothing where it stays down to 4 g.
std::optional<double> release_of(const SprintKart& kart, double steer);

/// m/s^2 at which the front bar changes its sign: below it the bar adds load to the outside rear,
/// above it takes some off. Nothing where it does not change up to 4 g.
std::optional<double> bar_turns_at(const SprintKart& kart, double radius);

}  // namespace kartwright
