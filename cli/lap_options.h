// lap_options.h - the options of every command that reads a lap file.

#pragma once

#include <string>
#include <vector>

#include "engine/records/lap_file.h"

namespace kartwright::cli {

/// A value of an option that cannot be used.
void refuse_option(const char* option, const std::string& value, std::string message,
                   std::string help, Findings& findings);

/// What `--only COLUMN=VALUE` and `--column time=NAME` say; what is wrong goes to `findings`.
LapsWanted laps_wanted(const std::string& only, const std::vector<std::string>& columns,
                       bool needs_group, Findings& findings);

/// The laps of a file, `-` is standard input. Throws InputError where it cannot be read.
LapFile read_laps(const std::string& path, const LapsWanted& wanted, Findings& findings);

}  // namespace kartwright::cli
