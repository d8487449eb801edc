// whatif_json.h - a change made on paper, as JSON.

#pragma once

#include <string>
#include <vector>

#include "engine/advice/whatif.h"

namespace kartwright::cli {

/// Schema `kartwright/whatif/1`; loads in newtons for a left turn, numbers as they are.
std::string whatif_json(const WhatIf& what, const Kart& kart, const Pack& pack, System units);

/// Schema `kartwright/sweep/1`.
std::string sweep_json(const std::vector<Sweep>& sweeps, const Kart& kart, System units);

}  // namespace kartwright::cli
