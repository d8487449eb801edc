// explain_change.h - a ranked move with its reasons, and a refused one with its single reason.

#pragma once

#include "engine/advice/advice.h"
#include "engine/inference/situation.h"

namespace kartwright {

Change explain_change(const Candidate& candidate, const Effect& effect, const Advice& advice,
                      const Situation& situation, System units);

NotNow explain_refusal(const Refused& refused, const Situation& situation, System units,
                       double minutes_left);

}  // namespace kartwright
