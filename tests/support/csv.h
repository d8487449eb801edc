// csv.h - comma-separated values, read strictly: a header, then rows of as many fields. For the
// published data that tests are held against.

#pragma once

#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace kartwright {

/// One row by the names of its columns.
using CsvRow = std::map<std::string, std::string>;

/// Rows in order, as RFC 4180 writes them: a field that holds a comma, a quote or a line end stands
/// in quotes, a quote in it is doubled, lines end in LF or CRLF. Throws std::invalid_argument
/// naming the line for an empty or doubled name of a column, a row of another length, a quote that
/// stands inside a bare field, text behind a closing quote, a quote left open, or a lone CR.
std::vector<CsvRow> read_csv(std::string_view text);

}  // namespace kartwright
