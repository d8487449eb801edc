// gauge.h - how much room an adjustment has: where it stands, where it would go, what is left.

#pragma once

#include <cstddef>
#include <string>

#include "engine/decision/rank.h"

namespace kartwright::cli {

/// `···○··●··◇··` over the places the class allows, left end to right end in ascending value: ○
/// now, ● proposed, ◇ where the forecast would have it, if elsewhere. REQUIRES: width > 1.
std::string gauge(const Candidate& candidate, std::size_t width);

}  // namespace kartwright::cli
