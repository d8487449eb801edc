// steering.h - how far turning the wheel pushes the front wheels down and lifts them.

#pragma once

#include "engine/chassis/sprint_kart.h"

namespace kartwright {

/// Metres that each front wheel is pushed down, against the frame.
struct FrontPush {
  double left = 0, right = 0;
};

/// The wheel's centre turned about the kingpin (Rodrigues' rotation formula). `steer` is the mean
/// angle of the front wheels, radians, positive for a left turn; the inside wheel turns more by the
/// share of Ackermann's geometry that the kart has.
FrontPush front_push(const SprintKart& kart, double steer);

}  // namespace kartwright
