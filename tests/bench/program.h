// program.h - runs the program to its end for a benchmark.

#pragma once

#include <optional>
#include <string>
#include <vector>

namespace kartwright {

/// What a run took.
struct Taken {
  long peak_kib = 0;         ///< most resident memory, of the caller before its start too
  double cpu_seconds = 0.0;  ///< of the program and of the kernel for it
};

/// The program, or another, with these arguments, its output thrown away; nothing where it did not
/// end well.
std::optional<Taken> run_program(std::vector<std::string> arguments,
                                 const std::string& program = KARTWRIGHT_BINARY);

/// The same of a program that runs for a while, its memory looked at every few milliseconds: of its
/// own alone.
std::optional<Taken> watch_program(std::vector<std::string> arguments);

}  // namespace kartwright
