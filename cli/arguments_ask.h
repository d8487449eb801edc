// arguments_ask.h - the option that has the driver asked before the advice is given.

#pragma once

#include <string>
#include <utility>

#include "cli/arguments.h"

namespace CLI {
class App;
}

namespace kartwright::cli {

/// Declares `--ask`.
void add_ask(::CLI::App& advise, AdviseOptions& options);

/// What is wrong with how it is used, in words, and what helps; empty where nothing is.
std::pair<std::string, std::string> misuse_of(const AdviseOptions& options);

}  // namespace kartwright::cli
