// drill_json.h - sessions and progress of a drill as JSON, `kartwright/drill/1`.

#pragma once

#include <string>
#include <vector>

#include "engine/practice/result.h"

namespace kartwright::cli {

/// A finished task with what it was.
struct FinishedDrill {
  DrillResult result;
  std::string title, said, track;
};

/// The whole session: `drills` in order, each with its answers, marks, outcome and reasons, and the
/// mean of the marks.
std::string drill_json(const std::vector<FinishedDrill>& drills);

/// `kartwright/drill-progress/1`.
std::string progress_json(const std::string& trainee, const Progress& progress);

}  // namespace kartwright::cli
