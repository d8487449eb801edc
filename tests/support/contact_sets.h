// contact_sets.h - how a kart stands on its wheels, found the long way: every wheel on the ground
// or off it, all sixteen ways, each as one system of eight equations. Nothing of the engine's
// physics is used: axle and steering are worked out another way too.

#pragma once

#include <array>
#include <optional>

#include "engine/chassis/axle.h"
#include "engine/chassis/corner.h"
#include "engine/chassis/steering.h"

namespace kartwright::naive {

/// A kart at rest in its turn.
struct Stand {
  CornerLoads loads;                       ///< N
  std::array<bool, 4> on_the_ground = {};  ///< left front, right front, left rear, right rear
  std::array<double, 4> above = {};        ///< metres above the ground, the same order
};

/// The set of wheels on the ground with which no wheel pulls at the ground and none is below it;
/// nothing where no set does, since the kart tips. Unknown are the four loads, and heave and roll
/// of either half of the frame.
std::optional<Stand> stand_of(const SprintKart& kart, const Manoeuvre& turn);

/// The axle by virtual work: bending moments integrated over its parts, the middle bearing's force
/// such that the axle does not move there.
AxleCompliance axle_by_virtual_work(const SprintKart& kart, double side_force);

/// Each front wheel's middle turned about its kingpin in space.
FrontPush push_by_rotation(const SprintKart& kart, double steer);

}  // namespace kartwright::naive
