// check_json.h - measured checks as one JSON object each: schemas kartwright/check/1,
// kartwright/check-how/1 and kartwright/check-list/1.

#pragma once

#include <string>

#include "engine/advice/gauge_check.h"

namespace kartwright::cli {

std::string gauge_list_json(const Pack& pack);
std::string gauge_how_json(const Gauge& gauge, const Pack& pack);
/// Amounts in SI, nothing rounded; `verdict` is null where the pack has none for what was given.
std::string gauge_check_json(const GaugeCheck& check);

}  // namespace kartwright::cli
