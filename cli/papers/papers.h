// papers.h - what is written beside the program at build time from the description of its command
// line: the manual and the completions of three shells. Pure texts; papers.cc puts them into files.

#pragma once

#include <string>

#include "cli/command_pages.h"

namespace kartwright::cli {

/// What a manual page must know of the build.
struct Edition {
  std::string version = {};
  std::string data = {};  ///< folder in which rules and scenarios are installed
  std::string day = {};   ///< `2026-11-27`, or empty
};

/// A page of the manual in roff with the `man` macros: the program's, or that of one command.
std::string program_manual(const ProgramPage& program, const Edition& edition);
std::string command_manual(const CommandPage& command, const Edition& edition);

std::string bash_completion(const ProgramPage& program);
std::string fish_completion(const ProgramPage& program);
std::string zsh_completion(const ProgramPage& program);

/// A word of a shell in single quotes.
std::string shell_quoted(const std::string& text);

}  // namespace kartwright::cli
