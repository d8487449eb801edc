// day_ends.h - where the travel of an adjustment runs out over a day, and which other takes over.

#pragma once

#include <vector>

#include "engine/advice/day_pages.h"

namespace kartwright {

/// What stands at an end of its travel at some stage and would be moved on by it, most missed
/// first: an adjustment that the plan moves where that is worth five points of the stage, another
/// where it is worth ten. It is missed as if the stop before that stage had not moved the others:
/// so what makes up for it is seen. That is the plan's own move at the stop which pushes the kart
/// the same way, or the best single one that does.
std::vector<RunsOut> runs_out(const DayCase& day, const PlanPlaces& places, const Day& plan,
                              const DayPages& pages);

}  // namespace kartwright
