// clock_of_runs.h - the laps of runs as the clock compares them: runs with one setup are one group,
// whenever they were driven.

#pragma once

#include <optional>
#include <vector>

#include "engine/records/lap_comparison.h"
#include "engine/records/run.h"

namespace kartwright {

/// The laps that count of some runs of one day, numbered through in the order they were driven,
/// those that do not count with them. A group for each setup, named by its runs: "run 11, 13".
LapFile laps_of(const std::vector<const Run*>& runs);

/// The group of a comparison that the laps of a run are in; nothing where none of them counted.
std::optional<std::size_t> group_of_run(const LapComparison& compared, const Run& run);

/// What the clock says of the last run against the one before it, from all runs of the day; nothing
/// where they have one setup, or too few laps. REQUIRES: worth above zero, seconds a lap.
std::optional<LapComparison> last_change(const std::vector<const Run*>& day, double worth);

/// faster or slower where that is settled; else nothing.
std::optional<std::string> laps_fact(const std::vector<Run>& runs);

}  // namespace kartwright
