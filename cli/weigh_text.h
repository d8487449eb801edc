// weigh_text.h - a weighing as a page for the crew.

#pragma once

#include <string>

#include "cli/page.h"
#include "engine/chassis/lifted_weighing.h"
#include "engine/chassis/weighing.h"

namespace kartwright::cli {

/// The verdict first, then what it rests on. The answer stands in the first 25 lines.
Page weigh_page(const WeighingAnswer& answer, Look look);
std::string weigh_text(const WeighingAnswer& answer, Look look);
Page height_page(const HeightAnswer& answer, Look look);
std::string height_text(const HeightAnswer& answer, Look look);

/// "front pair": a figure by its id, in short.
std::string_view short_name(std::string_view id);

/// "41 to 43 %": what is wanted of a figure; empty where nothing is.
std::string band_text(const JudgedFigure& figure, System units);

}  // namespace kartwright::cli
