// check_text.h - measured checks as pages for the terminal: all of them, how one is made, and the
// verdict on one that was.

#pragma once

#include <string>

#include "cli/page.h"
#include "engine/advice/gauge_check.h"

namespace kartwright::cli {

std::string gauge_list_text(const Pack& pack, Look look);
std::string gauge_how_text(const Gauge& gauge, const Pack& pack, System units, Look look);
/// The verdict first, then what it means, what to do, what to tell `advise`, and the cautions.
std::string gauge_check_text(const GaugeCheck& check, const Pack& pack, System units, Look look);

}  // namespace kartwright::cli
