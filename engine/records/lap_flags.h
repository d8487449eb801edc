// lap_flags.h - which laps of a run do not count: the way out, the way in, and traffic.

#pragma once

#include <string>
#include <vector>

#include "engine/records/run.h"

namespace kartwright {

/// The rule, as it is printed: a lap slower than the median of its run by more than the share
/// `slow` does not count; the first is an out-lap, the last an in-lap, others traffic. What the
/// crew said of a lap stays. Laps are flagged, never taken away.
void flag_laps(std::vector<RunLap>& laps, double slow);

/// "in brackets: more than 3 % over the run's median, so not counted; ..."
std::string lap_rule_in_words(double slow);

}  // namespace kartwright
