// commands.h - one function per command: takes its options, writes the answer to stdout, returns
// the exit code.

#pragma once

#include "cli/arguments.h"
#include "engine/knowledge/pack.h"

namespace kartwright::cli {

int run_advise(const AdviseOptions& options);
int run_check(const CheckOptions& options);
int run_explain(const ExplainOptions& options);
int run_start(const StartOptions& options);
int run_rules(const RulesOptions& options);

/// The built-in rules with the crew's own folder on top. Throws InputError.
Pack load_rules(const Common& common);

}  // namespace kartwright::cli
