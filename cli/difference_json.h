// difference_json.h - what differs between two rule packs as one JSON object, schema
// kartwright/rules-diff/1.

#pragma once

#include <string>

#include "engine/audit/difference.h"

namespace kartwright::cli {

/// Nothing rounded, one line and its end. A rank that is not offered is null.
std::string difference_json(const PackDifference& difference);

}  // namespace kartwright::cli
