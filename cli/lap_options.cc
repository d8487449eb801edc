#include "cli/lap_options.h"

#include <cerrno>
#include <cstdio>
#include <cstring>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <optional>

#include <spdlog/spdlog.h>

#include "cli/broken_stream.h"

namespace kartwright::cli {
namespace {

/// The two sides of `name=value`; nothing where one is missing.
std::optional<std::pair<std::string, std::string>> sides_of(const char* option,
                                                            const std::string& text,
                                                            const char* help, Findings& findings) {
  const std::size_t equals = text.find('=');
  if (equals != std::string::npos && equals > 0 && equals + 1 < text.size())
    return std::pair(text.substr(0, equals), text.substr(equals + 1));
  refuse_option(option, text, "`" + text + "` is not a name and a value", help, findings);
  return {};
}

void take_column(const std::string& text, LapsWanted& wanted, Findings& findings) {
  const auto sides = sides_of("--column", text, "as --column \"time=Seconds\"", findings);
  if (!sides) return;
  const std::vector<std::pair<std::string, std::string*>> known{
      {"lap", &wanted.lap}, {"time", &wanted.time}, {"group", &wanted.group}};
  for (const auto& [name, column] : known) {
    if (name != sides->first) continue;
    if (!column->empty())
      refuse_option("--column", text, "the column of the " + name + " is given twice",
                    "once is enough", findings);
    *column = sides->second;
    return;
  }
  refuse_option("--column", text, "`" + sides->first + "` is not a column that is read",
                suggestion(sides->first, {"lap", "time", "group"}), findings);
}

[[noreturn]] void cannot_read(const std::string& path, const std::string& why) {
  throw InputError({Diagnostic{.code = Code::cannot_read, .file = path, .message = why}});
}

/// Laps up to where a disk fails are not the laps.
LapFile laps_from(std::istream& in, const std::string& name, const LapsWanted& wanted,
                  Findings& findings) {
  LapFile laps = read_lap_file(in, name, wanted, findings);
  if (broke_off(in)) cannot_read(name, "it cannot be read to its end");
  return laps;
}

}  // namespace

void refuse_option(const char* option, const std::string& value, std::string message,
                   std::string help, Findings& findings) {
  findings.add({.code = Code::bad_option,
                .file = option,
                .span = {.line = 1, .column = 1},
                .message = std::move(message),
                .help = std::move(help),
                .source = value});
}

LapsWanted laps_wanted(const std::string& only, const std::vector<std::string>& columns,
                       bool needs_group, Findings& findings) {
  LapsWanted wanted{.needs_group = needs_group};
  for (const std::string& column : columns) take_column(column, wanted, findings);
  if (only.empty()) return wanted;
  const auto sides = sides_of("--only", only, "as --only Kart=27", findings);
  if (!sides) return wanted;
  wanted.only_column = sides->first;
  wanted.only_value = sides->second;
  return wanted;
}

LapFile read_laps(const std::string& path, const LapsWanted& wanted, Findings& findings) {
  if (path == "-") return laps_from(std::cin, "standard input", wanted, findings);
  std::error_code ignored;
  if (std::filesystem::is_directory(path, ignored))
    cannot_read(path, "this is a folder, not a file");
  spdlog::info("laps: {}", path);
  std::ifstream file(path, std::ios::binary);
  if (!file) cannot_read(path, std::strerror(errno));
  return laps_from(file, path, wanted, findings);
}

}  // namespace kartwright::cli
