#include "engine/records/log_schema.h"

#include <array>

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

namespace kartwright {

namespace {

constexpr std::array kMigrations{
    R"sql(
CREATE TABLE kart (
  id INTEGER PRIMARY KEY,
  name TEXT NOT NULL UNIQUE
);
CREATE TABLE advice (  -- the last one of each kart, for `apply`
  kart INTEGER PRIMARY KEY REFERENCES kart,
  at TEXT NOT NULL,
  body TEXT NOT NULL
);
CREATE TABLE run (
  id INTEGER PRIMARY KEY,
  kart INTEGER NOT NULL REFERENCES kart,
  at TEXT NOT NULL,
  session TEXT, track TEXT, air REAL, road REAL, tyres TEXT, "tyre-laps" INTEGER,
  driver TEXT, load TEXT,
  driven INTEGER NOT NULL CHECK (driven IN (0, 1)),
  complete INTEGER NOT NULL CHECK (complete IN (0, 1)),
  said TEXT,
  UNIQUE (kart, at)
);
CREATE TABLE setting (
  run INTEGER NOT NULL REFERENCES run ON DELETE CASCADE,
  n INTEGER NOT NULL,
  adjustment TEXT NOT NULL,
  value TEXT NOT NULL,
  PRIMARY KEY (run, n)
) WITHOUT ROWID;
CREATE TABLE lap (
  run INTEGER NOT NULL REFERENCES run ON DELETE CASCADE,
  n INTEGER NOT NULL,
  number INTEGER NOT NULL,
  seconds REAL NOT NULL CHECK (seconds > 0),
  flag TEXT NOT NULL,
  "by-crew" INTEGER NOT NULL,
  PRIMARY KEY (run, n),
  UNIQUE (run, number)
) WITHOUT ROWID;
CREATE TABLE report (
  run INTEGER NOT NULL REFERENCES run ON DELETE CASCADE,
  n INTEGER NOT NULL,
  symptom TEXT NOT NULL,
  phase TEXT NOT NULL,
  severity INTEGER NOT NULL CHECK (severity BETWEEN 0 AND 3),
  confidence TEXT NOT NULL,
  side TEXT, "when" TEXT, corners TEXT, words TEXT,
  "from-praise" INTEGER NOT NULL,
  PRIMARY KEY (run, n)
) WITHOUT ROWID;
CREATE TABLE fact (
  run INTEGER NOT NULL REFERENCES run ON DELETE CASCADE,
  n INTEGER NOT NULL,
  fact TEXT NOT NULL,
  value TEXT NOT NULL,
  words TEXT,
  PRIMARY KEY (run, n)
) WITHOUT ROWID;
CREATE TABLE note (
  run INTEGER NOT NULL REFERENCES run ON DELETE CASCADE,
  n INTEGER NOT NULL,
  text TEXT NOT NULL,
  PRIMARY KEY (run, n)
) WITHOUT ROWID;
CREATE TABLE change (
  run INTEGER NOT NULL REFERENCES run ON DELETE CASCADE,
  n INTEGER NOT NULL,
  adjustment TEXT NOT NULL,
  "from" TEXT NOT NULL,
  "to" TEXT NOT NULL,
  steps REAL NOT NULL,
  origin TEXT NOT NULL,
  "asked-by" TEXT, why TEXT, rank INTEGER, relief REAL, advice TEXT,
  PRIMARY KEY (run, n)
) WITHOUT ROWID;
CREATE TABLE verdict (
  run INTEGER NOT NULL REFERENCES run ON DELETE CASCADE,
  n INTEGER NOT NULL,
  adjustment TEXT NOT NULL,
  verdict TEXT NOT NULL,
  "by" TEXT, text TEXT,
  PRIMARY KEY (run, n)
) WITHOUT ROWID;
)sql",
};

}  // namespace

std::span<const char* const> migrations() { return kMigrations; }

void bring_up(SQLite::Database& db, std::span<const char* const> steps) {
  SQLite::Transaction all(db, SQLite::TransactionBehavior::IMMEDIATE);
  const auto version = static_cast<std::size_t>(db.execAndGet("PRAGMA user_version").getInt());
  if (version >= steps.size()) return;
  for (const char* const step : steps.subspan(version)) db.exec(step);
  db.exec(
      fmt::format("PRAGMA application_id = {}; PRAGMA user_version = {}", kLogMark, steps.size()));
  all.commit();
}

}  // namespace kartwright
