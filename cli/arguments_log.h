// arguments_log.h - the options of the commands that keep records.

#pragma once

#include "cli/arguments.h"

namespace CLI {
class App;
}

namespace kartwright::cli {

/// Each declares a command; the words of `--format`, `--track` and the like go where the others'
/// go.
void add_log(::CLI::App& app, LogOptions& options, const char* group);
void add_compare(::CLI::App& app, CompareOptions& options, const char* group);
void add_apply(::CLI::App& app, ApplyOptions& options, const char* group);
void add_learned(::CLI::App& app, LearnedOptions& options, const char* group);

/// What is wrong with how they are used together, in words; empty where nothing is. The second is
/// what helps.
std::pair<std::string, std::string> misuse_of(const LogOptions& options);
std::pair<std::string, std::string> misuse_of(const ApplyOptions& options);

}  // namespace kartwright::cli
