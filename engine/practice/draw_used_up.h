// draw_used_up.h - a task whose best change is taken away: at its stop, or at the class limit.

#pragma once

#include "engine/practice/dice.h"
#include "engine/practice/marking.h"

namespace kartwright {

/// Ends the travel of what the best answer moves where it stands, by the kart's own stop or by the
/// class; false where the best answer moves nothing.
bool use_up(const Pack& pack, DrillDice& dice, DrillTask& task);

}  // namespace kartwright
