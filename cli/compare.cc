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
#include "engine/document/fields.h"
#include "engine/records/lap_comparison.h"

namespace kartwright::cli {
namespace {

void refuse(const char* option, const std::string& value, std::string message, std::string help,
            Findings& findings) {
  findings.add({.code = Code::bad_option,
                .file = option,
                .span = {.line = 1, .column = 1},
                .message = std::move(message),
                .help = std::move(help),
                .source = value});
}

/// `0.1s` or `0.1`, seconds a lap.
double read_worth(const std::string& text, Findings& findings) {
  constexpr double kLeast = 0.001;
  constexpr double kMost = 10.0;
  std::string_view figures = text;
  if (figures.ends_with('s')) figures.remove_suffix(1);
  while (figures.ends_with(' ')) figures.remove_suffix(1);
  const auto seconds = bare_number(figures);
  if (seconds && *seconds >= kLeast && *seconds <= kMost) return *seconds;
  refuse("--worth", text, "`" + text + "` is not an effect worth having",
         "seconds a lap, from 0.001 to 10, as 0.1s", findings);
  return kMost;
}

/// The two sides of `name=value`; nothing where one is missing.
std::optional<std::pair<std::string, std::string>> sides_of(const char* option,
                                                            const std::string& text,
                                                            const char* help, Findings& findings) {
  const std::size_t equals = text.find('=');
  if (equals != std::string::npos && equals > 0 && equals + 1 < text.size())
    return std::pair(text.substr(0, equals), text.substr(equals + 1));
  refuse(option, text, "`" + text + "` is not a name and a value", help, findings);
  return {};
}

void take_column(const std::string& text, LapsWanted& wanted, Findings& findings) {
  const auto sides = sides_of("--column", text, "as --column \"time=Lap Tm\"", findings);
  if (!sides) return;
  const std::vector<std::pair<std::string, std::string*>> known{
      {"lap", &wanted.lap}, {"time", &wanted.time}, {"group", &wanted.group}};
  for (const auto& [name, column] : known) {
    if (name != sides->first) continue;
    if (!column->empty())
      refuse("--column", text, "the column of the " + name + " is given twice", "once is enough",
             findings);
    *column = sides->second;
    return;
  }
  refuse("--column", text, "`" + sides->first + "` is not a column that is read",
         suggestion(sides->first, {"lap", "time", "group"}), findings);
}

LapsWanted read_wanted(const CompareOptions& options, Findings& findings) {
  LapsWanted wanted{.needs_group = true};
  for (const std::string& column : options.columns) take_column(column, wanted, findings);
  if (options.only.empty()) return wanted;
  const auto sides = sides_of("--only", options.only, "as --only Kart=27", findings);
  if (!sides) return wanted;
  wanted.only_column = sides->first;
  wanted.only_value = sides->second;
  return wanted;
}

[[noreturn]] void cannot_read(const std::string& path, const std::string& why) {
  throw InputError({Diagnostic{.code = Code::cannot_read, .file = path, .message = why}});
}

LapFile read_laps(const std::string& path, const LapsWanted& wanted, Findings& findings) {
  if (path == "-") return read_lap_file(std::cin, "standard input", wanted, findings);
  std::error_code ignored;
  if (std::filesystem::is_directory(path, ignored))
    cannot_read(path, "this is a folder, not a file");
  spdlog::info("laps: {}", path);
  std::ifstream file(path, std::ios::binary);
  if (!file) cannot_read(path, std::strerror(errno));
  return read_lap_file(file, path, wanted, findings);
}

}  // namespace

int run_compare(const CompareOptions& options) {
  Findings findings;
  if (options.csv.empty())
    refuse("--csv", "", "there is no lap file", "name it, as --csv laps.csv; - is stdin", findings);
  const LapsWanted wanted = read_wanted(options, findings);
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
