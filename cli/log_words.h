// log_words.h - what the options of `log add` say, as a run. Everything wrong is found at once.

#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "cli/arguments.h"
#include "engine/kart/kart.h"
#include "engine/knowledge/pack.h"
#include "engine/records/run.h"

namespace kartwright::cli {

/// Lap times parted by blanks or semicolons: `31.42 31.38 1:02.417`, numbered from 1.
std::vector<RunLap> read_lap_words(std::string_view text, Findings& findings);

/// `12 C`, `12.5°C`, `54 F`: degrees Celsius.
std::optional<double> read_temperature(const std::string& option, const std::string& text,
                                       Findings& findings);

/// The run that the options describe, its laps flagged by the rule and by the crew. What was heard
/// and came to nothing goes to `not_understood`.
Run run_of(const LogOptions& options, const Pack& pack, std::vector<NotUnderstood>& not_understood,
           Findings& findings);

/// What `--flag-over` says, or the share of the rules; with neither no lap is slow.
double slow_share(const std::string& text, const Pack& pack, Findings& findings);

/// The kart that `--kart` means: the name in a kart file, or where there is no such file the word
/// itself, a name in a log. Empty for empty.
std::string kart_named(const std::string& word, const Pack& pack);

/// This moment by the clock of the machine.
std::string moment_now();
/// What `--at` says, or this moment.
std::string moment_of(const std::string& at, Findings& findings);

}  // namespace kartwright::cli
