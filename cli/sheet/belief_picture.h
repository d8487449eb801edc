// belief_picture.h - what is believed of the kart's handling before and after the debrief, axis by
// axis, and which report moved what.

#pragma once

#include "cli/sheet/drawing.h"
#include "engine/advice/advice.h"

namespace kartwright::cli {

/// Each axis with its mean and one standard deviation either way.
Picture belief_picture(const Advice& advice, const Pack& pack);

/// A row for each reading that moved an axis by a twentieth of a notch or more.
Markup belief_table(const Advice& advice, const Pack& pack);

}  // namespace kartwright::cli
