// kartwright - a second opinion on a racing kart's setup.

#include <csignal>
#include <cstdio>
#include <new>

#include <fcntl.h>
#include <fmt/format.h>
#include <spdlog/sinks/stdout_sinks.h>
#include <spdlog/spdlog.h>
#include <unistd.h>

#include "cli/arguments.h"
#include "cli/commands.h"
#include "cli/diagnostics.h"
#include "cli/tell.h"

namespace kartwright::cli {
namespace {

/// Runs the chosen command; anything that went wrong becomes a message and an exit code.
template <typename Options>
int guarded(int (*command)(const Options&), const Options& options) {
  try {
    if (common_of(options).loudness > 0) spdlog::set_level(spdlog::level::info);
    return command(options);
  } catch (const InputError& error) {
    show_diagnostics(error.found(), common_of(options).loudness >= 0);
    return exit_code_for(error.found());
  } catch (const std::bad_alloc&) {
    tell("kartwright: there is not enough memory for this\n");
    return kInputOutput;
  } catch (const std::exception& error) {
    tell("kartwright: this is a fault of the program: {}\n", error.what());
    return kInternal;
  }
}

/// A file opened later must not become standard output, or the answer would be written into it.
/// What is closed stays of no use: reading or writing it fails.
void keep_streams_apart() {
  for (const int stream : {STDIN_FILENO, STDOUT_FILENO, STDERR_FILENO}) {
    if (fcntl(stream, F_GETFD) >= 0) continue;
    open("/dev/null", stream == STDIN_FILENO ? O_WRONLY : O_RDONLY);  // takes the lowest number
  }
}

struct Runner {
  int operator()(const Answered& answered) const { return answered.exit; }
  int operator()(const AdviseOptions& options) const { return guarded(run_advise, options); }
  int operator()(const WeighOptions& options) const { return guarded(run_weigh, options); }
  int operator()(const CheckOptions& options) const { return guarded(run_check, options); }
  int operator()(const ExplainOptions& options) const { return guarded(run_explain, options); }
  int operator()(const StartOptions& options) const { return guarded(run_start, options); }
  int operator()(const RulesOptions& options) const { return guarded(run_rules, options); }
  int operator()(const WhatIfOptions& options) const { return guarded(run_whatif, options); }
  int operator()(const CompareOptions& options) const { return guarded(run_compare, options); }
  int operator()(const LogOptions& options) const { return guarded(run_log, options); }
  int operator()(const ApplyOptions& options) const { return guarded(run_apply, options); }
  int operator()(const LearnedOptions& options) const { return guarded(run_learned, options); }
  int operator()(const PlanOptions& options) const { return guarded(run_plan, options); }
  int operator()(const DrillOptions& options) const { return guarded(run_drill, options); }
};

/// Whether a command that went well has written to a file.
struct HasWritten {
  template <typename Options>
  bool operator()(const Options& /*reads*/) const {
    return false;
  }
  bool operator()(const ApplyOptions& options) const { return !options.dry_run; }
  bool operator()(const WeighOptions& options) const { return options.save; }
  bool operator()(const CompareOptions& options) const { return options.save; }
  bool operator()(const LogOptions& options) const {
    return options.words.front() == "add" || options.words.front() == "import";
  }
};

}  // namespace
}  // namespace kartwright::cli

int main(int argc, char** argv) {
  kartwright::cli::keep_streams_apart();
  // A file that may not grow any more is told of as a full disk is.
  std::signal(SIGXFSZ, SIG_IGN);
  spdlog::set_default_logger(spdlog::stderr_logger_st("kartwright"));
  spdlog::set_pattern("%n: %v");
  spdlog::set_level(spdlog::level::warn);
  const auto asked = kartwright::cli::parse_arguments(argc, argv);
  const int exit = std::visit(kartwright::cli::Runner{}, asked);
  const bool written = std::fflush(stdout) == 0 && std::ferror(stdout) == 0;
  if (written) return exit;
  const bool done =
      exit == kartwright::cli::kSuccess && std::visit(kartwright::cli::HasWritten{}, asked);
  kartwright::cli::tell("kartwright: the answer could not be written{}\n",
                        done ? ", but what it tells of is done" : "");
  return kartwright::cli::kInputOutput;
}
