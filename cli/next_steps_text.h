// next_steps_text.h - what to do after the first change, by what the driver says then.

#pragma once

#include "cli/json_writer.h"
#include "cli/page.h"
#include "engine/advice/next_steps.h"

namespace kartwright::cli {

/// The section AFTER; without steps it says that no change leads.
void next_steps_text(const std::optional<NextSteps>& steps, Page& page);

/// The field `after`.
void write_next_steps(JsonWriter& out, const NextSteps& steps);

}  // namespace kartwright::cli
