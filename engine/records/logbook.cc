#include "engine/records/logbook.h"

#include <algorithm>
#include <array>
#include <filesystem>
#include <fstream>
#include <unordered_map>

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

#include "engine/records/log_columns.h"
#include "engine/records/log_errors.h"
#include "engine/records/log_schema.h"

namespace kartwright {

namespace {

/// Which runs are asked for: a SELECT of their ids, with ?1 and ?2 in it.
struct Wanted {
  std::string ids;
  std::string kart;
  std::int64_t number = -1;  ///< ?2; -1 where all runs are wanted

  /// Nearly every row of the other tables, which are read through sooner than searched.
  bool all() const { return number < 0; }

  void bind_to(SQLite::Statement& statement) const {
    statement.bind(1, kart);
    statement.bind(2, number);
  }
};

/// Of one kart, or of all where none is named; the latest, or all.
Wanted latest(const std::string& kart, std::optional<std::size_t> last) {
  // The kart by itself, so that SQLite finds its runs by their index, in their order.
  const std::string of_kart =
      kart.empty() ? "?1 = ''" : "kart = (SELECT id FROM kart WHERE name = ?1)";
  if (!last) return {"SELECT id FROM run WHERE ?2 = -1 AND " + of_kart, kart, -1};
  return {"SELECT id FROM run WHERE " + of_kart + " ORDER BY at DESC LIMIT ?2", kart,
          static_cast<std::int64_t>(*last)};
}

void add_column(std::string& columns, const std::string& column) {
  if (!columns.empty()) columns += ", ";
  columns += column;
}

/// A column of a list, quoted; NULL where it is not wanted.
std::string column_of_part(std::string_view name, const RunParts& wanted) {
  static constexpr std::array<std::string_view, 4> kInWords{"words", "corners", "side", "when"};
  const bool in_words = std::find(kInWords.begin(), kInWords.end(), name) != kInWords.end();
  const bool left_out = in_words ? !wanted.words : name == "advice" && !wanted.advice;
  return left_out ? "NULL" : fmt::format("\"{}\"", name);
}

/// The columns of a list, quoted; those that are not wanted read as nothing.
template <typename Part>
std::string columns_of_part(const RunParts& wanted = {.advice = true}) {
  std::string columns;
  const Part part{};
  FieldsOf<Part>::each(part, [&](const std::string_view name, const auto&) {
    add_column(columns, column_of_part(name, wanted));
  });
  return columns;
}

std::string select_parts(const std::string& columns, std::string_view table, const Wanted& wanted) {
  return fmt::format("SELECT run, {} FROM {} WHERE {} ORDER BY run, n", columns, table,
                     wanted.all() ? "?1 = ?1 AND ?2 = ?2" : fmt::format("run IN ({})", wanted.ids));
}

std::string columns_of_run() {
  std::string columns;
  const Run run{};
  each_field_of_run(run, [&](const char* name, const auto&) {
    add_column(columns, fmt::format("\"{}\"", name));
  });
  return columns;
}

std::string question_marks(const std::string& columns) {
  std::string marks = "?";
  for (const char c : columns) marks += c == ',' ? ", ?" : "";
  return marks;
}

/// How large the file says that it is, in bytes; 0 where it does not say.
std::uintmax_t size_by_its_header(const std::string& path) {
  std::array<unsigned char, 32> head{};
  std::ifstream file(path, std::ios::binary);
  if (!file.read(reinterpret_cast<char*>(head.data()), head.size())) return 0;
  const auto big_endian = [&](std::size_t at, std::size_t bytes) {
    std::uintmax_t value = 0;
    for (std::size_t i = 0; i < bytes; ++i) value = value * 256U + head.at(at + i);
    return value;
  };
  const std::uintmax_t page = big_endian(16, 2);
  return (page == 1 ? 65536U : page) * big_endian(28, 4);
}

/// A path that SQLite takes for no word of its own: `:memory:` would be a log that nobody keeps.
std::string as_a_file(const std::string& path) {
  return path.starts_with(':') ? "./" + path : path;
}

std::int64_t number_of(SQLite::Database& db, const std::string& sql) {
  return db.execAndGet(sql).getInt64();
}

}  // namespace

struct Logbook::Inside {
  std::string path;
  SQLite::Database db;
  bool writing = false;

  Inside(const std::string& file, For what, int patience)
      : path(file),
        db(as_a_file(file),
           SQLite::OPEN_NOMUTEX | SQLite::OPEN_READWRITE |
               (what == For::keeping ? SQLite::OPEN_CREATE : 0),
           patience) {
    db.exec("PRAGMA foreign_keys = ON; PRAGMA synchronous = FULL");
    SQLite::Transaction look(db);
    const int version = check();
    look.commit();
    if (version == log_version()) return;
    if (version == 0 && what != For::keeping) refuse_log(path, Code::not_a_log, "this is no log");
    if (what != For::reading) bring_up(db, migrations());
  }

  /// The version of the log; refuses what is none. Inside a transaction, so that nobody writes.
  int check() {
    const auto version = static_cast<int>(number_of(db, "PRAGMA user_version"));
    const std::int64_t mark = number_of(db, "PRAGMA application_id");
    const std::int64_t tables = number_of(db, "SELECT count(*) FROM sqlite_master");
    if (tables == 0 && version == 0) return 0;
    if (mark != kLogMark) {
      refuse_log(path, Code::not_a_log, "this is a database, but no log of this program",
                 "give the log a file of its own");
    }
    if (version > log_version()) {
      refuse_log(path, Code::newer_log,
                 fmt::format("the log is of version {}, and this program knows them up to {}",
                             version, log_version()),
                 "a newer kartwright wrote it; it is not touched");
    }
    // Both would make SQLite do what stands in the file when a run is written or read.
    if (number_of(db, "SELECT count(*) FROM sqlite_master WHERE type IN ('trigger', 'view')") > 0) {
      refuse_log(path, Code::not_a_log, "the log holds a trigger or a view, and none of ours does",
                 "somebody put it there; take an export of an older copy");
    }
    std::error_code error;
    const std::uintmax_t size = std::filesystem::file_size(path, error);
    if (error)
      refuse_log(path, Code::cannot_read, "the log cannot be read any more: " + error.message());
    if (size < size_by_its_header(path)) {
      refuse_log(path, Code::damaged_log, "the log is cut short: its end is missing",
                 "take a copy or an export of it instead; the file is left as it is");
    }
    return version;
  }

  std::int64_t kart_id(const std::string& name) const {
    SQLite::Statement put(db, "INSERT INTO kart (name) VALUES (?) ON CONFLICT DO NOTHING");
    put.bind(1, name);
    put.exec();
    SQLite::Statement get(db, "SELECT id FROM kart WHERE name = ?");
    get.bind(1, name);
    get.executeStep();
    return get.getColumn(0).getInt64();
  }

  /// The row of the run itself.
  std::int64_t put_row(const Run& run) const {
    const std::string columns = columns_of_run();
    SQLite::Statement put(db, fmt::format("INSERT INTO run (id, kart, at, {}) VALUES (?, ?, ?, {})",
                                          columns, question_marks(columns)));
    if (run.id > 0) put.bind(1, run.id);
    put.bind(2, kart_id(run.kart));
    put.bind(3, run.at);
    BindColumns bind{put, 4};
    each_field_of_run(run, bind);
    put.exec();
    return run.id > 0 ? run.id : db.getLastInsertRowid();
  }

  template <typename Part>
  void put_part(const char* table, std::int64_t run, const std::vector<Part>& parts) {
    if (parts.empty()) return;
    const std::string columns = columns_of_part<Part>();
    SQLite::Statement put(db, fmt::format("INSERT INTO {} (run, n, {}) VALUES (?, ?, {})", table,
                                          columns, question_marks(columns)));
    for (std::size_t n = 0; n < parts.size(); ++n) {
      put.reset();
      put.clearBindings();
      put.bind(1, run);
      put.bind(2, static_cast<std::int64_t>(n));
      BindColumns bind{put, 3};
      FieldsOf<Part>::each(parts[n], bind);
      put.exec();
    }
  }

  std::int64_t put(const Run& run) {
    // Advice that was not read with a run must not get lost when the run is written again.
    const Run whole = run.id > 0 ? with_its_advice(run) : run;
    if (run.id > 0) {
      SQLite::Statement gone(db, "DELETE FROM run WHERE id = ?");
      gone.bind(1, run.id);
      gone.exec();
    }
    const std::int64_t id = put_row(whole);
    each_part_of_run(whole,
                     [&](const char* table, const auto& parts) { put_part(table, id, parts); });
    return id;
  }

  Run with_its_advice(Run run) const {
    SQLite::Statement get(db, "SELECT n, advice FROM change WHERE run = ? AND advice IS NOT NULL");
    get.bind(1, run.id);
    while (get.executeStep()) {
      const auto n = static_cast<std::size_t>(get.getColumn(0).getInt64());
      if (n < run.changes.size() && run.changes[n].advice.empty())
        run.changes[n].advice = get.getColumn(1).getString();
    }
    return run;
  }

  std::vector<Run> get_rows(const Wanted& wanted) const {
    SQLite::Statement get(
        db, fmt::format("SELECT run.id, kart.name, at, {} FROM run JOIN kart ON kart.id = run.kart "
                        "WHERE {} ORDER BY at, run.id",
                        columns_of_run(),
                        wanted.all() && !wanted.kart.empty()
                            ? std::string("run.kart = (SELECT id FROM kart "
                                          "WHERE name = ?1) AND ?2 = ?2")
                            : fmt::format("run.id IN ({})", wanted.ids)));
    wanted.bind_to(get);
    std::vector<Run> runs;
    while (get.executeStep()) {
      Run& run = runs.emplace_back();
      run.id = get.getColumn(0).getInt64();
      run.kart = get.getColumn(1).getString();
      run.at = get.getColumn(2).getString();
      ReadColumns read{get, 3, path};
      each_field_of_run(run, read);
    }
    return runs;
  }

  /// Scales that all the rest relies on; the database checks them too, where it is asked.
  void check_range(const Report& report) const {
    if (report.severity >= 0 && report.severity <= 3) return;
    refuse_log(path, Code::damaged_log,
               fmt::format("the log is damaged: it holds a severity of {}", report.severity),
               "keep the file as it is, and take a copy or an export of it instead");
  }
  template <typename Part>
  void check_range(const Part&) const {}

  /// Reads one list of all runs wanted; `list(id)` gives the list of a run to put it into, or
  /// nullptr.
  template <typename Part, typename List>
  void get_part(const char* table, const Wanted& wanted, const RunParts& fields, const List& list) {
    SQLite::Statement get(db, select_parts(columns_of_part<Part>(fields), table, wanted));
    wanted.bind_to(get);
    std::int64_t id = -1;
    std::vector<Part>* parts = nullptr;
    while (get.executeStep()) {
      const std::int64_t next = get.getColumn(0).getInt64();
      if (next != id) parts = list(next);
      id = next;
      if (parts == nullptr) continue;
      ReadColumns read{get, 1, path};
      FieldsOf<Part>::each(parts->emplace_back(), read);
      check_range(parts->back());
    }
  }

  using Places = std::unordered_map<std::int64_t, std::size_t>;

  /// Where a run stands among those read; nothing where it is of another kart.
  std::optional<std::size_t> place_of(std::int64_t id, const Places& places,
                                      const Wanted& wanted) const {
    const auto place = places.find(id);
    if (place != places.end()) return place->second;
    if (wanted.all() && !wanted.kart.empty()) return std::nullopt;
    refuse_log(path, Code::damaged_log, "the log is damaged: it holds a part of no run",
               "keep the file as it is, and take a copy or an export of it instead");
  }

  std::vector<Run> get(const Wanted& wanted, const RunParts& parts) {
    std::optional<SQLite::Transaction> still;  // all lists of one moment
    if (!writing) still.emplace(db);
    std::vector<Run> runs = get_rows(wanted);
    Places places;
    for (std::size_t i = 0; i < runs.size(); ++i) places.emplace(runs[i].id, i);
    const auto read = [&]<typename Part>(bool asked, const char* table,
                                         std::vector<Part> Run::*list) {
      if (!asked) return;
      get_part<Part>(table, wanted, parts, [&](std::int64_t id) -> std::vector<Part>* {
        const std::optional<std::size_t> place = place_of(id, places, wanted);
        return place ? &(runs[*place].*list) : nullptr;
      });
    };
    read(parts.settings, "setting", &Run::settings);
    read(parts.laps, "lap", &Run::laps);
    read(parts.reports, "report", &Run::reports);
    read(parts.facts, "fact", &Run::facts);
    read(parts.notes, "note", &Run::notes);
    read(parts.changes, "change", &Run::changes);
    read(parts.verdicts, "verdict", &Run::verdicts);
    return runs;
  }

  std::optional<Run> get_one(const Wanted& wanted) {
    std::vector<Run> runs = get(wanted, {.advice = true});
    if (runs.empty()) return {};
    return std::move(runs.back());
  }
};

namespace {

/// Refuses what SQLite would open and no log can be.
void check_kind_of_file(const std::string& path, Logbook::For what) {
  namespace fs = std::filesystem;
  std::error_code error;
  const fs::file_status status = fs::status(path, error);
  if (error && status.type() != fs::file_type::not_found)
    refuse_log(path, Code::cannot_read, "the log cannot be read: " + error.message());
  if (!fs::exists(status)) {
    if (what == Logbook::For::keeping) return;
    refuse_log(path, Code::cannot_read, "there is no log at this path",
               "`kartwright log add` makes one");
  }
  if (fs::is_directory(status))
    refuse_log(path, Code::cannot_read, "this is a folder", "a log is one file");
  if (!fs::is_regular_file(status)) {
    refuse_log(path, Code::not_a_log, "this is no file that keeps what is written into it",
               "a log is one file on a disk");
  }
  // SQLite takes a file of one byte for an empty one, and writes over it.
  if (fs::file_size(path, error) == 1)
    refuse_log(path, Code::not_a_log, "this is no log", "a log is made by `kartwright log add`");
}

}  // namespace

Logbook::Logbook(const std::string& path, For what, int patience) {
  check_kind_of_file(path, what);
  in_ = with_log(path, [&] { return std::make_unique<Inside>(path, what, patience); });
}

Logbook::~Logbook() = default;

const std::string& Logbook::path() const { return in_->path; }

Logbook::Writing::Writing(Logbook& log) : log_(log) {
  with_log(log_.path(), [&] { log_.in_->db.exec("BEGIN IMMEDIATE"); });
  log_.in_->writing = true;
}

Logbook::Writing::~Writing() {
  if (!open_) return;
  log_.in_->writing = false;
  try {
    log_.in_->db.exec("ROLLBACK");
  } catch (const SQLite::Exception&) {  // a full disk has rolled it back already
  }
}

void Logbook::Writing::commit() {
  with_log(log_.path(), [&] { log_.in_->db.exec("COMMIT"); });
  log_.in_->writing = false;
  open_ = false;
}

std::int64_t Logbook::put(const Run& run) {
  if (!in_->writing) {
    Writing alone(*this);
    const std::int64_t id = put(run);
    alone.commit();
    return id;
  }
  return with_log(path(), [&] { return in_->put(run); });
}

std::vector<std::string> Logbook::karts() const {
  return with_log(path(), [&] {
    std::vector<std::string> names;
    SQLite::Statement get(in_->db,
                          "SELECT name FROM kart WHERE id IN (SELECT kart FROM run) "
                          "ORDER BY name");
    while (get.executeStep()) names.push_back(get.getColumn(0).getString());
    return names;
  });
}

std::size_t Logbook::count_runs(const std::string& kart) const {
  return with_log(path(), [&] {
    SQLite::Statement get(in_->db,
                          "SELECT count(*) FROM run WHERE ?1 = '' OR kart = (SELECT id FROM kart "
                          "WHERE name = ?1)");
    get.bind(1, kart);
    get.executeStep();
    return static_cast<std::size_t>(get.getColumn(0).getInt64());
  });
}

std::vector<std::int64_t> Logbook::ids() const {
  return with_log(path(), [&] {
    std::vector<std::int64_t> ids;
    SQLite::Statement get(in_->db, "SELECT id FROM run ORDER BY at, id");
    while (get.executeStep()) ids.push_back(get.getColumn(0).getInt64());
    return ids;
  });
}

std::vector<Run> Logbook::runs(const std::string& kart, const RunParts& parts,
                               std::optional<std::size_t> last) const {
  return with_log(path(), [&] { return in_->get(latest(kart, last), parts); });
}

std::optional<Run> Logbook::run(std::int64_t id) const {
  return with_log(path(), [&] { return in_->get_one({"SELECT ?2 WHERE ?1 = ''", "", id}); });
}

std::optional<Run> Logbook::run_at(const std::string& kart, const std::string& at) const {
  return with_log(path(), [&]() -> std::optional<Run> {
    SQLite::Statement find(in_->db,
                           "SELECT run.id FROM run JOIN kart ON kart.id = run.kart "
                           "WHERE kart.name = ? AND at = ?");
    find.bind(1, kart);
    find.bind(2, at);
    if (!find.executeStep()) return {};
    return in_->get_one({"SELECT ?2 WHERE ?1 = ''", "", find.getColumn(0).getInt64()});
  });
}

namespace {

/// The last run of a kart that was driven, or was not; `before` is a moment as runs have it.
Wanted last_that(const std::string& kart, bool was_driven, const std::string& before = {}) {
  return {fmt::format("SELECT id FROM run WHERE kart = (SELECT id FROM kart WHERE name = ?1) AND "
                      "driven = {} {} ORDER BY at DESC, id DESC LIMIT ?2",
                      was_driven ? 1 : 0, before.empty() ? "" : "AND at < '" + before + "'"),
          kart, 1};
}

}  // namespace

std::optional<Run> Logbook::last_driven(const std::string& kart, const std::string& before) const {
  const std::string moment = parse_moment(before).value_or("");
  return with_log(path(), [&] { return in_->get_one(last_that(kart, true, moment)); });
}

std::optional<Run> Logbook::made_ready(const std::string& kart) const {
  return with_log(path(), [&] { return in_->get_one(last_that(kart, false)); });
}

void Logbook::remember_advice(const std::string& kart, const std::string& at,
                              const std::string& advice) {
  Writing alone(*this);
  with_log(path(), [&] {
    SQLite::Statement put(in_->db,
                          "INSERT OR REPLACE INTO advice (kart, at, body) VALUES (?, ?, ?)");
    put.bind(1, in_->kart_id(kart));
    put.bind(2, at);
    put.bind(3, advice);
    put.exec();
  });
  alone.commit();
}

std::optional<std::string> Logbook::last_advice(const std::string& kart) const {
  return with_log(path(), [&]() -> std::optional<std::string> {
    SQLite::Statement get(in_->db,
                          "SELECT body FROM advice WHERE kart = (SELECT id FROM kart WHERE name = "
                          "?)");
    get.bind(1, kart);
    if (!get.executeStep()) return {};
    return get.getColumn(0).getString();
  });
}

std::vector<std::string> Logbook::damage() const {
  std::vector<std::string> found;
  const auto collect = [&](const char* sql, int column) {
    SQLite::Statement get(in_->db, sql);
    while (get.executeStep()) found.push_back(get.getColumn(column).getString());
  };
  return with_log(path(), [&] {
    collect("PRAGMA integrity_check", 0);
    if (found == std::vector<std::string>{"ok"}) found.clear();
    SQLite::Statement keys(in_->db, "PRAGMA foreign_key_check");
    while (keys.executeStep()) {
      found.push_back(fmt::format("table {} points at a row of {} that is not there",
                                  keys.getColumn(0).getString(), keys.getColumn(2).getString()));
    }
    return found;
  });
}

}  // namespace kartwright
