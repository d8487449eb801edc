// taking.h - a run of somebody's export into a log: held against what the log has of it already.

#pragma once

#include <optional>

#include "engine/document/document.h"
#include "engine/records/logbook.h"

namespace kartwright {

/// The same kart, moment, fields and lists; their numbers in a log play no part.
bool same_run(const Run& a, const Run& b);

enum class TakenAs {
  added,  ///< it is in the log now
  there,  ///< the log had it, as it is or driven since
};

/// Puts a run into a log that does not have it, or has it as made ready only. A run that the log
/// has otherwise is Code::run_differs at its place in `document`, and nothing is given. Throws
/// InputError where the log cannot be read or written.
std::optional<TakenAs> take_run(Logbook& log, Run run, const Document& document,
                                Findings& findings);

}  // namespace kartwright
