// answers.h - what the program answers in JSON to a broad set of real command lines, each with the
// schema that it must keep to.

#pragma once

#include <string>
#include <vector>

#include <nlohmann/json.hpp>

#include "tests/cli/kartwright.h"

namespace kartwright {

struct Asked {
  std::string schema;
  Words words;             ///< `--format json` comes behind them
  std::string input = {};  ///< standard input
};

/// The answers to a command line: one object, or of a batch or a record one a line. What is no JSON
/// fails the test.
std::vector<nlohmann::json> answers_to(const Asked& asked);

/// Command lines that only read files of the project.
std::vector<Asked> advise_lines();
std::vector<Asked> bench_lines();  ///< weigh, whatif, plan, check, compare
std::vector<Asked> learn_lines();  ///< explain, rules
std::vector<Asked> drill_lines();  ///< in a state folder of their own
/// On a log of the invented weekend, and on one that is begun: in this order.
std::vector<Asked> log_lines(const std::string& folder);

}  // namespace kartwright
