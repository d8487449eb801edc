// plan_json.h - the plan of a day, schema kartwright/plan/1.

#pragma once

#include <string>

#include "engine/advice/day.h"

namespace kartwright::cli {

/// One line. Shares are of the handling error that the untouched kart has on the mean of the day.
std::string plan_json(const Day& day);

}  // namespace kartwright::cli
