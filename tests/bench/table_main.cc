// Everything that is worth timing in one table, each beside a peer where there is one that does the
// same work.
//
//   sh tests/bench.sh              builds what it takes, and prints it
//   table [--quick] [NAME...]      all lines, or those of the names: chaining choice yaml posterior
//                                  regression cold batch commands

#include <algorithm>
#include <array>
#include <cstdio>
#include <exception>
#include <string>
#include <vector>

#include <fmt/format.h>

#include "tests/bench/table_rows.h"

namespace kartwright {
namespace {

struct Rows {
  const char* name;
  void (*time)(Effort);
};

constexpr std::array<Rows, 8> kAll{
    Rows{"chaining", time_chaining}, {"choice", time_choice},         {"yaml", time_yaml},
    {"posterior", time_posterior},   {"regression", time_regression}, {"cold", time_cold},
    {"batch", time_batch},           {"commands", time_commands}};

int time_all(std::vector<std::string> names) {
  const Effort effort{.quick = std::erase(names, "--quick") > 0};
  for (const std::string& name : names) {
    if (std::any_of(kAll.begin(), kAll.end(), [&](const Rows& rows) { return rows.name == name; }))
      continue;
    fmt::print(stderr, "table: there are no lines called `{}`\n", name);
    return 2;
  }
  print_head();
  for (const Rows& rows : kAll) {
    if (names.empty() || std::find(names.begin(), names.end(), rows.name) != names.end())
      rows.time(effort);
  }
  return 0;
}

}  // namespace
}  // namespace kartwright

int main(int argc, char** argv) {
  try {
    return kartwright::time_all({argv + 1, argv + argc});
  } catch (const std::exception& error) {
    fmt::print(stderr, "table: {}\n", error.what());
    return 1;
  }
}
