// compare_json.h - did the change help, as JSON.

#pragma once

#include <string>

#include "engine/records/lap_comparison.h"

namespace kartwright::cli {

/// Schema `kartwright/compare/1`; seconds a lap, against the first group.
std::string compare_json(const LapComparison& compared);

}  // namespace kartwright::cli
