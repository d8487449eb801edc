// learned_picture.h - what a log says of each adjustment beside the rules, and how often what was
// promised came true.

#pragma once

#include "cli/sheet/drawing.h"
#include "engine/advice/learned.h"

namespace kartwright::cli {

/// How many adjustments a picture holds; the table has them all.
constexpr std::size_t kLearnedInPicture = 16;

/// On the axis that each adjustment is told by: the rule as a band, what was learned as a dot with
/// a line, one standard deviation either way. REQUIRES: there are adjustments.
Picture learned_picture(const Learned& learned, const Pack& pack);

/// True where there is anything to draw of it.
bool has_promises(const Calibration& all);

/// Intervals by what they promised and held, and what came of the complaints.
Picture promises_picture(const Calibration& all);

}  // namespace kartwright::cli
