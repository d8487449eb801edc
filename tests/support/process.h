// process.h - runs a program and brings back all it did: what it wrote where, how it ended, and how
// much memory it took.
//
// Input and output go through files, so that neither side can wait for the other.

#pragma once

#include <chrono>
#include <map>
#include <optional>
#include <string>
#include <vector>

namespace kartwright {

/// Where the standard output of a program goes.
enum class Stdout { kept, closed, full_disk };

struct Command {
  std::vector<std::string> argv;  ///< the program's path first
  /// On top of the surroundings of the test, of which locale, time zone, width and colour are left
  /// out.
  std::map<std::string, std::string> env = {};
  std::string input = {};  ///< standard input
  Stdout out = Stdout::kept;
  /// So long after its start it is ended by SIGKILL, unless it has ended by then.
  std::optional<std::chrono::microseconds> killed_after = {};
};

struct Ended {
  int exit = 0;  ///< exit code; 128 + signal where one ended it
  std::string out, err;
  long peak_kib = 0;  ///< most resident memory, KiB
};

/// The surroundings of a command, each as `NAME=value`.
std::vector<std::string> surroundings_of(const Command& command);

/// Throws std::system_error where the program cannot be run.
Ended run(const Command& command);

}  // namespace kartwright
