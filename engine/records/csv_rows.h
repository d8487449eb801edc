// csv_rows.h - comma-separated values off a stream, a row at a time, as any timing system or
// spreadsheet writes them. No more than one row is held, and each cell knows its place.

#pragma once

#include <cstddef>
#include <istream>
#include <string>
#include <string_view>
#include <vector>

#include "engine/document/diagnostic.h"

namespace kartwright {

/// A cell of a row, without its quotes and the blanks around it.
struct CsvCell {
  std::string text;
  std::size_t at = 0;  ///< bytes into the row where it begins
};

/// Why a row could not be taken apart. Nothing behind it can be trusted.
enum class CsvFault { none, too_long, unclosed_quote, behind_quote };

/// One row: a line of the file, or several where a quoted cell holds line ends.
struct CsvLine {
  std::string text;  ///< as written, without its last line end
  int line = 0;      ///< of its first line, from 1
  std::vector<CsvCell> cells;
  CsvFault fault = CsvFault::none;
  std::size_t fault_at = 0;  ///< bytes into the row
};

class CsvRows {
 public:
  static constexpr std::size_t kLongest = 64U << 10U;  ///< bytes of a row
  static constexpr int kMostLines = 100;               ///< of a row

  struct Manners {
    std::size_t longest = kLongest;
    bool quotes_keep_blanks = false;  ///< outer blanks inside quotes belong to the cell
  };

  /// REQUIRES: the stream outlives it.
  explicit CsvRows(std::istream& in);
  CsvRows(std::istream& in, Manners manners);

  /// The next row that is not blank, or one with a fault; false at the end. The first decides
  /// which of comma, semicolon and tab parts the cells: what it holds most of outside quotes.
  bool next(CsvLine& row);
  char delimiter() const { return delimiter_; }

 private:
  bool append_line(CsvLine& row);
  void split(CsvLine& row);

  std::istream& in_;
  Manners manners_;
  std::string block_;
  std::size_t begin_ = 0, end_ = 0;  ///< of what is left in the block
  int line_ = 0;
  char delimiter_ = '\0';
  bool begun_ = false;  ///< a row was given out
};

/// A finding at a place in a row, with the source line.
Diagnostic at_cell(const CsvLine& row, std::size_t at, std::size_t length, Diagnostic found);

/// "a comma", "a semicolon", "a tab".
std::string_view name_of_delimiter(char delimiter);

}  // namespace kartwright
