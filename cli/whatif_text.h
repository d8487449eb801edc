// whatif_text.h - a change made on paper, as a page of text.

#pragma once

#include <string>
#include <vector>

#include "cli/page.h"
#include "engine/advice/whatif.h"

namespace kartwright::cli {

/// The loads before and after, what they mean, and what crews report of the same change.
Page whatif_page(const WhatIf& what, const Kart& kart, const Pack& pack, System units, Look look);
std::string whatif_text(const WhatIf& what, const Kart& kart, const Pack& pack, System units,
                        Look look);

/// A row for each place, with the load on the outside rear drawn.
Page sweep_page(const std::vector<Sweep>& sweeps, const Kart& kart, const Pack& pack, System units,
                Look look);
std::string sweep_text(const std::vector<Sweep>& sweeps, const Kart& kart, const Pack& pack,
                       System units, Look look);

}  // namespace kartwright::cli
