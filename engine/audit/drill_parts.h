// drill_parts.h - what a trainee practises on, as parts of a pack.

#pragma once

#include <vector>

#include "engine/audit/pack_parts.h"

namespace kartwright {

/// Levels, cases, words and ends, in that order.
std::vector<PackPart> drill_parts(const Pack& pack);

}  // namespace kartwright
