// run_picture.h - the laps of one run against their number, those that do not count among them.

#pragma once

#include "cli/sheet/drawing.h"
#include "engine/records/run.h"

namespace kartwright::cli {

/// Laps that count are dots on a line; the others have signs of their own, told below. The scale is
/// that of the laps that count, where there are any. Of many laps, those that would lie on one
/// another are drawn once. REQUIRES: the run has laps.
Picture run_picture(const Run& run);

}  // namespace kartwright::cli
