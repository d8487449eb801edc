// run_record.h - a run out of a log's export, with every mistake named by its place.

#pragma once

#include <optional>

#include "engine/document/document.h"
#include "engine/records/run.h"

namespace kartwright {

/// Reads a run from a map with `kart`, `at`, the fields of run_fields.h, and its lists under their
/// names with an `s`: `laps`, `changes`. Every mistake goes to `findings`; nothing is given where
/// there is one.
std::optional<Run> read_run(const Document& document, Findings& findings);

/// What is wrong with a run as such: laps numbered twice or missing, a change that its setup does
/// not show, a text that is not there or could steer a terminal.
/// For a log that somebody else wrote. Empty where nothing.
std::vector<std::string> faults_of(const Run& run);

}  // namespace kartwright
