// scenario_folder.h - the debriefs below a folder with their karts, read as documents that any rule
// pack can then be asked about.

#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/document/document.h"

namespace kartwright {

/// A debrief, and the kart file it points at. Where one of the two cannot be read at all, `broken`
/// says why and there is nothing else.
struct ScenarioFile {
  std::string path;
  Document debrief = {};
  std::optional<Document> kart = {};
  std::vector<Diagnostic> broken = {};
};

/// Every debrief among the *.yaml below a folder, by path. A debrief is a file that says what was
/// reported or heard, of which track, or what a good answer holds; kart files are left out. A file
/// that is no YAML is kept with what is wrong with it. Throws InputError where the folder cannot be
/// read.
std::vector<ScenarioFile> read_scenario_folder(const std::string& folder);

}  // namespace kartwright
