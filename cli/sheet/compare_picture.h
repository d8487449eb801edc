// compare_picture.h - laps with the line that was fitted to them, and the effect of every group
// against none and against one worth having.

#pragma once

#include <string>

#include "cli/sheet/drawing.h"
#include "engine/records/lap_comparison.h"

namespace kartwright::cli {

/// Lap time against lap number: a sign for each group, its letter over each of its stints, the fit
/// as a line. Of many laps, those of one group that would lie on one another are drawn once.
/// `letters` as letters_of.
Picture laps_picture(const LapComparison& compared, const std::string& letters);

/// Each group's effect with its 95 % interval.
Picture effects_picture(const LapComparison& compared, const std::string& letters);

}  // namespace kartwright::cli
