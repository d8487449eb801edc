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

/// A figure before and after a change.
struct PaperRow {
  std::string label;
  double before = 0.0, after = 0.0;
  int decimals = 1;
  std::string note = {};  ///< below it: which wheels are off the ground
};
/// The loads of the wheels in the phases of a left turn, N.
std::vector<PaperRow> load_rows(const PaperClass& one);
/// What the crew can use of them; the unit stands in the label.
std::vector<PaperRow> figure_rows(const PaperClass& one);

/// A difference with its sign; none where it is printed as nothing.
std::string change_text(double change, int decimals);

/// "green: 0.68 g in corners of 15 m, 1.00 g at the most"
std::string corner_line(const std::string& track, const CornerClass& corner, const Pack& pack);

/// At how many g the inside rear lets go; a dash where it does not.
std::string release_text(const Figures& figures);

/// Beyond the class, off the ground; empty where neither.
std::string marks_of(const SweepRow& row);

}  // namespace kartwright::cli
