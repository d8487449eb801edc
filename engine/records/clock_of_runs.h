// clock_of_runs.h - the laps of runs as the clock compares them: runs with one setup on one state
// of the track are one group, whenever they were driven.

#pragma once

#include <optional>
#include <vector>

#include "engine/records/lap_comparison.h"
#include "engine/records/run.h"

namespace kartwright {

/// The group of each run: those with one setup and one set of tyres on one state of the track are
/// one, in the order that they are first driven.
std::vector<std::size_t> groups_of_runs(const std::vector<const Run*>& runs);

/// The laps that count of some runs of one day, numbered through in the order they were driven,
/// those that do not count with them. Groups as groups_of_runs has them, named by their runs: "run
/// 11, 13", with the track where it was not the same for all.
LapFile laps_of(const std::vector<const Run*>& runs);

/// What the clock says of the last run against the one before it, from all runs of the day; nothing
/// where they have one setup, or too few laps. REQUIRES: worth above zero, seconds a lap.
std::optional<LapComparison> last_change(const std::vector<const Run*>& day, double worth);

/// The verdict of that on an effect of the usual worth, 0.1 s a lap; not settled where there is
/// none.
ClockVerdict verdict_on_last(const std::vector<const Run*>& day);

/// faster or slower where that is settled; else nothing.
std::optional<std::string> laps_fact(const std::vector<Run>& runs);

}  // namespace kartwright
