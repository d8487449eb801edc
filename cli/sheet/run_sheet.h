// run_sheet.h - one run of a log as a sheet: its laps drawn, what was changed before it and the
// setup as tables.

#pragma once

#include <string>

#include "engine/knowledge/pack.h"
#include "engine/records/run.h"

namespace kartwright::cli {

std::string run_sheet(const Run& run, const Pack& pack);

}  // namespace kartwright::cli
