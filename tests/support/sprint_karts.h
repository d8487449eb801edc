// sprint_karts.h - random karts for the physics, and their mirror images.

#pragma once

#include "engine/chassis/corner.h"
#include "tests/support/any.h"
#include "tests/support/default_sprint_kart.h"

namespace kartwright {

/// Every parameter somewhere in its plausible range: with or without the front bar and the middle
/// bearing, half of them with a bent frame, the mass off the centre line and toed.
SprintKart any_sprint_kart(Random& random);

/// Anything a kart can do and more: to 2.6 g sideways either way, with full brakes and full lock.
Manoeuvre any_turn(Random& random);

/// As seen in a mirror that stands along the kart.
SprintKart mirrored(SprintKart kart);
Manoeuvre mirrored(Manoeuvre turn);

}  // namespace kartwright
