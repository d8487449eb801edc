// plan_text.h - the plan of a day as a page to hang in the tent.

#pragma once

#include <string>

#include "cli/page.h"
#include "engine/advice/day.h"

namespace kartwright::cli {

std::string plan_text(const Day& day, Look look);

}  // namespace kartwright::cli
