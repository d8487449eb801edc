// batch.h - advice by the line: one debrief as a JSON object on every line in, one answer on every
// line out.

#pragma once

#include "cli/arguments.h"
#include "engine/knowledge/pack.h"

namespace kartwright::cli {

/// Reads options.batch, a file or `-`, and writes to stdout in the order of the lines. A line that
/// cannot be answered is answered by an object with `errors` in its place. Memory does not grow
/// with the number of lines. Returns kSuccess, or kBadData where some line had errors. Throws
/// InputError where the file, or the kart for lines without one, cannot be read.
int run_batch(const AdviseOptions& options, const Pack& pack);

}  // namespace kartwright::cli
