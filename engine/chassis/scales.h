// scales.h - four wheels on four scales: shares of the weight and how sure they are, the four modes
// that tell a heavy side from a twisted frame, and what two weighings say that one cannot.
//
// Readings are kilograms, the driver aboard. A scale's error is taken as independent of the
// others'.

#pragma once

#include <optional>

#include "engine/kart/corner_loads.h"

namespace kartwright {

/// Sums of the four readings, kg: all of them, front less rear, left less right, and the diagonal
/// left front and right rear less the other.
struct Modes {
  double total = 0, pitch = 0, roll = 0, warp = 0;
};
Modes modes_of(const CornerLoads& on);
CornerLoads loads_of(const Modes& modes);

/// A figure and its standard deviation.
struct WithError {
  double value = 0, sd = 0;
};

/// Fractions of the whole weight. Cross is right front with left rear.
struct Shares {
  WithError front, left, cross;
};
/// `sigma` is the standard deviation of one scale, kg. Error of a ratio to first order:
/// sigma / T sqrt(2 (1 - p)^2 + 2 p^2). REQUIRES: the readings sum to more than zero.
Shares shares_of(const CornerLoads& on, double sigma);

/// Left less right of an axle, kg.
struct Pairs {
  WithError front, rear;
};
Pairs pairs_of(const CornerLoads& on, double sigma);

/// Weighed twice, the scales of each axle changed over from side to side, the kart on the same
/// spot. `again` is by wheel, as `first`.
struct ScalesSwapped {
  CornerLoads on;          ///< means of the two: the scales' errors of an axle are even in them
  double sigma = 0;        ///< of one of those means, kg
  WithError front_scales;  ///< what the left of the two reads too much against the right, kg
  WithError rear_scales;
};
ScalesSwapped swap_scales(const CornerLoads& first, const CornerLoads& again, double sigma);

/// Weighed twice, the kart turned by a quarter on its spot, each scale left with its wheel: each
/// wheel then stands where its neighbour stood, and the floor's warp changes its sign.
struct KartTurned {
  WithError frame, floor;  ///< warp, kg: what stays with the kart, what stays with the floor
};
KartTurned turn_kart(const CornerLoads& first, const CornerLoads& again, double sigma);

}  // namespace kartwright
