// lap_columns.h - which columns of a lap table are the lap, its time and its group, by the names
// that timing systems and spreadsheets give them.

#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

#include "engine/document/diagnostic.h"
#include "engine/records/csv_rows.h"

namespace kartwright {

/// What is wanted of a lap file.
struct LapsWanted {
  /// Columns by their exact name in the header; empty: found by the usual names.
  std::string lap = {}, time = {}, group = {};
  bool needs_group = false;      ///< false: a file without that column is fine
  bool all_laps = false;         ///< groups play no part: no lap is left out for one
  std::string only_column = {};  ///< rows of one kart: this column ...
  std::string only_value = {};   ///< ... holds exactly this; without a column all rows count
};

/// Which cell of a row is what.
struct LapColumns {
  std::optional<std::size_t> lap;  ///< nothing: laps are numbered by row
  std::size_t time = 0;
  std::optional<std::size_t> group, only;
};

/// Lower case, without blanks, dots, underscores and dashes: `Lap No.` is `lapno`.
std::string plain_column_name(std::string_view name);

/// The columns of a header. A column that is missing, or could be one of two, goes to `findings` at
/// the header's place in `file`; then there are none.
std::optional<LapColumns> find_lap_columns(const CsvLine& header, const std::string& file,
                                           const LapsWanted& wanted, Findings& findings);

}  // namespace kartwright
