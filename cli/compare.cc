// compare: the laps of two settings or more, and whether the change helped.

#include <cerrno>
#include <cstdio>
#include <cstring>
#include <filesystem>
#include <fstream>
#include <iostream>

#include <fmt/format.h>
#include <spdlog/spdlog.h>

#include "cli/commands.h"
#include "cli/compare_json.h"
#include "cli/compare_text.h"
#include "cli/diagnostics.h"
#include "cli/lap_options.h"
#include "engine/document/fields.h"
#include "engine/records/lap_comparison.h"

namespace kartwright::cli {
namespace {

/// `0.1s` or `0.1`, seconds a lap.
double read_worth(const std::string& text, Findings& findings) {
  constexpr double kLeast = 0.001;
  constexpr double kMost = 10.0;
  std::string_view figures = text;
  if (figures.ends_with('s')) figures.remove_suffix(1);
  while (figures.ends_with(' ')) figures.remove_suffix(1);
  const auto seconds = bare_number(figures);
  if (seconds && *seconds >= kLeast && *seconds <= kMost) return *seconds;
  refuse_option("--worth", text, "`" + text + "` is not an effect worth having",
                "seconds a lap, from 0.001 to 10, as 0.1s", findings);
  return kMost;
}

}  // namespace

int run_compare(const CompareOptions& options) {
  Findings findings;
  if (options.csv.empty())
    refuse_option("--csv", "", "there is no lap file", "name it, as --csv laps.csv; - is stdin",
                  findings);
  const LapsWanted wanted = laps_wanted(options.only, options.columns, true, findings);
  const double worth = read_worth(options.worth, findings);
  findings.throw_if_errors();
  const LapFile laps = read_laps(options.csv, wanted, findings);
  findings.throw_if_errors();
  const auto compared = compare_laps(laps, worth, findings);
  if (!compared) throw InputError(findings.all());
  const bool json = options.common.format == Format::json;
  const std::string answer =
      json ? compare_json(*compared) : compare_text(*compared, look_of_stdout());
  std::fwrite(answer.data(), 1, answer.size(), stdout);
  return kSuccess;
}

}  // namespace kartwright::cli
