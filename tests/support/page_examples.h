// page_examples.h - runs the examples of the pages of diagnostic codes.

#pragma once

#include <string_view>
#include <vector>

#include "engine/document/code_pages.h"
#include "engine/document/diagnostic.h"

namespace kartwright {

/// Everything found in an example, read as its page says, over the built-in rules. Rules are taken
/// as far as the prior and the settled facts of the typical kart.
/// REQUIRES: `shown` is neither Shown::apart nor Shown::command_line.
std::vector<Diagnostic> found_in_example(Shown shown, std::string_view text);

}  // namespace kartwright
