// help_text.h - the pages behind --help, from the command line's description, wrapped to the page.

#pragma once

#include <string>

#include "cli/command_pages.h"
#include "cli/page.h"

namespace kartwright::cli {

/// The commands, group by group.
std::string program_help_text(const ProgramPage& program, Look look);

/// One command: its options, examples that can be copied however narrow the page is, and notes.
std::string command_help_text(const CommandPage& command, Look look);

/// A shell command in lines of at most `width` columns, broken where the shell lets it be: after a
/// word, or in double quotes at a space, each time with a backslash. What follows in the next line
/// begins with `indent` spaces. A word that is longer stays whole.
std::vector<std::string> wrap_command(const std::string& command, std::size_t width,
                                      std::size_t indent);

}  // namespace kartwright::cli
