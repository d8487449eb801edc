// together.h - two or three moves made in one break, ready to be read out.

#pragma once

#include <vector>

#include "engine/advice/advice.h"
#include "engine/decision/bundles.h"

namespace kartwright {

/// The best bundles worth telling: the best pair where the best move alone leaves more than 40 % of
/// the handling error, and up to `most` moves where more than two are wished for. One change at a
/// time is what makes records worth keeping, so nothing where one move does it. Uses the ways and
/// effects of `advice`, whose job classes are `jobs`.
std::vector<Together> bundles_of(const Stakes& stakes, const Ranking& ranking, const Advice& advice,
                                 const JobClasses& jobs, std::size_t most);

}  // namespace kartwright
