// rules_text.h - what the command `rules` found, as text.

#pragma once

#include <string>
#include <vector>

#include "cli/page.h"
#include "engine/audit/audit.h"
#include "engine/audit/rule_page.h"

namespace kartwright::cli {

/// Each finding with its place and its help, then one line of how many. `paths` says where the
/// witness of each finding was written, empty where it was not.
std::string check_text(const Audit& audit, const std::vector<std::string>& paths, bool errors_only,
                       Look look);

/// A line a rule, or two where the page is narrow.
std::string list_text(const std::vector<RuleLine>& lines, Look look);

std::string show_text(const RulePage& page, Look look);

}  // namespace kartwright::cli
