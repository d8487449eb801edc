// joining.h - lets thoughts that belong together find each other across "and", "or", commas and
// full stops.

#pragma once

#include <vector>

#include "engine/debrief/thoughts.h"

namespace kartwright {

/// Denials run on through lists; symptoms joined by "and" share a phase; phases, amounts and doubts
/// that stand alone join the nearest symptom, or praise, or become leftovers. Linear in the
/// thoughts.
void join_thoughts(std::vector<Thought>& thoughts);

}  // namespace kartwright
