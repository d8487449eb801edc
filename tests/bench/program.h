// program.h - runs the program to its end for a benchmark.

#pragma once

#include <optional>
#include <string>
#include <vector>

namespace kartwright {

/// What a run took.
struct Taken {
  long peak_kib = 0;         ///< most resident memory
  double cpu_seconds = 0.0;  ///< of the program and of the kernel for it
};

/// The program with these arguments, its output thrown away; nothing where it did not end well.
std::optional<Taken> run_program(std::vector<std::string> arguments);

}  // namespace kartwright
