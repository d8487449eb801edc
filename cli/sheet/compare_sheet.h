// compare_sheet.h - did the change help, as a sheet: the laps with the fitted line, and the effect
// of each group.

#pragma once

#include <string>
#include <string_view>

#include "engine/records/lap_comparison.h"

namespace kartwright::cli {

/// `whose` is the name of the kart, or of the file the laps are from.
std::string compare_sheet(const LapComparison& compared, std::string_view whose);

}  // namespace kartwright::cli
