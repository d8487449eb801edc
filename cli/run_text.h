// run_text.h - runs of a log as pages.

#pragma once

#include <string>
#include <vector>

#include "cli/page.h"
#include "engine/knowledge/pack.h"
#include "engine/records/run.h"

namespace kartwright::cli {

/// What came with a run and is not of it.
struct RunAsides {
  std::vector<NotUnderstood> not_understood = {};
  std::string lap_rule = {};  ///< in words; empty: not told
};

/// One run: when, the laps, what the driver said, what was changed before it, what came of it.
/// `setup` also lists the settings.
Page run_page(const Run& run, const Pack& pack, bool setup, const RunAsides& asides, Look look);
std::string run_text(const Run& run, const Pack& pack, bool setup, const RunAsides& asides,
                     Look look);

/// A line for each run; `all` is how many the log holds.
std::string runs_text(const std::vector<Run>& runs, const Pack& pack, std::size_t all, Look look);

/// "rear wider"
std::string move_phrase(const RunChange& change, const Pack& pack);

/// Whose idea a change was, with the reason that was given.
std::string idea_behind(const RunChange& change);

/// "rear wider, 1360 mm → 1370 mm"
std::string change_phrase(const RunChange& change, const Pack& pack);

}  // namespace kartwright::cli
