// draw_fault.h - a fault for a drawn task, with what the driver and the crew noticed of it.

#pragma once

#include <vector>

#include "engine/debrief/debrief.h"
#include "engine/knowledge/pack.h"
#include "engine/practice/dice.h"

namespace kartwright {

/// Adds evidence of a fault that must not be run, drawn piece by piece until it is at least as
/// likely as not: complaints to `reports`, facts to the debrief. False where its evidence does not
/// reach that far, or not in a few pieces.
bool add_fault(const Pack& pack, DrillDice& dice, std::vector<Report>& reports, Debrief& debrief);

}  // namespace kartwright
