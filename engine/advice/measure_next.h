// measure_next.h - of the sizes that had to be assumed, the one whose measurement could change the
// ranking most.

#pragma once

#include <optional>

#include "engine/advice/advice.h"

namespace kartwright {

/// Each assumed size is put to the ends of its likely range, the readings are taken anew, and the
/// lead of the first change over the second is watched. Nothing where none moves it by a point, or
/// fewer than two changes are ranked. `situation` is the one that the advice was made from.
std::optional<MeasureNext> measure_next(const Advice& advice, const Situation& situation);

}  // namespace kartwright
