// difference_text.h - what differs between two rule packs, as a page for the terminal.

#pragma once

#include <string>

#include "cli/page.h"
#include "engine/audit/difference.h"

namespace kartwright::cli {

/// The rules that differ, then the scenarios whose answer changes, then those that could not be
/// asked. All of it: nothing is cut off but the lines of a table at the width.
std::string difference_text(const PackDifference& difference, Look look);

}  // namespace kartwright::cli
