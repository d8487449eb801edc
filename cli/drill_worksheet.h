// drill_worksheet.h - tasks on paper: numbered, with room to write, and the answers behind a form
// feed. The same seed gives the same bytes.

#pragma once

#include <cstdint>
#include <string>

#include "cli/page.h"
#include "engine/knowledge/pack.h"

namespace kartwright::cli {

struct WorksheetPlan {
  std::uint64_t tasks = 1;
  std::uint64_t seed = 1;  ///< of the first; the others follow
  System units = System::metric;
};

/// Tasks of one level, or of all levels in turn where there is none. Throws InputError where a
/// level asks for what cannot be drawn.
std::string worksheet(const Pack& pack, const DrillLevel* level, const WorksheetPlan& plan,
                      Look look);

}  // namespace kartwright::cli
