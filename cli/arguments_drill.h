// arguments_drill.h - the options of the drill.

#pragma once

#include <utility>

#include "cli/arguments.h"

namespace CLI {
class App;
}

namespace kartwright::cli {

/// Declares the command, but for what every command takes.
::CLI::App* add_drill(::CLI::App& app, DrillOptions& options, const char* group);

/// What is wrong with how they are used together, in words; empty where nothing is. The second is
/// what helps.
std::pair<std::string, std::string> misuse_of(const DrillOptions& options);

}  // namespace kartwright::cli
