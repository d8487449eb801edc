// papers.h - what the help, the manual and the completions of shells name, read back from what is
// shown and written.

#pragma once

#include <map>
#include <set>
#include <string>
#include <vector>

#include "tests/cli/kartwright.h"

namespace kartwright {

/// The names of options by command, as `-q` and `--quiet`; those of the program itself under "".
using OptionNames = std::map<std::string, std::set<std::string>>;

/// The commands that `kartwright --help` lists.
std::vector<std::string> commands_of_help();

/// A file that was written beside the program: `man/man1/kartwright.1`.
std::string paper(const std::string& name);
std::string path_of_paper(const std::string& name);

OptionNames options_in_help();
OptionNames options_in_the_manual();
OptionNames options_in_fish();
OptionNames options_in_zsh();

/// The options of a command that take a value, as help shows it.
std::set<std::string> options_with_values(const std::string& command);

/// The examples of a page of the manual, each in one line.
std::vector<std::string> examples_of_manual(const std::string& page);

/// Text of a page of the manual in plain letters.
std::string without_roff(std::string text);

}  // namespace kartwright
