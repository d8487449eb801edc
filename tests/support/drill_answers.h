// drill_answers.h - answers to a drill that a test plays: the opposite of the best, and any other.

#pragma once

#include <vector>

#include "engine/practice/marking.h"

namespace kartwright {

/// The first place the other way where the best is a change and there is one; another change where
/// there is none, or where leaving alone is best; leaving alone, so that the kart goes out as it
/// is, where the best is a check.
DrillChoice opposite_of_best(const Marking& marking);

/// Everything that can be answered: every change that can be made, leaving alone, every check.
std::vector<DrillChoice> every_choice(const Marking& marking);

}  // namespace kartwright
