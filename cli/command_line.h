// command_line.h - every command and option of the program, as the option library holds them.
//
// This is the one description of the command line: the parser reads by it, and the help, the manual
// and the completions are written from it (command_pages.h).

#pragma once

#include <memory>
#include <string>
#include <string_view>

#include "cli/arguments.h"

namespace CLI {  // NOLINT(readability-identifier-naming): the library's
class App;
}

namespace kartwright::cli {

/// Raw words of the options that have a small vocabulary; checked after parsing, so that a typo
/// gets our answer.
struct SharedWords {
  std::string format = "text", units, minutes, hours, track, together, draws, seed, threads;
  bool verbose = false, quiet = false;
};

/// What the parser fills in: the options of each command, and the words that they share.
struct CommandLine {
  SharedWords words = {};
  AdviseOptions advise = {};
  WeighOptions weigh = {};
  CheckOptions check = {};
  ExplainOptions explain = {};
  StartOptions start = {};
  RulesOptions rules = {};
  WhatIfOptions whatif = {};
  CompareOptions compare = {};
  LogOptions log = {};
  ApplyOptions apply = {};
  LearnedOptions learned = {};
  PlanOptions plan = {};
  DrillOptions drill = {};
};

/// Every command with its options, bound to `line`, which outlives it; where `called` names one,
/// that one alone, since declaring all of them takes as long as an answer.
std::unique_ptr<::CLI::App> build_app(CommandLine& line, std::string_view called = {});

}  // namespace kartwright::cli
