#include "tests/fuzz/log_edits.h"

#include <charconv>
#include <fstream>
#include <optional>
#include <sstream>

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

#include "cli/exchange.h"
#include "tests/support/temp_folder.h"

namespace kartwright::fuzz {
namespace {

// One run a line, as an export has them.
constexpr const char* kTwoRuns =
    R"({"schema":"kartwright/log/1","runs":[)"
    "\n"
    R"({"kart":"harbour 27","at":"2026-11-14T09:00:00","session":"heat 1")"
    R"(,"track":"green","air":9.5,"road":11.0,"tyres":"set 1","tyre-laps":0)"
    R"(,"driver":"the invented one","load":"3 l","driven":true,"complete":true)"
    R"(,"said":"pushes going in","settings":[{"adjustment":"rear-width")"
    R"(,"value":"1360 mm"},{"adjustment":"toe","value":"1 mm"}],"laps":[{"number":1)"
    R"(,"seconds":33.1,"flag":"out","by-crew":false},{"number":2,"seconds":31.0)"
    R"(,"flag":"counts","by-crew":true},{"number":3,"seconds":31.1,"flag":"counts")"
    R"(,"by-crew":false}],"reports":[{"symptom":"push","phase":"entry","severity":2)"
    R"(,"confidence":"fair","side":"left","when":"late","corners":"3")"
    R"(,"words":"pushes going in","from-praise":false}],"facts":[{"fact":"turn-in")"
    R"(,"value":"brake","words":"on the brake"}])"
    R"(,"notes":[{"text":"wind from the sea"}]},)"
    "\n"
    R"({"kart":"harbour 27","at":"2026-11-14T10:00:00","session":"heat 2")"
    R"(,"track":"green","driven":true,"complete":true,"said":"still pushes")"
    R"(,"settings":[{"adjustment":"rear-width","value":"1370 mm"},{"adjustment":"toe")"
    R"(,"value":"1 mm"}],"laps":[{"number":1,"seconds":30.9,"flag":"counts")"
    R"(,"by-crew":false},{"number":2,"seconds":30.8,"flag":"counts","by-crew":false}])"
    R"(,"reports":[{"symptom":"push","phase":"entry","severity":1,"confidence":"fair")"
    R"(,"from-praise":false}],"changes":[{"adjustment":"rear-width","from":"1360 mm")"
    R"(,"to":"1370 mm","steps":1.0,"origin":"advice","asked-by":"chief")"
    R"(,"why":"it pushes","rank":1,"relief":0.5,"advice":"{}"}])"
    R"(,"verdicts":[{"adjustment":"rear-width","verdict":"keep","by":"clock")"
    R"(,"text":"0.2 s a lap"}]})"
    "\n"
    R"(],"count":2})"
    "\n";

std::string made_log() {
  const TempFolder folder;
  const std::string path = folder.path() + "/sound.db";
  {
    Logbook log(path, Logbook::For::keeping);
    cli::import_log(log, folder.write("two.json", kTwoRuns), false);
    log.remember_advice("harbour 27", "2026-11-14T11:00:00", "{}");
  }
  std::ifstream file(path, std::ios::binary);
  std::ostringstream bytes;
  bytes << file.rdbuf();
  return bytes.str();
}

/// A word off the front of a line.
std::string_view word_off(std::string_view& line) {
  const std::size_t end = std::min(line.find(' '), line.size());
  const std::string_view word = line.substr(0, end);
  line.remove_prefix(std::min(end + 1, line.size()));
  return word;
}

template <typename Number>
Number number_in(std::string_view text) {
  Number number{};
  std::from_chars(text.data(), text.data() + text.size(), number);
  return number;
}

std::optional<int> hex_digit(char c) {
  const std::string_view digits = "0123456789abcdef";
  const std::size_t at = digits.find(c);
  return at == std::string_view::npos ? std::nullopt : std::optional(static_cast<int>(at));
}

/// With `\xNN` as the byte that it names.
std::string unescaped(std::string_view text) {
  std::string out;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const bool escape = text.substr(i).starts_with("\\x") && i + 3 < text.size();
    const auto high = escape ? hex_digit(text[i + 2]) : std::nullopt;
    const auto low = escape ? hex_digit(text[i + 3]) : std::nullopt;
    if (!high || !low) {
      out += text[i];
      continue;
    }
    out += static_cast<char>(*high * 16 + *low);
    i += 3;
  }
  return out;
}

bool is_name(std::string_view word) {
  return !word.empty() && word.find('"') == std::string_view::npos &&
         word.find('\0') == std::string_view::npos;
}

/// Which row of a table: tables of parts have a key of two columns.
std::string row_of(std::string_view table, std::string_view row) {
  const int at = number_in<int>(row);
  const bool has_id = table == "run" || table == "kart";
  const char* const key = has_id ? "id" : table == "advice" ? "kart" : "run, n";
  return fmt::format("({0}) IN (SELECT {0} FROM \"{1}\" LIMIT 1 OFFSET {2})", key, table, at);
}

void bind_value(SQLite::Statement& put, std::string_view kind, std::string_view value) {
  const std::string bytes = unescaped(value);
  if (kind == "text") {
    put.bind(1, bytes);
  } else if (kind == "blob") {
    put.bind(1, bytes.data(), static_cast<int>(bytes.size()));
  } else if (kind == "whole") {
    put.bind(1, number_in<std::int64_t>(value));
  } else if (kind == "real") {
    put.bind(1, number_in<double>(value));
  } else {
    put.bind(1);
  }
}

void make_edit(SQLite::Database& db, std::string_view line) {
  const std::string_view what = word_off(line);
  const std::string_view table = word_off(line);
  if (what == "version") {
    db.exec(fmt::format("PRAGMA user_version = {}", number_in<int>(table)));
  } else if (!is_name(table)) {
    return;
  } else if (what == "drop") {
    db.exec(fmt::format("DROP TABLE \"{}\"", table));
  } else if (what == "delete") {
    db.exec(fmt::format("DELETE FROM \"{}\" WHERE {}", table, row_of(table, line)));
  } else if (what == "set") {
    const std::string_view column = word_off(line);
    if (!is_name(column)) return;
    const std::string row = row_of(table, word_off(line));
    SQLite::Statement put(
        db, fmt::format("UPDATE \"{}\" SET \"{}\" = ?1 WHERE {}", table, column, row));
    const std::string_view kind = word_off(line);
    bind_value(put, kind, line);
    put.exec();
  }
}

}  // namespace

const std::string& sound_log() {
  static const std::string kBytes = made_log();
  return kBytes;
}

bool edit_log(const std::string& path, std::string_view text) {
  SQLite::Database db(path, SQLite::OPEN_READWRITE);
  db.exec(
      "PRAGMA foreign_keys = OFF; PRAGMA ignore_check_constraints = ON;"
      "PRAGMA synchronous = OFF; PRAGMA journal_mode = MEMORY; BEGIN");
  int made = 0;
  text.remove_prefix(std::min(kEdits.size(), text.size()));
  while (!text.empty()) {
    const std::size_t end = std::min(text.find('\n'), text.size());
    const std::string_view line = text.substr(0, end);
    text.remove_prefix(std::min(end + 1, text.size()));
    try {
      const int before = db.getTotalChanges();
      make_edit(db, line);
      made +=
          db.getTotalChanges() > before || line.starts_with("drop") || line.starts_with("version")
              ? 1
              : 0;
    } catch (const SQLite::Exception&) {  // the database has refused it, and keeps what it had
    }
  }
  db.exec("COMMIT");
  return made > 0;
}

}  // namespace kartwright::fuzz
