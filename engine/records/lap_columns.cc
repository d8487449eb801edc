#include "engine/records/lap_columns.h"

#include <algorithm>
#include <array>
#include <vector>

#include <fmt/format.h>

namespace kartwright {

namespace {

/// The usual names of a column; those behind a blank only where none of the others is there.
using UsualNames = std::array<std::string_view, 6>;
constexpr UsualNames kLapNames{"lap", "laps", "lapno", "lapnumber", "", "number"};
constexpr UsualNames kTimeNames{"laptime", "", "time", "seconds", "", ""};
constexpr UsualNames kGroupNames{"group", "setting", "setup", "run", "", ""};

std::vector<std::size_t> cells_named(const CsvLine& header, auto fits) {
  std::vector<std::size_t> found;
  for (std::size_t i = 0; i < header.cells.size(); ++i) {
    if (fits(header.cells[i].text)) found.push_back(i);
  }
  return found;
}

std::vector<std::size_t> usual_cells(const CsvLine& header, const UsualNames& names) {
  const auto* from = names.begin();
  while (from != names.end()) {
    const auto* const end = std::find(from, names.end(), "");
    auto found = cells_named(header, [&](const std::string& text) {
      return std::find(from, end, plain_column_name(text)) != end;
    });
    if (!found.empty()) return found;
    from = end == names.end() ? end : end + 1;
  }
  return {};
}

/// What there is, in words.
std::string columns_there(const CsvLine& header) {
  constexpr std::size_t kFew = 12;
  std::string text = header.cells.size() == 1 ? "the only column is " : "the columns are ";
  for (std::size_t i = 0; i < header.cells.size() && i < kFew; ++i)
    text += fmt::format("{}`{}`", i == 0 ? "" : ", ", header.cells[i].text);
  if (header.cells.size() > kFew) text += fmt::format(" and {} more", header.cells.size() - kFew);
  return text;
}

class Finder {
 public:
  Finder(const CsvLine& header, const std::string& file, Findings& findings)
      : header_(header), file_(file), findings_(findings) {}

  /// The column asked for by its exact name or, without one, found by the usual names.
  std::optional<std::size_t> find(std::string_view what, const std::string& asked,
                                  const UsualNames& usual, bool needed) {
    const auto found =
        asked.empty()
            ? usual_cells(header_, usual)
            : cells_named(header_, [&](const std::string& text) { return text == asked; });
    if (found.size() == 1) return found.front();
    if (found.size() > 1) {
      two(what, asked, found);
    } else if (needed || !asked.empty()) {
      none(what, asked, usual);
    }
    return {};
  }

  /// The column of --only: by its exact name, or else by one that reads the same.
  std::optional<std::size_t> find_only(const std::string& asked) {
    const bool exact = std::any_of(header_.cells.begin(), header_.cells.end(),
                                   [&](const CsvCell& cell) { return cell.text == asked; });
    const auto found = cells_named(header_, [&](const std::string& text) {
      return exact ? text == asked : plain_column_name(text) == plain_column_name(asked);
    });
    if (found.size() == 1) return found.front();
    if (found.empty()) {
      none("rows", asked, {});
    } else {
      two("rows", asked, found);
    }
    return {};
  }

 private:
  void none(std::string_view what, const std::string& asked, const UsualNames& usual) {
    std::string message =
        asked.empty()
            ? fmt::format("no column is the {}: none is named {}, or the like", what, usual[0])
            : fmt::format("there is no column `{}` for the {}", asked, what);
    std::vector<std::string> names;
    for (const CsvCell& cell : header_.cells) names.push_back(cell.text);
    const std::string near = asked.empty() ? "" : nearest_name(asked, names);
    add(0, header_.text.size(), std::move(message),
        (near.empty() ? "" : "did you mean `" + near + "`? ") + columns_there(header_));
  }

  void two(std::string_view what, const std::string& asked, const std::vector<std::size_t>& found) {
    const CsvCell& second = header_.cells[found[1]];
    std::string message = asked.empty()
                              ? fmt::format("two columns could be the {}: `{}` and `{}`", what,
                                            header_.cells[found[0]].text, second.text)
                              : fmt::format("`{}` stands twice in the header", second.text);
    add(second.at, second.text.size(), std::move(message),
        asked.empty() && header_.cells[found[0]].text != second.text
            ? "say which is meant with --column"
            : "give each column a name of its own");
  }

  void add(std::size_t at, std::size_t length, std::string message, std::string help) {
    findings_.add(at_cell(header_, at, length,
                          {.code = Code::no_such_column,
                           .file = file_,
                           .message = std::move(message),
                           .help = std::move(help)}));
  }

  const CsvLine& header_;
  const std::string& file_;
  Findings& findings_;
};

}  // namespace

std::string plain_column_name(std::string_view name) {
  std::string plain;
  for (const char c : name) {
    if (std::string_view(" \t._-").find(c) != std::string_view::npos) continue;
    plain += c >= 'A' && c <= 'Z' ? static_cast<char>(c + 32) : c;
  }
  return plain;
}

std::optional<LapColumns> find_lap_columns(const CsvLine& header, const std::string& file,
                                           const LapsWanted& wanted, Findings& findings) {
  Finder finder(header, file, findings);
  LapColumns out;
  out.lap = finder.find("lap number", wanted.lap, kLapNames, false);
  const auto time = finder.find("lap time", wanted.time, kTimeNames, true);
  if (!wanted.all_laps)
    out.group = finder.find("group", wanted.group, kGroupNames, wanted.needs_group);
  if (!wanted.only_column.empty()) out.only = finder.find_only(wanted.only_column);
  if (findings.has_errors() || !time) return {};
  out.time = *time;
  return out;
}

}  // namespace kartwright
