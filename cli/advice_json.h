// advice_json.h - an advice as one JSON object, schema kartwright/advice/1.

#pragma once

#include <string>
#include <vector>

#include "engine/advice/advice.h"
#include "engine/document/diagnostic.h"

namespace kartwright::cli {

/// SI and notches, nothing rounded, one line and its end. `brief` leaves working and ask out.
/// `warnings` are those of the input, where the answer has to carry them.
std::string advice_json(const Advice& advice, const Pack& pack, bool brief,
                        const std::vector<Diagnostic>& warnings = {});

}  // namespace kartwright::cli
