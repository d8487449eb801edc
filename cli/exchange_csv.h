// exchange_csv.h - runs as rows of CSV, a row for each record, and rows as runs again.

#pragma once

#include <optional>
#include <string>

#include "engine/document/document.h"
#include "engine/records/csv_rows.h"
#include "engine/records/run.h"

namespace kartwright::cli {

/// The names of all columns, as a row.
std::string csv_head();
/// A run, its own row first, which says how many follow.
std::string csv_rows_of(const Run& run);
/// The last row of an export, which says how many runs it holds: one that is cut short lacks it.
std::string csv_end(std::size_t runs);

/// The rows of a CSV export, gathered into one map a run as read_run takes it. The places in it are
/// those of the file.
class CsvRuns {
 public:
  /// REQUIRES: both outlive it, and the first row was not read yet.
  CsvRuns(CsvRows& rows, std::string file, Findings& findings);

  /// The next run; nothing at the end, which must be there.
  std::optional<Document> next();

 private:
  void take_head();
  std::optional<CsvLine> take_row();
  bool is_end(const CsvLine& row);
  void refuse(const CsvLine& row, std::string message, std::string help);
  void begin_run(const CsvLine& row);
  void add(const CsvLine& row);
  Node map_of(const CsvLine& row, std::size_t from) const;
  const std::string* cell(const CsvLine& row, std::string_view name) const;

  CsvRows& rows_;
  std::string file_;
  Findings& findings_;
  std::vector<std::string> names_;
  std::optional<CsvLine> ahead_;
  std::size_t runs_ = 0;
  int line_ = 1;  ///< of the last row
  Document run_;
};

}  // namespace kartwright::cli
