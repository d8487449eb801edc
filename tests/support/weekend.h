// weekend.h - the generator of the invented weekend in scenarios/harbour/weekend.json: two days and
// 44 runs of kart 27 of the harbour club, driven as season.h says, with a crew that asks for advice
// before most changes.
//
// The truth of it: rear width does 1.4 times what the rules say, caster half, toe 0.3 times, rear
// pressures 1.5 times with the sign turned; all else does what the rules say. A driver feels to 0.7
// notches and tells the five worst at most, the track drifts by 0.25 a run, a lap scatters by 0.06
// s and gains 0.002 s on the lap before it, and a weighed notch squared costs 0.02 s. Each day is
// cold for three runs, green until the eleventh and rubbered in from there. All of it is invented.

#pragma once

#include <string>
#include <vector>

#include "engine/kart/kart.h"
#include "engine/records/run.h"
#include "tests/support/season.h"

namespace kartwright {

/// What the weekend is made of.
SeasonPlan weekend_plan();

/// The runs, as the log holds them. REQUIRES: the kart is read with this pack.
std::vector<Run> weekend(const Pack& pack, const Kart& kart);

/// The same as the file of the scenario.
std::string weekend_file(const std::vector<Run>& runs);

}  // namespace kartwright
