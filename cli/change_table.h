// change_table.h - the ranked moves as a table, with what the track will want next.

#pragma once

#include <string>

#include "cli/page.h"
#include "engine/advice/advice.h"

namespace kartwright::cli {

/// The section CHANGE. `all` shows every move, also those that do not pay for their minutes.
void change_table(const Advice& advice, bool all, Page& page);

/// How many moves it has: none of what does not pay, nor any where the kart is better left alone,
/// unless everything is asked for.
std::size_t changes_shown(const Advice& advice, bool all);

/// `1360 → 1370 mm`: the unit once where both ends have the same.
std::string from_to(const std::string& from, const std::string& to);

/// A move in the crew's words: "rear wider".
const std::string& phrase_of(const Change& change);

}  // namespace kartwright::cli
