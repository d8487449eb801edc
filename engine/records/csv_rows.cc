#include "engine/records/csv_rows.h"

#include <algorithm>
#include <array>

#include "engine/document/utf8.h"

namespace kartwright {

namespace {

constexpr std::array kDelimiters{',', ';', '\t'};
constexpr std::string_view kBlanks = " \t";

/// The delimiter that a header holds most of outside quotes; a comma where it holds none.
char guessed_delimiter(std::string_view header) {
  std::array<int, kDelimiters.size()> counts{};
  bool quoted = false;
  for (const char c : header) {
    if (c == '"') quoted = !quoted;
    if (quoted) continue;
    for (std::size_t i = 0; i < kDelimiters.size(); ++i) counts.at(i) += c == kDelimiters.at(i);
  }
  const auto most = std::max_element(counts.begin(), counts.end()) - counts.begin();
  return kDelimiters.at(static_cast<std::size_t>(most));
}

std::string_view trimmed(std::string_view text) {
  const std::size_t from = text.find_first_not_of(kBlanks);
  if (from == std::string_view::npos) return {};
  return text.substr(from, text.find_last_not_of(kBlanks) + 1 - from);
}

/// What one cell came to, and where the next begins: at its delimiter or the end of the row.
struct CellEnd {
  std::size_t at = 0;
  CsvFault fault = CsvFault::none;
  std::size_t fault_at = 0;
};

CellEnd bare_cell(std::string_view row, std::size_t from, char delimiter, CsvCell& cell) {
  const std::size_t end = std::min(row.find(delimiter, from), row.size());
  const std::string_view text = trimmed(row.substr(from, end - from));
  cell.text = text;
  cell.at = text.empty() ? from : static_cast<std::size_t>(text.data() - row.data());
  return {.at = end};
}

CellEnd quoted_cell(std::string_view row, std::size_t quote, char delimiter, bool keep_blanks,
                    CsvCell& cell) {
  cell.text.clear();
  cell.at = quote;
  std::size_t at = quote + 1;
  for (;; ++at) {
    const std::size_t close = row.find('"', at);
    if (close == std::string_view::npos)
      return {.at = row.size(), .fault = CsvFault::unclosed_quote, .fault_at = quote};
    cell.text += row.substr(at, close - at);
    at = close + 1;
    if (at >= row.size() || row[at] != '"') break;
    cell.text += '"';
  }
  const std::size_t end = std::min(row.find(delimiter, at), row.size());
  const std::string_view behind = trimmed(row.substr(at, end - at));
  if (!keep_blanks) cell.text = std::string(trimmed(cell.text));
  if (behind.empty()) return {.at = end};
  return {.at = end,
          .fault = CsvFault::behind_quote,
          .fault_at = static_cast<std::size_t>(behind.data() - row.data())};
}

CellEnd read_cell(std::string_view row, std::size_t from, char delimiter, bool keep_blanks,
                  CsvCell& cell) {
  std::size_t start = from;
  while (start < row.size() && row[start] != delimiter &&
         kBlanks.find(row[start]) != std::string_view::npos)
    ++start;
  const bool quoted = start < row.size() && row[start] == '"';
  return quoted ? quoted_cell(row, start, delimiter, keep_blanks, cell)
                : bare_cell(row, from, delimiter, cell);
}

}  // namespace

CsvRows::CsvRows(std::istream& in) : CsvRows(in, Manners{}) {}

CsvRows::CsvRows(std::istream& in, Manners manners)
    : in_(in), manners_(manners), block_(kLongest, '\0') {}

/// Adds the next line of the stream to a row; false where there is none. A row that grows too long
/// is marked so, and no more of it is taken.
bool CsvRows::append_line(CsvLine& row) {
  bool any = false;
  while (true) {
    if (begin_ == end_) {
      begin_ = 0;
      in_.read(block_.data(), static_cast<std::streamsize>(block_.size()));  // which never throws
      end_ = static_cast<std::size_t>(in_.gcount());
      if (end_ == 0) break;
    }
    any = true;
    const std::string_view left(block_.data() + begin_, end_ - begin_);
    const std::size_t line_end = left.find('\n');
    const std::size_t taken = std::min(line_end, left.size());
    if (row.text.size() + taken > manners_.longest) {
      row.fault = CsvFault::too_long;
      break;
    }
    row.text += left.substr(0, taken);
    begin_ += taken;
    if (line_end == std::string_view::npos) continue;
    ++begin_;
    break;
  }
  if (any) ++line_;
  return any;
}

/// Takes the text of a row apart.
void CsvRows::split(CsvLine& row) {
  if (delimiter_ == '\0') delimiter_ = guessed_delimiter(row.text);
  row.fault = CsvFault::none;
  std::size_t count = 0;
  for (std::size_t at = 0;; ++at) {
    if (count == row.cells.size()) row.cells.emplace_back();
    const CellEnd end =
        read_cell(row.text, at, delimiter_, manners_.quotes_keep_blanks, row.cells[count++]);
    if (end.fault != CsvFault::none) {
      row.fault = end.fault;
      row.fault_at = end.fault_at;
      break;
    }
    at = end.at;
    if (at >= row.text.size()) break;
  }
  row.cells.resize(count);
}

bool CsvRows::next(CsvLine& row) {
  constexpr std::string_view kByteOrderMark = "\xEF\xBB\xBF";
  while (true) {
    row.text.clear();
    row.fault = CsvFault::none;
    row.fault_at = 0;
    if (!append_line(row)) return false;
    row.line = line_;
    if (line_ == 1 && row.text.starts_with(kByteOrderMark))
      row.text.erase(0, kByteOrderMark.size());
    for (int lines = 1; row.fault == CsvFault::none; ++lines) {
      if (row.text.ends_with('\r')) row.text.pop_back();
      split(row);
      if (row.fault != CsvFault::unclosed_quote || lines == kMostLines) break;
      const std::size_t open = row.fault_at;
      row.text += '\n';
      row.fault = CsvFault::none;
      if (append_line(row) && row.fault == CsvFault::none) continue;
      row.fault = CsvFault::unclosed_quote;
      row.fault_at = open;
    }
    const bool blank = std::all_of(row.cells.begin(), row.cells.end(),
                                   [](const CsvCell& cell) { return cell.text.empty(); });
    begun_ = begun_ || row.fault != CsvFault::none || !blank;
    if (row.fault != CsvFault::none || !blank) return true;
    if (!begun_) delimiter_ = '\0';
  }
}

Diagnostic at_cell(const CsvLine& row, std::size_t at, std::size_t length, Diagnostic found) {
  const std::string_view before = std::string_view(row.text).substr(0, at);
  const std::size_t start = before.rfind('\n') + 1;  // npos + 1 is 0
  found.span.line = row.line + static_cast<int>(std::count(before.begin(), before.end(), '\n'));
  found.span.column = static_cast<int>(characters(before.substr(start))) + 1;
  const std::string_view line = std::string_view(row.text).substr(start);
  const std::string_view whole = line.substr(0, line.find('\n'));
  found.span.length = std::max(
      1, static_cast<int>(characters(whole.substr(std::min(at - start, whole.size()), length))));
  show_source(found, whole);
  return found;
}

std::string_view name_of_delimiter(char delimiter) {
  if (delimiter == ';') return "a semicolon";
  return delimiter == '\t' ? "a tab" : "a comma";
}

}  // namespace kartwright
