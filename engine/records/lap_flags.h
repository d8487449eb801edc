// lap_flags.h - which laps of a run do not count: the way out, the way in, and traffic.

#pragma once

#include <string>
#include <vector>

#include "engine/records/run.h"

namespace kartwright {

/// Slower than the median of the run by this share is not a lap of the kart. Common practice.
inline constexpr double kSlowLap = 0.03;

/// The rule, as it is printed: a lap slower than the median of its run by more than `slow` does not
/// count; the first is an out-lap, the last an in-lap, others traffic. What the crew said of a lap
/// stays. Laps are flagged, never taken away.
void flag_laps(std::vector<RunLap>& laps, double slow = kSlowLap);

/// "a lap more than 3 % over the run's median is left out: the first as out-lap, ..."
std::string lap_rule_in_words(double slow = kSlowLap);

}  // namespace kartwright
