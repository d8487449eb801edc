// change_table.h - the ranked moves as a table, with what the track will want next.

#pragma once

#include <string>

#include "cli/page.h"
#include "engine/advice/advice.h"

namespace kartwright::cli {

/// The section CHANGE. `all` shows every move, also those that do not pay for their minutes.
void change_table(const Advice& advice, bool all, Page& page);

/// A move in the crew's words: "rear wider".
const std::string& phrase_of(const Change& change);

}  // namespace kartwright::cli
