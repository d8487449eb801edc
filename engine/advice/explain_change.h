// explain_change.h - a ranked move with its reasons, and a refused one with its single reason.

#pragma once

#include "engine/advice/advice.h"
#include "engine/inference/situation.h"

namespace kartwright {

Change explain_change(const Candidate& candidate, const Effect& effect, const Advice& advice,
                      const Situation& situation, System units);

/// Why the change works, in a sentence: the rules tell it of the first direction, and the second
/// "undoes what rear wider does: ...". Empty where nothing is told.
std::string mechanism_of(const Change& change);

NotNow explain_refusal(const Refused& refused, const Situation& situation, System units,
                       double minutes_left);

}  // namespace kartwright
