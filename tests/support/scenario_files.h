// scenario_files.h - where the project's scenarios lie.

#pragma once

#include <string>
#include <vector>

namespace kartwright {

/// Every debrief under scenarios/ that says what a good answer holds (it has an `expect` key of its
/// own), as paths, sorted. Kart files have none and are left out.
std::vector<std::string> scenario_files();

/// "harbour/heat-2" for a path under scenarios/.
std::string scenario_name(const std::string& path);

}  // namespace kartwright
