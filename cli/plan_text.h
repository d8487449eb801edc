// plan_text.h - the plan of a day as a page to hang in the tent.

#pragma once

#include <string>
#include <vector>

#include "cli/page.h"
#include "engine/advice/day.h"

namespace kartwright::cli {

/// `debrief` is what was heard, of which it is told before all else.
Page plan_page(const Day& day, const Debrief& debrief, const Pack& pack, Look look);
/// The movers' settings at a stage as the table of the day tells them: a dot where one stays.
std::vector<std::string> settings_told(const Day& day, std::size_t stage);

std::string plan_text(const Day& day, const Debrief& debrief, const Pack& pack, Look look);

}  // namespace kartwright::cli
