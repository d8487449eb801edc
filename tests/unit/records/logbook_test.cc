// The log on the disk: what goes in comes out, and what is no log is left alone.

#include "engine/records/logbook.h"

#include <chrono>
#include <filesystem>
#include <thread>

#include <SQLiteCpp/SQLiteCpp.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "engine/records/log_schema.h"
#include "tests/support/kart_pack.h"
#include "tests/support/log_files.h"
#include "tests/support/small_rules.h"

namespace kartwright {
namespace {

namespace fs = std::filesystem;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::SizeIs;

/// The one code that opening a file as a log gives; "none" where it opens.
std::string code_of(const std::string& path, Logbook::For what = kWriting) {
  const std::vector<Diagnostic> found = found_by([&] { Logbook(path, what); });
  return found.empty() ? "none" : std::string(code_name(found.front().code));
}

TEST(Logbook, EveryFieldOfARunSurvives) {
  const TempFolder folder;
  const std::string path = folder.path() + "/day.db";
  const std::int64_t id = Logbook(path, kKeeping).put(whole_run());
  const Logbook log(path, kReading);
  const LoggedRun run = log.run(id).value();
  EXPECT_EQ(run.id, id);
  EXPECT_EQ(in_words(run), in_words(whole_run()));
  EXPECT_EQ(in_words(log.run_at("blue 27", whole_run().at).value()), in_words(whole_run()));
}

TEST(Logbook, WhatIsEmptyStaysEmpty) {
  const TempFolder folder;
  Logbook log(folder.path() + "/day.db", kKeeping);
  const LoggedRun bare{.kart = "a", .at = "2026-11-14T10:30:00", .driven = false};
  const LoggedRun run = log.run(log.put(bare)).value();
  EXPECT_EQ(in_words(run), in_words(bare));
  EXPECT_EQ(run.air, std::nullopt);
  EXPECT_EQ(run.tyre_laps, std::nullopt);
}

TEST(Logbook, TheAdviceOfAChangeSurvivesARunThatWasReadWithoutIt) {
  const TempFolder folder;
  Logbook log(folder.path() + "/day.db", kKeeping);
  const std::int64_t id = log.put(whole_run());
  LoggedRun run = log.runs("blue 27").front();
  EXPECT_EQ(run.changes[0].advice, "");
  run.driver = "another";
  EXPECT_EQ(log.put(run), id);
  const LoggedRun again = log.run(id).value();
  EXPECT_EQ(again.driver, "another");
  EXPECT_EQ(again.changes[0].advice, whole_run().changes[0].advice);
  EXPECT_EQ(log.count_runs(""), 1U);
}

TEST(Logbook, RunsStandByTimeAndTheLatestAreTheLast) {
  const TempFolder folder;
  Logbook log(folder.path() + "/day.db", kKeeping);
  const auto put = [&](const char* kart, const char* at) { return log.put(plain_run(kart, at)); };
  const std::int64_t late = put("b", "2026-11-14T12:00:00");
  const std::int64_t early = put("a", "2026-11-14T10:00:00");
  const std::int64_t middle = put("b", "2026-11-14T11:00:00");
  EXPECT_THAT(log.ids(), ElementsAre(early, middle, late));
  EXPECT_THAT(log.karts(), ElementsAre("a", "b"));
  EXPECT_THAT(log.runs(""), SizeIs(3));
  ASSERT_THAT(log.runs("b", {}, 1), SizeIs(1));
  EXPECT_EQ(log.runs("b", {}, 1)[0].id, late);
  EXPECT_THAT(log.runs("none of that name"), IsEmpty());
  EXPECT_THAT(log.runs("", {}, 0), IsEmpty());
  EXPECT_EQ(log.count_runs("b"), 2U);
  EXPECT_EQ(log.last_driven("b")->id, late);
  EXPECT_EQ(log.last_driven("b", "2026-11-14T12:00:00")->id, middle);
  EXPECT_FALSE(log.last_driven("b", "2026-11-14T11:00:00"));
  EXPECT_FALSE(log.made_ready("b"));
}

TEST(Logbook, ASecondRunOfAKartAtOneMomentNeverTakesTheFirstAway) {
  const TempFolder folder;
  Logbook log(folder.path() + "/day.db", kKeeping);
  log.put(whole_run());
  EXPECT_ANY_THROW(log.put(plain_run("blue 27", whole_run().at)));
  ASSERT_EQ(log.count_runs(""), 1U);
  EXPECT_EQ(in_words(log.runs("", {.advice = true})[0]), in_words(whole_run()));
}

TEST(Logbook, ListsThatAreNotAskedForStayEmpty) {
  const TempFolder folder;
  const Logbook log(log_of_runs(folder.path() + "/day.db", 2), kReading);
  const RunParts none{false, false, false, false, false, false, false, false};
  for (const LoggedRun& run : log.runs("", none)) {
    EXPECT_EQ(run.driver, whole_run().driver);
    EXPECT_TRUE(run.laps.empty() && run.settings.empty() && run.changes.empty());
  }
}

TEST(Logbook, TheLastAdviceOfEachKartIsRemembered) {
  const TempFolder folder;
  Logbook log(folder.path() + "/day.db", kKeeping);
  EXPECT_EQ(log.last_advice("a"), std::nullopt);
  log.remember_advice("a", "2026-11-14T10:00:00", "{1}");
  log.remember_advice("b", "2026-11-14T10:00:00", "{2}");
  log.remember_advice("a", "2026-11-14T11:00:00", "{3}");
  EXPECT_EQ(log.last_advice("a"), "{3}");
  EXPECT_EQ(log.last_advice("b"), "{2}");
  EXPECT_THAT(log.karts(), IsEmpty());  // no run yet
}

TEST(Logbook, WhatWasNotCommittedIsNotThere) {
  const TempFolder folder;
  const std::string path = log_of_runs(folder.path() + "/day.db", 1);
  {
    Logbook log(path, kWriting);
    const Logbook::Writing open(log);
    log.put(plain_run("other", "2026-11-15T10:00:00"));
    EXPECT_EQ(log.count_runs(""), 2U);
  }
  Logbook log(path, kWriting);
  EXPECT_EQ(log.count_runs(""), 1U);
  log.put(plain_run("other", "2026-11-15T10:00:00"));  // and the log can be written on
  EXPECT_EQ(log.count_runs(""), 2U);
}

// SQLite would do what stands in either.
TEST(Logbook, OneWithATriggerOrAViewInItIsRefusedBeforeAnythingIsDone) {
  for (const char* const put_in :
       {"CREATE TRIGGER t AFTER INSERT ON run BEGIN DELETE FROM lap; END",
        "CREATE VIEW v AS SELECT * FROM run"}) {
    const TempFolder folder;
    const std::string path = folder.path() + "/day.db";
    Logbook(path, kKeeping).put(whole_run());
    SQLite::Database(path, SQLite::OPEN_READWRITE).exec(put_in);
    const std::string before = bytes_of(path);
    for (const Logbook::For what : {kReading, kWriting, kKeeping})
      EXPECT_EQ(code_of(path, what), "N001") << put_in;
    EXPECT_EQ(bytes_of(path), before);
  }
}

TEST(Logbook, OtherFilesEachGiveTheirCodeAndAreNotTouched) {
  const TempFolder folder;
  const std::string yaml = folder.write("kart.yaml", blue_kart_file());
  const std::string empty = folder.write("empty.db", "");
  const std::string foreign = folder.path() + "/foreign.db";
  SQLite::Database(foreign, SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE)
      .exec("CREATE TABLE run (id INTEGER); INSERT INTO run VALUES (7)");
  const std::string numbered = folder.path() + "/numbered.db";
  SQLite::Database(numbered, SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE)
      .exec("PRAGMA user_version = 1; CREATE TABLE a (b)");
  for (const Logbook::For what : {kReading, kWriting, kKeeping}) {
    for (const std::string& path : {yaml, foreign, numbered}) {
      const std::string before = bytes_of(path);
      EXPECT_EQ(code_of(path, what), "N001") << path;
      EXPECT_EQ(bytes_of(path), before) << path;
    }
    EXPECT_EQ(code_of(folder.path(), what), code_name(Code::cannot_read));
    EXPECT_EQ(code_of("/dev/null", what), "N001");
  }
  EXPECT_EQ(code_of(empty, kReading), "N001");
  EXPECT_EQ(code_of(empty, kWriting), "N001");
  EXPECT_EQ(bytes_of(empty), "");
  EXPECT_EQ(code_of(empty, kKeeping), "none");
  const std::string missing = folder.path() + "/missing.db";
  EXPECT_EQ(code_of(missing, kReading), code_name(Code::cannot_read));
  EXPECT_EQ(code_of(missing, kWriting), code_name(Code::cannot_read));
  EXPECT_FALSE(fs::exists(missing));
  EXPECT_EQ(code_of(folder.path() + "/no/such/folder/day.db", kKeeping), "N004");
}

TEST(Logbook, OfATomorrowIsRefusedAndNotTouched) {
  const TempFolder folder;
  const std::string path = log_of_runs(folder.path() + "/day.db", 1);
  change_by_sql(path, "PRAGMA user_version = " + std::to_string(log_version() + 1));
  const std::string before = bytes_of(path);
  for (const Logbook::For what : {kReading, kWriting, kKeeping})
    EXPECT_EQ(code_of(path, what), "N002");
  EXPECT_EQ(bytes_of(path), before);
}

/// Opens a file as a log and reads all of it; "none" where that works.
std::string code_of_reading(const std::string& path) {
  const std::vector<Diagnostic> found = found_by([&] {
    const Logbook log(path, kReading);
    log.runs("");
  });
  return found.empty() ? "none" : std::string(code_name(found.front().code));
}

TEST(Logbook, CutShortAnywhereIsRefusedAndNotTouched) {
  const TempFolder folder;
  const std::string whole = bytes_of(log_of_runs(folder.path() + "/whole.db", 40));
  std::vector<std::size_t> lengths{1, 15, 16, 17, 99, 100, 101, whole.size() - 1};
  for (std::size_t part = 1; part < 64; ++part) lengths.push_back(whole.size() * part / 64);
  for (const std::size_t length : lengths) {
    const std::string path = folder.write("cut.db", whole.substr(0, length));
    const std::string code = code_of_reading(path);
    EXPECT_TRUE(code == "N001" || code == "N003") << code << " at " << length;
    EXPECT_EQ(code_of(path, kKeeping), code) << length;
    EXPECT_TRUE(bytes_of(path) == whole.substr(0, length)) << length;
  }
}

TEST(Logbook, WithPagesOverwrittenNeverCrashes) {
  const TempFolder folder;
  const std::string whole = bytes_of(log_of_runs(folder.path() + "/whole.db", 40));
  for (std::size_t at = 100; at < whole.size(); at += whole.size() / 48) {
    std::string bytes = whole;
    for (std::size_t i = at; i < std::min(at + 300, bytes.size()); ++i)
      bytes[i] = static_cast<char>(bytes[i] ^ static_cast<char>(0x5A + i % 7));
    const std::string path = folder.write("bad.db", bytes);
    const std::vector<Diagnostic> found = found_by([&] {
      const Logbook log(path, kReading);
      log.damage();
      log.runs("");
    });
    for (const Diagnostic& each : found) EXPECT_EQ(each.code, Code::damaged_log) << told(found);
    EXPECT_TRUE(bytes_of(path) == bytes) << at;
  }
}

TEST(Logbook, DamageIsFound) {
  const TempFolder folder;
  const std::string path = log_of_runs(folder.path() + "/day.db", 2);
  EXPECT_THAT(Logbook(path, kReading).damage(), IsEmpty());
  change_by_sql(path, "PRAGMA foreign_keys = OFF; DELETE FROM kart");
  EXPECT_THAT(Logbook(path, kReading).damage(), testing::Contains(HasSubstr("not there")));
}

TEST(Logbook, AWordThatIsNoneIsDamage) {
  const TempFolder folder;
  const std::string path = log_of_runs(folder.path() + "/day.db", 1);
  change_by_sql(path, "UPDATE lap SET flag = 'sideways'");
  EXPECT_EQ(code_of_reading(path), "N003");
}

TEST(LogSteps, BringADatabaseUpFromWhereverItIs) {
  const char* const steps[] = {"CREATE TABLE a (x); INSERT INTO a VALUES (1)",
                               "ALTER TABLE a ADD COLUMN y; UPDATE a SET y = x + 1"};
  const auto version = [](SQLite::Database& db) {
    return db.execAndGet("PRAGMA user_version").getInt();
  };
  SQLite::Database db(":memory:", SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
  bring_up(db, std::span(steps, 1));
  EXPECT_EQ(version(db), 1);
  EXPECT_EQ(db.execAndGet("PRAGMA application_id").getInt(), kLogMark);
  bring_up(db, steps);
  EXPECT_EQ(version(db), 2);
  EXPECT_EQ(db.execAndGet("SELECT y FROM a").getInt(), 2);
  bring_up(db, std::span(steps, 1));  // an older program leaves it as it is
  EXPECT_EQ(version(db), 2);
  SQLite::Database fresh(":memory:", SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
  bring_up(fresh, steps);
  EXPECT_EQ(fresh.execAndGet("SELECT y FROM a").getInt(), 2);
}

TEST(LogSteps, AStepThatFailsLeavesWhatWasThere) {
  const char* const steps[] = {"CREATE TABLE a (x)",
                               "INSERT INTO a VALUES (1); INSERT INTO none VALUES (1)"};
  SQLite::Database db(":memory:", SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
  bring_up(db, std::span(steps, 1));
  EXPECT_THROW(bring_up(db, steps), SQLite::Exception);
  EXPECT_EQ(db.execAndGet("PRAGMA user_version").getInt(), 1);
  EXPECT_EQ(db.execAndGet("SELECT count(*) FROM a").getInt(), 0);
}

TEST(LogSteps, OfTheProgramMakeALogOfToday) {
  const TempFolder folder;
  const std::string path = log_of_runs(folder.path() + "/day.db", 1);
  SQLite::Database db(path, SQLite::OPEN_READONLY);
  EXPECT_EQ(db.execAndGet("PRAGMA user_version").getInt(), log_version());
  EXPECT_EQ(log_version(), 1);
}

TEST(TwoLogbooks, TheSecondGivesUpWhenItsPatienceEnds) {
  const TempFolder folder;
  Logbook first(log_of_runs(folder.path() + "/day.db", 1), kWriting);
  Logbook second(first.path(), kWriting, 30);
  {
    Logbook::Writing held(first);
    first.put(plain_run("first", "2026-11-15T10:00:00"));
    const std::vector<Diagnostic> found =
        found_by([&] { second.put(plain_run("second", "2026-11-15T10:00:00")); });
    ASSERT_THAT(found, SizeIs(1));
    EXPECT_EQ(found[0].code, Code::log_busy);
    EXPECT_EQ(second.count_runs(""), 1U);  // reading goes on meanwhile
    held.commit();
  }
  second.put(plain_run("second", "2026-11-15T10:00:00"));
  EXPECT_EQ(first.count_runs(""), 3U);
}

TEST(TwoLogbooks, TheSecondWaitsForTheFirst) {
  const TempFolder folder;
  Logbook first(log_of_runs(folder.path() + "/day.db", 1), kWriting);
  std::thread other;
  {
    Logbook::Writing held(first);
    first.put(plain_run("first", "2026-11-15T10:00:00"));
    other = std::thread([&] {
      Logbook second(first.path(), kWriting, 10'000);
      second.put(plain_run("second", "2026-11-15T10:00:00"));
    });
    std::this_thread::sleep_for(std::chrono::milliseconds(50));
    held.commit();
  }
  other.join();
  EXPECT_THAT(first.karts(), ElementsAre("blue 27", "first", "second"));
}

TEST(TwoLogbooks, ThatMakeOneLogAtOnceBothKeepTheirRuns) {
  const TempFolder folder;
  const std::string path = folder.path() + "/new.db";
  constexpr int kEach = 10;
  const auto write = [&](const std::string& kart) {
    for (int i = 0; i < kEach; ++i)
      Logbook(path, kKeeping, 20'000).put(plain_run(kart, later("2026-11-15T10:00:00", i)));
  };
  std::thread one(write, "one");
  std::thread two(write, "two");
  one.join();
  two.join();
  const Logbook log(path, kReading);
  EXPECT_EQ(log.count_runs("one"), 10U);
  EXPECT_EQ(log.count_runs("two"), 10U);
  EXPECT_THAT(log.damage(), IsEmpty());
}

TEST(FullDiskUnderALog, IsToldAndTheLogHoldsWhatItHeld) {
  const TempFolder folder;
  const std::string path = log_of_runs(folder.path() + "/day.db", 5);
  {
    Logbook log(path, kWriting);
    LoggedRun large = plain_run("other", "2026-11-15T10:00:00");
    large.notes.push_back({std::string(std::size_t{1} << 18U, 'n')});
    for (const std::size_t room : {std::size_t{0}, std::size_t{512}, std::size_t{8192}}) {
      std::vector<Diagnostic> found;
      {
        const FullDisk full(fs::file_size(path) + room);
        found = found_by([&] { log.put(large); });
      }
      ASSERT_THAT(found, SizeIs(1)) << room;
      EXPECT_EQ(found[0].code, Code::log_not_written) << found[0].message;
    }
    EXPECT_EQ(log.put(large), 6);  // room again: the same Logbook goes on
  }
  const Logbook log(path, kReading);
  EXPECT_THAT(log.damage(), IsEmpty());
  EXPECT_EQ(log.count_runs("blue 27"), 5U);
  EXPECT_EQ(log.count_runs("other"), 1U);
}

TEST(FullDiskUnderALog, ThatIsNewIsToldToo) {
  const TempFolder folder;
  const std::string path = folder.path() + "/day.db";
  std::vector<Diagnostic> found;
  {
    const FullDisk full(100);
    found = found_by([&] { Logbook(path, kKeeping); });
  }
  ASSERT_THAT(found, SizeIs(1));
  EXPECT_EQ(found[0].code, Code::log_not_written);
  EXPECT_EQ(Logbook(path, kKeeping).count_runs(""), 0U);
}

}  // namespace
}  // namespace kartwright
