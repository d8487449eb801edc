// learned: what this kart's own records say about each adjustment.

#include <cstdio>

#include "cli/commands.h"

namespace kartwright::cli {

int run_learned(const LearnedOptions&) { return kSuccess; }

}  // namespace kartwright::cli
