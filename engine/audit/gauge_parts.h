// gauge_parts.h - the measured checks of a pack as parts, for laying two packs beside each other.

#pragma once

#include <vector>

#include "engine/audit/pack_parts.h"

namespace kartwright {

/// A part for each gauge, its readings, choices and figures as fields, and one for each verdict.
std::vector<PackPart> gauge_parts(const Pack& pack);

}  // namespace kartwright
