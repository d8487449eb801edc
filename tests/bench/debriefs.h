// debriefs.h - debriefs by the line, made up from a seed.

#pragma once

#include <string>

namespace kartwright {

enum class SaidAs { reports, words };

/// So many lines, each a track and one to three reports, or a sentence.
std::string debrief_lines(int count, SaidAs said_as);

}  // namespace kartwright
