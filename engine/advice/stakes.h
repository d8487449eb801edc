// stakes.h - what an advice was ranked by, taken from the advice again.

#pragma once

#include "engine/advice/advice.h"
#include "engine/inference/situation.h"

namespace kartwright {

/// Mean, weights, clock and forecast of an advice; where the clock says faster, also the beliefs
/// with no complaint and with complaints at their full weight.
Stakes stakes_behind(const Advice& advice, const Pack& pack);

/// The settled case of an advice. The pack, the kart and the advice must outlive it.
Situation situation_behind(const Advice& advice, const Pack& pack, const Kart& kart);

}  // namespace kartwright
