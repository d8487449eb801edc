// commands.h - one function per command: takes its options, writes the answer to stdout, returns
// the exit code.

#pragma once

#include "cli/arguments.h"
#include "engine/kart/kart.h"
#include "engine/knowledge/pack.h"

namespace kartwright::cli {

int run_advise(const AdviseOptions& options);
int run_weigh(const WeighOptions& options);
int run_check(const CheckOptions& options);
int run_explain(const ExplainOptions& options);
int run_start(const StartOptions& options);
int run_rules(const RulesOptions& options);
int run_whatif(const WhatIfOptions& options);
int run_compare(const CompareOptions& options);
int run_log(const LogOptions& options);
int run_apply(const ApplyOptions& options);
int run_learned(const LearnedOptions& options);
int run_plan(const PlanOptions& options);
int run_drill(const DrillOptions& options);

/// The kart of a file, or the typical one where there is no file. What is wrong goes to `findings`.
/// Throws InputError where the file cannot be read. The pack outlives it.
Kart load_kart(const std::string& path, const Pack& pack, Findings& findings);

/// Tells `findings` where a track state given by `--track` is none, with the nearest.
void check_track(const std::string& track, const Pack& pack, Findings& findings);

/// The built-in rules with the crew's own folder on top. Throws InputError.
Pack load_rules(const Common& common);

}  // namespace kartwright::cli
