// reading_text.h - the belief in a chief's words: which end, which phase, how sure, and what the
// complaint is not.

#pragma once

#include <string>

#include "engine/advice/advice.h"

namespace kartwright {

/// The READING of an advice whose verdict, belief, readings and checks are set.
std::string reading_text(const Advice& advice, const Pack& pack);

/// "too much rear grip in the middle"; empty where the axis is within half a notch of the optimum.
std::string axis_in_words(const Axis& axis, double mean);

}  // namespace kartwright
