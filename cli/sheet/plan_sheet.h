// plan_sheet.h - the plan of a day as a sheet to hang in the tent: the day drawn, and as a table.

#pragma once

#include <string>

#include "engine/advice/day.h"

namespace kartwright::cli {

/// `debrief` as in plan_text.
std::string plan_sheet(const Day& day, const Debrief& debrief, const Pack& pack);

}  // namespace kartwright::cli
