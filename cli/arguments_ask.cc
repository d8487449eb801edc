#include "cli/arguments_ask.h"

#include <CLI/CLI.hpp>

namespace kartwright::cli {

void add_ask(::CLI::App& advise, AdviseOptions& options) {
  advise.add_flag(
      "--ask", options.ask,
      "first ask the driver, on stderr, whatever is worth a point, most valuable first; "
      "answers come from the keyboard or, a line each, from stdin");
}

std::pair<std::string, std::string> misuse_of(const AdviseOptions& options) {
  if (!options.ask) return {};
  if (!options.batch.empty())
    return {"`--ask` does not go with --batch", "every line of a batch is a debrief of its own"};
  if (options.kart == "-" || options.debrief == "-")
    return {"with `--ask` the answers come from standard input",
            "give the kart and the debrief as files"};
  return {};
}

}  // namespace kartwright::cli
