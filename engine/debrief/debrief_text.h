// debrief_text.h - a debrief written as a file that read_debrief() takes back.

#pragma once

#include <string>

#include "engine/debrief/debrief.h"

namespace kartwright {

/// What a debrief file says beside the debrief.
struct DebriefHead {
  std::string title = {};
  std::string kart_path = {};  ///< absolute, or empty
};

/// Reports and facts as they are; what was not understood in words, to be heard anew. The words of
/// reports and of praise are not kept, nor are the corners that were named.
std::string debrief_text(const Debrief& debrief, const DebriefHead& head);

/// A report as `--report` takes it: `push@entry=2,late`.
std::string report_text(const Report& report);

}  // namespace kartwright
