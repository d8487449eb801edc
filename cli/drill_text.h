// drill_text.h - tasks, results, progress and worksheets of a drill as pages of text.

#pragma once

#include <string>
#include <vector>

#include "cli/page.h"
#include "engine/practice/result.h"

namespace kartwright::cli {

/// A task as the trainee reads it: nothing of what is right. `title` stands on top.
std::string task_text(const Marking& marking, const std::string& title, Look look);

std::string result_text(const DrillResult& result, Look look);

std::string progress_text(const std::string& trainee, const Progress& progress, Look look);

/// The answer to a task on a worksheet.
std::string solution_text(const Marking& marking, int number, Look look);

/// The adjustments that a trainee's list has, by id, in its order: those of the level that the kart
/// has, or all that the kart has.
std::vector<std::string> offers_of(const Marking& marking);

/// "drill 3: one symptom", or with the title of a case that has one.
std::string title_of(const DrillTask& task, const Pack& pack);

}  // namespace kartwright::cli
