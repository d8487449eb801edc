// statements.h - what the trade has published on the handling of karts, as tests/published/handling
// codes it: one row a statement, each with the source that it was read in.

#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "tests/support/csv.h"

namespace kartwright {

/// A row of statements.csv with what sources.csv says of its source. The words are those of the
/// tables; tests/published/handling/README.md lists them.
struct PublishedStatement {
  std::string record, source, group, title;
  std::string surface, track, kart, role, symptom, phase, adjustment, direction;
  std::string front_grip, rear_grip;  ///< `+`, `-`, `0` or `?`: which way the direction moves it
  std::string when, end, note;

  bool remedy() const { return role == "remedy"; }
};

/// All of them, by record. Throws std::invalid_argument for a file that cannot be read, a record or
/// a source named twice, a source that is not listed, and a word of `surface`, `track`, `role`,
/// `phase` or of the signs that the tables do not have.
std::vector<PublishedStatement> published_statements();

/// The same out of texts.
std::vector<PublishedStatement> statements_in(std::string_view statements,
                                              std::string_view sources);

/// A file of tests/published/handling, byte for byte. Throws std::invalid_argument.
std::string handling_file(const std::string& name);

}  // namespace kartwright
