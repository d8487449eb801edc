// loose_options.h - options whose names come from the rules and not from the program: `--tight
// 20mm` behind `check chain`.

#pragma once

#include <string>
#include <utility>
#include <vector>

namespace kartwright::cli {

struct LooseOptions {
  std::vector<std::string> rest;  ///< the words that are left, in order
  std::vector<std::pair<std::string, std::string>> taken = {};  ///< name without dashes, value
  std::string without_value = {};  ///< the first that has none, with its dashes; empty: all have
};

/// Takes `--name value` and `--name=value` out of a command's words, all but the names that the
/// command declares itself: `flags` stand alone, `options` have a value. A value may begin with one
/// dash, as `-2mm` does.
LooseOptions take_loose_options(const std::vector<std::string>& words,
                                const std::vector<std::string>& flags,
                                const std::vector<std::string>& options);

}  // namespace kartwright::cli
