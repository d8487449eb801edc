// read_carried.h - the masses that can be mounted elsewhere, and whether the seat can go sideways.

#pragma once

#include "engine/kart/reading.h"

namespace kartwright {

/// The most masses that a kart file may list, and the most mounts of each.
inline constexpr std::size_t kMostCarried = 10;
inline constexpr std::size_t kMostMounts = 20;

struct CarriedParts {
  std::vector<CarriedMass> masses;  ///< in the file's order
  std::optional<SeatSideways> seat_sideways;
};

/// Reads `carried`: a map of masses by names of the crew's own, each with `mass`, `mounts` and the
/// one it is `at`; under `seat` how far the seat goes `sideways`. A mass with a mistake is reported
/// and left out. Where a mass gives no `minutes`, those of moving ballast in the pack stand.
CarriedParts read_carried(KartReading& reading, const Node* section);

}  // namespace kartwright
