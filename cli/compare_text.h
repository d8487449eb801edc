// compare_text.h - did the change help, as a page of text.

#pragma once

#include <string>

#include "cli/page.h"
#include "engine/records/lap_comparison.h"

namespace kartwright::cli {

/// Whether the laps are drawn on the page, in letters, or stand in a picture beside it.
enum class LapsDrawn { in_letters, elsewhere };

/// The verdict in a sentence, the effect of each group, the drift, the laps drawn, and what to
/// drive next.
Page compare_page(const LapComparison& compared, Look look,
                  LapsDrawn drawn = LapsDrawn::in_letters);
std::string compare_text(const LapComparison& compared, Look look);

}  // namespace kartwright::cli
