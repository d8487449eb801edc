// lap_file.h - the laps of a day, from the table that any timing system or spreadsheet writes.
//
// Read as a stream: what is held is the laps that count and one row.

#pragma once

#include <cstddef>
#include <istream>
#include <string>
#include <vector>

#include "engine/document/diagnostic.h"
#include "engine/records/lap_columns.h"

namespace kartwright {

struct FileLap {
  int number = 0;  ///< as the file numbers it, or by row
  double seconds = 0;
  std::size_t group = 0;  ///< index into LapFile::groups
  int line = 0;           ///< of the file
};

struct LapFile {
  std::string name;  ///< of the file
  /// In the order of their first lap, as the file writes them; one empty name where the file has no
  /// such column.
  std::vector<std::string> groups;
  std::vector<FileLap> laps;  ///< by lap number
  std::size_t left_out = 0;   ///< laps without a group
};

constexpr std::size_t kMostLaps = 100'000;
constexpr std::size_t kLongestGroup = 100;  ///< characters

/// The laps of a table in comma-separated values. Cells are parted by commas, semicolons or tabs,
/// quoted as RFC 4180 has it; decimal commas, a byte order mark and CRLF are understood. The first
/// row names the columns. A lap whose group is empty is left out, and nothing else of it is read.
/// Everything wrong goes to `findings` with its line and column; of a file that is no table, that
/// is cut off in a quote or that goes beyond 100,000 laps or 64 KiB a row, no more is read.
LapFile read_lap_file(std::istream& in, const std::string& name, const LapsWanted& wanted,
                      Findings& findings);

}  // namespace kartwright
