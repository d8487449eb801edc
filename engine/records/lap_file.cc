#include "engine/records/lap_file.h"

#include <algorithm>
#include <charconv>
#include <numeric>
#include <optional>
#include <set>
#include <string_view>
#include <unordered_map>
#include <utility>

#include <fmt/format.h>

#include "engine/document/utf8.h"
#include "engine/records/lap_time.h"

namespace kartwright {

namespace {

constexpr int kHighestLap = 1'000'000;

/// A whole number that a lap may have.
std::optional<int> lap_number(std::string_view text) {
  int number{};
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
  const bool whole = error == std::errc{} && end == text.data() + text.size();
  return whole && number >= 0 && number <= kHighestLap ? std::optional(number) : std::nullopt;
}

/// Offset of the first byte that no cell of text has: a control character, or no UTF-8.
std::optional<std::size_t> unfit_byte(std::string_view text) {
  const auto* const control = std::find_if(text.begin(), text.end(), [](char c) {
    return static_cast<unsigned char>(c) < 0x20U || c == 0x7F;
  });
  const std::size_t at = std::min(first_invalid_utf8(text).value_or(text.size()),
                                  static_cast<std::size_t>(control - text.begin()));
  return at < text.size() ? std::optional(at) : std::nullopt;
}

/// A cell as a message shows it: cut where it is long.
std::string in_ticks(std::string_view cell) {
  constexpr std::size_t kLong = 40;  // characters
  if (characters(cell) <= kLong) return fmt::format("`{}`", cell);
  std::size_t end = kLong;
  while (end > 0 && (static_cast<unsigned char>(cell[end]) & 0xC0U) == 0x80U) --end;
  return fmt::format("`{}...`", cell.substr(0, end));
}

bool looks_like_utf16(std::string_view row) {
  return row.starts_with("\xFF\xFE") || row.starts_with("\xFE\xFF") ||
         row.find('\0') != std::string_view::npos;
}

class LapReader {
 public:
  LapReader(std::istream& in, const std::string& name, const LapsWanted& wanted, Findings& findings)
      : rows_(in), wanted_(wanted), findings_(findings) {
    out_.name = name;
  }

  LapFile read() {
    if (read_header()) {
      while (!done_ && rows_.next(row_)) take_row();
      if (!findings_.has_errors() && out_.laps.empty()) refuse_empty();
    }
    order();
    return std::move(out_);
  }

 private:
  void add(Code code, std::size_t at, std::size_t length, std::string message, std::string help) {
    findings_.add(at_cell(
        row_, at, length,
        {.code = code, .file = out_.name, .message = std::move(message), .help = std::move(help)}));
  }

  void add(Code code, std::string message, std::string help) {
    findings_.add(
        {.code = code, .file = out_.name, .message = std::move(message), .help = std::move(help)});
  }

  void bad_lap(const CsvCell& cell, std::string message, std::string help) {
    add(Code::bad_lap, cell.at, cell.text.size(), std::move(message), std::move(help));
  }

  bool read_header() {
    if (!rows_.next(row_)) {
      add(Code::no_laps, "the file is empty",
          "a row with the names of the columns, and below it a row for each lap");
      return false;
    }
    if (looks_like_utf16(row_.text)) {
      add(Code::not_utf8, 0, 1, "this looks like UTF-16, not like UTF-8 text",
          "save the table as comma-separated values in UTF-8");
      return false;
    }
    if (!check_fault()) return false;
    for (const CsvCell& cell : row_.cells) check_bytes(cell);
    if (findings_.has_errors()) return false;
    header_cells_ = row_.cells.size();
    const auto columns = find_lap_columns(row_, out_.name, wanted_, findings_);
    if (columns) columns_ = *columns;
    return columns.has_value();
  }

  /// False where the row, and so all behind it, cannot be read.
  bool check_fault() {
    if (row_.fault == CsvFault::none) return true;
    done_ = true;
    if (row_.fault == CsvFault::too_long) {
      add(Code::too_many_laps, 0, 1, "this row is longer than 64 KiB, and the rest was not read",
          "is this a lap file?");
    } else if (row_.fault == CsvFault::unclosed_quote) {
      add(Code::unclosed_quote, row_.fault_at, 1,
          "a quote opens here and never closes, and the rest was not read", "close the quote");
    } else {
      add(Code::unclosed_quote, row_.fault_at, 1,
          "text behind a quote that is closed, and the rest was not read",
          "quotes stand around the whole cell; one inside it is doubled");
    }
    return false;
  }

  bool check_bytes(const CsvCell& cell) {
    const auto bad = unfit_byte(cell.text);
    if (!bad) return true;
    const auto byte = static_cast<unsigned>(static_cast<unsigned char>(cell.text[*bad]));
    add(Code::not_utf8, cell.at, 1,
        byte < 0x80 ? fmt::format("a control character in this cell, byte 0x{:02X}", byte)
                    : fmt::format("byte 0x{:02X} in this cell is not UTF-8 text", byte),
        byte < 0x80 ? "take it out; is this a text file?" : "save the file as UTF-8");
    return false;
  }

  /// The cell of a column, or nothing where the row ends before it or it cannot be text.
  const CsvCell* cell_of(std::size_t column) {
    const CsvCell& cell = row_.cells[column];
    return check_bytes(cell) ? &cell : nullptr;
  }

  /// False where the row has too few cells for the columns that are read, or more than the header.
  bool check_width() {
    std::size_t needed = columns_.time;
    for (const auto& column : {columns_.lap, columns_.group, columns_.only})
      needed = std::max(needed, column.value_or(0));
    const std::size_t cells = row_.cells.size();
    const bool over = std::any_of(
        row_.cells.begin() + static_cast<std::ptrdiff_t>(std::min(cells, header_cells_)),
        row_.cells.end(), [](const CsvCell& cell) { return !cell.text.empty(); });
    if (needed < cells && !over) return true;
    const bool other = cells == 1 && row_.text.find_first_of(",;\t") != std::string::npos;
    add(Code::bad_lap, 0, row_.text.size(),
        fmt::format("this row has {} column{}, the header has {}", cells, cells == 1 ? "" : "s",
                    header_cells_),
        other  ? fmt::format("{} parts the columns of the header, and of every row",
                             name_of_delimiter(rows_.delimiter()))
        : over ? "a decimal comma between commas needs quotes, as \"31,42\""
               : "a lap that is not to count has an empty group, and all its columns");
    return false;
  }

  void take_row() {
    if (!check_fault() || !check_width() || !is_wanted()) return;
    const int by_row = ++rows_taken_;
    const CsvCell* const group = columns_.group ? cell_of(*columns_.group) : &no_group_;
    if (group == nullptr) return;
    if (columns_.group && group->text.empty()) {
      ++out_.left_out;
      return;
    }
    const std::optional<int> number = read_number(by_row);
    const std::optional<double> seconds = read_time();
    const std::optional<std::size_t> at = group_of(*group);
    if (!number || !seconds || !at) return;
    if (out_.laps.size() == kMostLaps) {
      add(Code::too_many_laps, 0, row_.text.size(),
          "more than 100000 laps, and the rest was not read", "is this one kart on one day?");
      done_ = true;
      return;
    }
    out_.laps.push_back({*number, *seconds, *at, row_.line});
  }

  /// True of the rows that are asked for; of others nothing more is read.
  bool is_wanted() {
    if (!columns_.only) return true;
    const CsvCell& cell = row_.cells[*columns_.only];
    if (cell.text == wanted_.only_value) return true;
    constexpr std::size_t kFew = 8;
    constexpr std::size_t kShort = 40;
    if (others_.size() < kFew && cell.text.size() <= kShort) others_.insert(cell.text);
    return false;
  }

  std::optional<int> read_number(int by_row) {
    if (!columns_.lap) return by_row;
    const CsvCell* const cell = cell_of(*columns_.lap);
    if (cell == nullptr) return {};
    const auto number = lap_number(cell->text);
    if (!number) {
      bad_lap(*cell,
              cell->text.empty() ? "a lap without a number"
                                 : in_ticks(cell->text) + " is not the number of a lap",
              "a whole number from 0 to 1000000");
      return {};
    }
    const auto [first, fresh] = seen_.emplace(*number, row_.line);
    if (fresh) return number;
    bad_lap(*cell, fmt::format("lap {} stands in line {} already", *number, first->second),
            wanted_.only_column.empty()
                ? "laps are numbered over the whole day; with several karts in a file, take one "
                  "with --only COLUMN=VALUE"
                : "laps are numbered over the whole day");
    return {};
  }

  std::optional<double> read_time() {
    const CsvCell* const cell = cell_of(columns_.time);
    if (cell == nullptr) return {};
    const auto seconds = parse_lap_time(cell->text);
    if (!seconds) {
      bad_lap(
          *cell,
          cell->text.empty() ? "a lap without a time" : in_ticks(cell->text) + " is not a lap time",
          columns_.group ? "write it as 31.42 or 1:02.417; a lap that is not to count has an "
                           "empty group"
                         : "write it as 31.42 or 1:02.417");
    }
    return seconds;
  }

  std::optional<std::size_t> group_of(const CsvCell& cell) {
    if (characters(cell.text) > kLongestGroup) {
      add(Code::too_many_laps, cell.at, cell.text.size(),
          "the name of this group is longer than 100 characters",
          "is this the column that names the groups?");
      return {};
    }
    const auto [found, fresh] = group_index_.emplace(cell.text, out_.groups.size());
    if (fresh) out_.groups.push_back(cell.text);
    return found->second;
  }

  void refuse_empty() {
    if (columns_.only && rows_taken_ == 0) {
      std::string there;
      for (const std::string& value : others_)
        there += fmt::format("{}`{}`", there.empty() ? "there is " : ", ", value);
      add(Code::no_laps,
          fmt::format("no row has `{}` in the column `{}`", wanted_.only_value,
                      wanted_.only_column),
          there);
    } else if (out_.left_out > 0) {
      add(Code::no_laps, "every lap is left out: none of them has a group",
          "name the group of each lap that is to count");
    } else {
      add(Code::no_laps, "there is no lap below the header", "a row for each lap");
    }
  }

  /// Laps by number, and groups by their first lap.
  void order() {
    std::ranges::sort(out_.laps, {}, &FileLap::number);
    std::vector<std::size_t> place(out_.groups.size(), out_.groups.size());
    std::vector<std::string> groups;
    for (FileLap& lap : out_.laps) {
      if (place[lap.group] == place.size()) {
        place[lap.group] = groups.size();
        groups.push_back(out_.groups[lap.group]);
      }
      lap.group = place[lap.group];
    }
    out_.groups = std::move(groups);
  }

  CsvRows rows_;
  const LapsWanted& wanted_;
  Findings& findings_;
  LapFile out_;
  CsvLine row_;
  LapColumns columns_;
  std::size_t header_cells_ = 0;
  int rows_taken_ = 0;
  bool done_ = false;
  const CsvCell no_group_ = {};
  std::unordered_map<int, int> seen_;  ///< lap numbers, and their lines
  std::unordered_map<std::string, std::size_t> group_index_;
  std::set<std::string> others_;  ///< some values that --only did not ask for
};

}  // namespace

LapFile read_lap_file(std::istream& in, const std::string& name, const LapsWanted& wanted,
                      Findings& findings) {
  return LapReader(in, name, wanted, findings).read();
}

}  // namespace kartwright
