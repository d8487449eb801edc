// next_wanted.h - the change that the track will want once it has moved on by itself.

#pragma once

#include <optional>

#include "engine/advice/advice.h"
#include "engine/inference/situation.h"

namespace kartwright {

/// The move that leads at the next stage of the forecast, with what is left of the stages behind it
/// still ahead, from the settings as they are, or as they will be with `made` done. Nothing without
/// a forecast, or where no move would be worth its while then. Uses the effects of `advice`; the
/// crew is taken to have the usual break for it.
std::optional<NextWanted> next_wanted(const Situation& situation, const Stakes& stakes,
                                      const Advice& advice, const Candidate* made);

}  // namespace kartwright
