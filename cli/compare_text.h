// compare_text.h - did the change help, as a page of text.

#pragma once

#include <string>

#include "cli/page.h"
#include "engine/records/lap_comparison.h"

namespace kartwright::cli {

/// The verdict in a sentence, the effect of each group, the drift, the laps drawn, and what to
/// drive next.
Page compare_page(const LapComparison& compared, Look look);
std::string compare_text(const LapComparison& compared, Look look);

}  // namespace kartwright::cli
