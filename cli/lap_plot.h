// lap_plot.h - lap time against lap number, drawn in letters.

#pragma once

#include <string>
#include <vector>

#include "cli/page.h"
#include "engine/records/lap_comparison.h"

namespace kartwright::cli {

/// What stands for each group in the plot: the first letter of its name where these all differ and
/// are plain, else A, B, C and so on.
std::string letters_of(const std::vector<DrivenGroup>& groups);

/// Rows of a plot `width` columns wide, the slowest lap on top: each lap as the letter of its
/// group, `*` where two groups meet, the fit between them. What is off the scale stands at the edge
/// as `^` or `v`.
std::vector<std::string> lap_plot(const LapComparison& compared, const std::string& letters,
                                  std::size_t width, bool unicode);

}  // namespace kartwright::cli
