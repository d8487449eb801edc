// formats.h - in what forms each command can answer, said once: its help names them and its
// command line takes no other.

#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "cli/arguments.h"

namespace kartwright::cli {

/// The words of `--format` for a command, `text` first.
std::vector<std::string> formats_of(std::string_view command);

/// The format of a word that `formats_of` gave.
Format format_of_word(std::string_view word);

}  // namespace kartwright::cli
