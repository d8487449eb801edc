// sentence.h - reads a driver's own words into reports. Linear in the words; nothing is dropped in
// silence.
//
// The vocabulary is the rule pack's. Words are cut into clauses, known phrases are found longest
// first, and within a clause symptoms take up the phases, amounts, doubts and denials that stand
// with them. Whatever carries meaning and found no place is returned as not understood.

#pragma once

#include <string_view>

#include "engine/debrief/debrief.h"
#include "engine/knowledge/pack.h"

namespace kartwright {

/// Never throws. `said` may be any UTF-8 text.
Heard hear(std::string_view said, const Pack& pack);

}  // namespace kartwright
