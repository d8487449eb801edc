// whatif_sheet.h - a change made on paper, as a sheet: the loads and the line to the outside rear
// tyre before and after it, for each class of corner.

#pragma once

#include <string>
#include <vector>

#include "engine/advice/whatif.h"

namespace kartwright::cli {

std::string whatif_sheet(const WhatIf& what, const Kart& kart, const Pack& pack, System units);

/// The loads of the rear over the places of the setting that is swept.
std::string sweep_sheet(const std::vector<Sweep>& sweeps, const Kart& kart, const Pack& pack,
                        System units);

}  // namespace kartwright::cli
