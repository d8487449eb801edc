// read_range.h - how far an adjustment goes on this kart, where the file says so.

#pragma once

#include "engine/kart/reading.h"
#include "engine/kart/travel.h"

namespace kartwright {

/// How far an adjustment goes.
struct Reach {
  Travel travel;
  Range range;          ///< of adjustments without named positions
  bool trusted = true;  ///< false where the file's own words could not be used
};

/// Reads one entry of `ranges`, or takes what is usual where `node` is nullptr. Reports a range
/// that no kart has; the usual one is returned then, not trusted.
Reach read_reach(KartReading& reading, const Adjustment& adjustment, const Node* node);

}  // namespace kartwright
