// advice_json.h - an advice as one JSON object, schema kartwright/advice/1.

#pragma once

#include <string>

#include "cli/beside.h"
#include "engine/advice/advice.h"

namespace kartwright::cli {

/// SI and notches, nothing rounded, one line and its end. `brief` leaves working and ask out.
std::string advice_json(const Advice& advice, const Pack& pack, bool brief,
                        const Beside& beside = {});

}  // namespace kartwright::cli
