// rules_json.h - what the command `rules` found, as JSON.

#pragma once

#include <string>
#include <vector>

#include "engine/audit/audit.h"
#include "engine/audit/rule_page.h"

namespace kartwright::cli {

/// Schema kartwright/rules-check/1; `paths` as in check_text.
std::string check_json(const Audit& audit, const std::vector<std::string>& paths);

/// Schema kartwright/rules-list/1.
std::string list_json(const std::vector<RuleLine>& lines);

/// Schema kartwright/rules-show/1.
std::string show_json(const RulePage& page);

}  // namespace kartwright::cli
