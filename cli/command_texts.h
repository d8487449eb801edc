// command_texts.h - what the manual says beyond the options: what a command is for, in paragraphs;
// how the program ends, what it reads from its surroundings and which files it keeps.

#pragma once

#include <array>
#include <string>
#include <string_view>
#include <vector>

namespace kartwright::cli {

// The groups of commands, in the order of a crew's day.
inline constexpr const char* kPits = "in the pits";
inline constexpr const char* kBench = "at the bench";
inline constexpr const char* kLearn = "to learn";
inline constexpr const char* kKeep = "to keep";
inline constexpr std::array<std::string_view, 4> kGroups{kPits, kBench, kLearn, kKeep};

/// Paragraphs on what a command does and what it does not; none where there is no such command.
std::vector<std::string> about_command(std::string_view command);

/// Paragraphs on the program as a whole.
std::vector<std::string> about_program();

struct Told {
  std::string name;  ///< an exit code, a variable, a file
  std::string text;
};

std::vector<Told> exit_codes();
std::vector<Told> variables_read();
std::vector<Told> files_kept();
std::vector<Told> files_installed();  ///< below the folder of the program's data

}  // namespace kartwright::cli
