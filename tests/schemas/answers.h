// answers.h - what the program answers in JSON to a broad set of real command lines, each with the
// schema that it must keep to.

#pragma once

#include <string>
#include <vector>

#include <nlohmann/json.hpp>

#include "tests/cli/kartwright.h"

namespace kartwright {

struct AskedLine {
  std::string schema;
  Words words;             ///< `--format json` comes behind them
  std::string input = {};  ///< standard input
};

/// The answers to a command line: one object, or of a batch or a record one a line. What is no JSON
/// fails the test.
std::vector<nlohmann::json> answers_to(const AskedLine& asked);

/// Command lines that only read files of the project.
std::vector<AskedLine> advise_lines();
std::vector<AskedLine> bench_lines();  ///< weigh, whatif, plan, check, compare
std::vector<AskedLine> learn_lines();  ///< explain, rules
std::vector<AskedLine> drill_lines();  ///< in a state folder of their own
/// On a log of the invented weekend, and on one that is begun: in this order.
std::vector<AskedLine> log_lines(const std::string& folder);

}  // namespace kartwright
