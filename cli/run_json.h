// run_json.h - runs of a log as JSON: for whoever asks, and as the export that can be taken back.

#pragma once

#include <string>
#include <vector>

#include "engine/records/logbook.h"

namespace kartwright::cli {

/// One run, with its schema.
std::string run_json(const Run& run);
/// Runs in short, for `log list`.
std::string runs_json(const std::vector<Run>& runs);

/// The head of an export, a run on a line of its own, and the end: the whole is one JSON object.
std::string export_head();
std::string export_run(const Run& run, bool last);
std::string export_end(std::size_t runs);

}  // namespace kartwright::cli
