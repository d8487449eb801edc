// arguments_plan.h - the options of the plan of a day.

#pragma once

#include "cli/arguments.h"

namespace CLI {
class App;
}

namespace kartwright::cli {

/// Declares the command, but for what every command takes.
::CLI::App* add_plan(::CLI::App& app, PlanOptions& options, const char* group);

}  // namespace kartwright::cli
