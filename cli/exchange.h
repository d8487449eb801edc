// exchange.h - a log out as JSON or CSV, and back without loss.
//
// JSON is one object with a run on each line. CSV has a row for each record of a run: its first
// column says of what, `kart` and `at` of which run, and the rest are the record's own fields.

#pragma once

#include <cstddef>
#include <string>

#include "engine/records/logbook.h"

namespace kartwright::cli {

/// Writes the whole log to stdout, run by run.
void export_log(const Logbook& log, bool csv);

struct Imported {
  std::size_t added = 0, there = 0;  ///< runs: put in, and in the log already as they are
};

/// Takes an export of either form in; which one it is its first line says. All of it in one
/// transaction: with a mistake anywhere nothing is taken. A run that the log holds already is left
/// alone where it is the same, taken over where the log has it as made ready only, and otherwise
/// refused. Throws InputError. Progress is told on a terminal where it is wanted.
Imported import_log(Logbook& log, const std::string& path, bool progress);

}  // namespace kartwright::cli
