// drill_record.h - what a trainee has finished, kept in the state folder: a file for each, a line
// of JSON for each task.

#pragma once

#include <string>
#include <vector>

#include "engine/document/diagnostic.h"
#include "engine/practice/progress.h"

namespace kartwright::cli {

/// A record as a line, without its end; `kartwright/drill-record/1`.
std::string record_line(const DrillRecord& record);

/// The records of a text of lines. A line that is none is told in `findings`, with its number, and
/// left out. `name` is the text's in messages.
std::vector<DrillRecord> read_records(const std::string& text, const std::string& name,
                                      Findings& findings);

/// `drill-NAME.jsonl`: small letters, digits and dashes as they are, any other byte as %XX, so that
/// two names are two files and none is another folder.
std::string record_file(const std::string& trainee);

}  // namespace kartwright::cli
